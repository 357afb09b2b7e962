package doubt_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	. "borewright/engine/doubt"
	"borewright/engine/length"
)

// published returns the values of the AIAG MSA manual's study, ten parts by
// three operators in three trials, a unit of theirs being a millimetre here.
func published(tb testing.TB) []Observation {
	tb.Helper()
	var out []Observation
	for _, row := range table(tb, "aiag_10x3x3.csv") {
		trial, err := strconv.Atoi(row[1])
		if err != nil {
			tb.Fatal(err)
		}
		out = append(out, Observation{row[0], row[2], trial, readings(tb, length.MM, row[3])[0]})
	}
	return out
}

func studied(tb interface{ Fatal(...any) }, values []Observation) Study {
	s, err := NewStudy(values)
	if err != nil {
		tb.Fatal(err)
	}
	return s
}

// sigma is a component in the unit of the values.
func sigma(c Component) float64 { return c.Sigma / float64(length.Millimetre) }

func percent(p float64, ok bool) float64 {
	if !ok {
		return math.NaN()
	}
	return p
}

// AIAG MSA manual, average and range method; within 0.0002 and 0.02 points, for
// the printed form rounds on its way.
func TestPublishedStudyByRange(t *testing.T) {
	r := studied(t, published(t)).ByRange()
	for name, x := range map[string]struct{ got, want, within float64 }{
		"EV":      {sigma(r.Repeatability), 0.20188, 2e-4},
		"AV":      {sigma(r.Reproducibility), 0.22963, 2e-4},
		"GRR":     {sigma(r.Gauge), 0.30575, 2e-4},
		"PV":      {sigma(r.ByPart), 1.10456, 2e-4},
		"TV":      {sigma(r.Total), 1.14610, 2e-4},
		"EV, %":   {percent(r.Share(r.Repeatability)), 17.62, 0.02},
		"AV, %":   {percent(r.Share(r.Reproducibility)), 20.04, 0.02},
		"GRR, %":  {percent(r.Share(r.Gauge)), 26.68, 0.02},
		"PV, %":   {percent(r.Share(r.ByPart)), 96.38, 0.02},
		"of 4.0":  {percent(r.OfTolerance(r.Gauge, 4*length.Millimetre)), 600 * 0.30575 / 4, 0.05},
		"to show": {percent(r.Contribution(r.Gauge)), 26.68 * 26.68 / 100, 0.02},
	} {
		if !(math.Abs(x.got-x.want) <= x.within) {
			t.Errorf("%s: %v, want %v", name, x.got, x.want)
		}
	}
	if n, ok := r.Distinct(); n != 5 || !ok {
		t.Errorf("it tells %d sizes, want 5", n)
	}
	if len(r.Notes) > 0 || r.Operators != 3 || r.Parts != 10 || r.Trials != 3 {
		t.Errorf("%d × %d × %d, %q", r.Operators, r.Parts, r.Trials, r.Notes)
	}
}

// The same by analysis of variance.
func TestPublishedStudyByVariance(t *testing.T) {
	r := studied(t, published(t)).ByVariance(Tested)
	if !r.Pooled {
		t.Error("the interaction is not pooled")
	}
	const mm2 = 1e18
	for name, want := range map[string]float64{
		"parts": 88.3619, "operators": 3.1673, "interaction": 0.3590, "repeatability": 2.7589, "total": 94.6471,
	} {
		i := slices.IndexFunc(r.Rows, func(row VarianceRow) bool { return row.Name == name })
		if got := r.Rows[i].SS / mm2; math.Round(got*1e4)/1e4 != want {
			t.Errorf("SS of %s: %v, want %v", name, got, want)
		}
	}
	for name, x := range map[string]struct{ got, want, digits float64 }{
		"F of the interaction": {r.Rows[2].F, 0.434, 1e3},
		"repeatability":        {r.Repeatability.Variance() / mm2, 0.0400, 1e4},
		"reproducibility":      {r.Reproducibility.Variance() / mm2, 0.0515, 1e4},
		"gauge":                {r.Gauge.Variance() / mm2, 0.0914, 1e4},
		"parts":                {r.ByPart.Variance() / mm2, 1.0864, 1e4},
		"total":                {r.Total.Variance() / mm2, 1.1779, 1e4},
		"contribution, %":      {percent(r.Contribution(r.Gauge)), 7.76, 1e2},
		"study, %":             {percent(r.Share(r.Gauge)), 27.86, 1e2},
	} {
		if got := math.Round(x.got*x.digits) / x.digits; got != x.want {
			t.Errorf("%s: %v, want %v", name, x.got, x.want)
		}
	}
	if n, ok := r.Distinct(); n != 4 || !ok {
		t.Errorf("it tells %d sizes, want 4", n)
	}
}

// With the interaction kept it comes out below zero, and the result says that it
// is taken as none.
func TestPublishedStudyWithInteraction(t *testing.T) {
	s := studied(t, published(t))
	r := s.ByVariance(Kept)
	if r.Pooled || !r.Interaction.Clamped || r.Interaction.Sigma != 0 || !r.Interaction.Known {
		t.Errorf("%+v", r.Interaction)
	}
	if len(r.Notes) != 1 || !strings.Contains(r.Notes[0], "below zero") || !strings.Contains(r.Notes[0], "from part to part") {
		t.Errorf("%q", r.Notes)
	}
	if e := s.Repeatability(); !near(e.S, r.Repeatability.Sigma, 1e-12) || e.DF != 60 {
		t.Errorf("pooled %+v, by variance %v", e, r.Repeatability.Sigma)
	}
	if r.Reproducibility != (Component{Sigma: r.ByOperator.Sigma, Known: true}) {
		t.Errorf("%+v of %+v", r.Reproducibility, r.ByOperator)
	}
	if forced := s.ByVariance(Pooled); !forced.Pooled || forced.Repeatability != s.ByVariance(Tested).Repeatability {
		t.Errorf("pooled by choice: %+v", forced)
	}
}

// An interaction that is there is kept: two operators who read two parts the
// other way round.
func TestInteractionIsKept(t *testing.T) {
	var values []Observation
	for i, v := range []length.Length{10, 11, 20, 21, 20, 21, 10, 11} {
		values = append(values, Observation{[]string{"A", "B"}[i/4], []string{"1", "2"}[i/2%2], i%2 + 1, v})
	}
	r := studied(t, values).ByVariance(Tested)
	if r.Pooled || !near(r.Interaction.Variance(), (200-0.5)/2, 1e-12) || r.Rows[2].P > 0.01 {
		t.Errorf("%+v", r)
	}
	if !r.ByOperator.Clamped || !r.ByPart.Clamped || len(r.Notes) != 2 {
		t.Errorf("operators %+v, parts %+v, %q", r.ByOperator, r.ByPart, r.Notes)
	}
}

// without leaves out the values that match.
func without(values []Observation, match func(Observation) bool) []Observation {
	return slices.DeleteFunc(slices.Clone(values), match)
}

// What a study lacks is said; what can still be computed is computed.
func TestSmallStudies(t *testing.T) {
	all := published(t)
	for name, c := range map[string]struct {
		drop                     func(Observation) bool
		operators, parts, trials int
		repeat, operator, part   bool // known by range
		varRepeat, varPart       bool // known by variance
		says                     []string
	}{
		"one operator": {
			func(o Observation) bool { return o.Operator != "A" },
			1, 10, 3, true, false, true, true, true,
			[]string{"one operator"},
		},
		"one part": {
			func(o Observation) bool { return o.Part != "3" },
			3, 1, 3, true, true, false, true, false,
			[]string{"one part"},
		},
		"one place": {
			func(o Observation) bool { return o.Part != "3" || o.Operator != "A" },
			1, 1, 3, true, false, false, true, false,
			[]string{"one operator", "one part"},
		},
		"one trial": {
			func(o Observation) bool { return o.Trial > 1 },
			3, 10, 1, false, false, true, true, true,
			[]string{"one trial"},
		},
		"one value": {
			func(o Observation) bool { return o.Trial > 1 || o.Part != "3" || o.Operator != "A" },
			1, 1, 1, false, false, false, false, false,
			[]string{"nothing can be computed"},
		},
	} {
		s := studied(t, without(all, c.drop))
		r, v := s.ByRange(), s.ByVariance(Tested)
		if r.Operators != c.operators || r.Parts != c.parts || r.Trials != c.trials {
			t.Errorf("%s: %d × %d × %d", name, r.Operators, r.Parts, r.Trials)
		}
		if r.Repeatability.Known != c.repeat || r.ByOperator.Known != c.operator || r.ByPart.Known != c.part {
			t.Errorf("%s, by range: %+v", name, r)
		}
		if v.Repeatability.Known != c.varRepeat || v.ByPart.Known != c.varPart {
			t.Errorf("%s, by variance: %+v", name, v)
		}
		for _, r := range []Result{r, v} {
			notes := strings.Join(r.Notes, "; ")
			for _, want := range c.says {
				if !strings.Contains(notes, want) {
					t.Errorf("%s: %q does not say %q", name, notes, want)
				}
			}
			if _, ok := r.Share(r.Gauge); ok != (r.ByPart.Known && r.Repeatability.Known) {
				t.Errorf("%s: a share of the total: %v", name, ok)
			}
		}
	}
}

// Values that are missing cost the part, or the operator, whichever is less; and
// the sentences name them.
func TestMissingValues(t *testing.T) {
	all := published(t)
	for name, c := range map[string]struct {
		drop             func(Observation) bool
		operators, parts int
		missing          int
		leftOut          string
	}{
		"none": {func(Observation) bool { return false }, 3, 10, 0, ""},
		"one value": {
			func(o Observation) bool { return o.Operator == "B" && o.Part == "4" && o.Trial == 2 },
			3, 9, 1, "left out, values missing: part 4",
		},
		"an operator's half": {
			func(o Observation) bool { return o.Operator == "C" && len(o.Part) == 1 && o.Part > "4" },
			2, 10, 5, "left out, values missing: operator C",
		},
		"a diagonal": {
			func(o Observation) bool {
				return o.Trial == 3 && strings.Contains("A1 B2 C3 A4 B5 C6 A7 B8 C9 A10", o.Operator+o.Part)
			},
			0, 0, 10, "no part was read in full",
		},
	} {
		s := studied(t, without(all, c.drop))
		r, v := s.ByRange(), s.ByVariance(Tested)
		if r.Operators != c.operators || r.Parts != c.parts || v.Operators != c.operators || v.Parts != c.parts {
			t.Errorf("%s: %d × %d by range, %d × %d by variance", name, r.Operators, r.Parts, v.Operators, v.Parts)
		}
		if !strings.HasPrefix(s.LeftOut(), c.leftOut) || (s.LeftOut() == "") != (c.leftOut == "") || len(s.Missing) != c.missing {
			t.Errorf("%s: %q, missing %q", name, s.LeftOut(), s.Missing)
		}
		if !r.Repeatability.Known || !v.Repeatability.Known || v.Total.Known != (c.parts > 0) {
			t.Errorf("%s: %+v", name, v)
		}
	}
	s := studied(t, without(all, func(o Observation) bool { return o.Operator == "B" && o.Part == "4" && o.Trial == 2 }))
	if want := "operator B has 2 of 3 values of part 4"; s.Missing[0] != want {
		t.Errorf("%q, want %q", s.Missing[0], want)
	}
	if e := s.Repeatability(); e.DF != 59 {
		t.Errorf("the repeatability has %d degrees of freedom, want 59", e.DF)
	}
}

// There is no share of what is not known, nor of a tolerance that is none.
func TestSharesOfNothing(t *testing.T) {
	r := studied(t, published(t)).ByRange()
	for name, known := range map[string]func() (float64, bool){
		"no tolerance":         func() (float64, bool) { return r.OfTolerance(r.Gauge, 0) },
		"of nothing known":     func() (float64, bool) { return r.OfTolerance(r.Interaction, 1) },
		"nothing known":        func() (float64, bool) { return r.Share(r.Interaction) },
		"nothing varies":       func() (float64, bool) { return Result{Total: Component{Known: true}}.Share(Component{Known: true}) },
		"contribution of none": func() (float64, bool) { return r.Contribution(Component{}) },
	} {
		if p, ok := known(); ok || p != 0 {
			t.Errorf("%s: %v %%", name, p)
		}
	}
	if n, ok := (Result{ByPart: r.ByPart, Repeatability: Component{Known: true}}).Distinct(); ok {
		t.Errorf("a gauge that does not vary tells %d sizes", n)
	}
}

func TestStudiesRefused(t *testing.T) {
	if _, err := NewStudy(nil); !errors.Is(err, ErrNoValues) {
		t.Errorf("no values: %v", err)
	}
	all := published(t)
	again := append(slices.Clone(all), Observation{"B", "4", 2, 5})
	var wrong *StudyError
	_, err := NewStudy(again)
	if !errors.As(err, &wrong) || err.Error() != `operator "B", part "4", trial 2: this trial is there twice` {
		t.Errorf("twice: %v", err)
	}
	again[90].Trial = 0
	if _, err = NewStudy(again); !errors.As(err, &wrong) || wrong.Trial != 0 {
		t.Errorf("trial 0: %v", err)
	}
}

// Many operators who each read a part of their own are no study; one operator
// may read very many parts.
func TestSparseStudies(t *testing.T) {
	var sparse, long []Observation
	for i := range 500 {
		sparse = append(sparse, Observation{fmt.Sprint(i), fmt.Sprint(i), 1, 5})
		long = append(long, Observation{"A", fmt.Sprint(i), 1, 5}, Observation{"A", fmt.Sprint(i), 2, 6})
	}
	if _, err := NewStudy(sparse); !errors.Is(err, ErrSparse) {
		t.Errorf("sparse: %v", err)
	}
	if r := studied(t, long).ByVariance(Tested); r.Parts != 500 || !r.Total.Known {
		t.Errorf("long: %+v", r)
	}
}

// A range beyond what the others make is pointed at. The published study has
// one: 1.02 where D4 times the mean range, 2.574 × 0.3417, is 0.880.
func TestBeyond(t *testing.T) {
	all := published(t)
	if got := studied(t, all).Beyond(); len(got) != 1 || !strings.HasPrefix(got[0], "operator B, part 4: ") {
		t.Errorf("as published: %q", got)
	}
	i := slices.IndexFunc(all, func(o Observation) bool { return o.Operator == "C" && o.Part == "9" && o.Trial == 2 })
	all[i].Value += 2 * length.Millimetre
	if got := studied(t, all).Beyond(); len(got) != 2 || !strings.HasPrefix(got[1], "operator C, part 9: ") {
		t.Errorf("with a slip: %q", got)
	}
	one := studied(t, []Observation{{"A", "1", 1, 5}})
	if got := one.Beyond(); len(got) != 0 {
		t.Errorf("of one value: %q", got)
	}
}
