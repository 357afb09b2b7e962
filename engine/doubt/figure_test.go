package doubt_test

import (
	"math"
	"slices"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	. "borewright/engine/doubt"
	"borewright/engine/length"
)

// dial is a reading of a gauge that reads 0.0001 in, set on a ring known to
// 0.00004 in.
func dial(key string) Reading {
	return Reading{
		Key: key, Gauge: "b1", Step: length.Of(length.Inch / 10_000),
		Common: []Contribution{Master("ring 1", length.Inch/25_000)},
	}
}

// budget returns the budget of a figure of valid contributions.
func budget(tb interface{ Fatal(...any) }, f Figure) Budget {
	b, err := f.Budget()
	if err != nil {
		tb.Fatal(err)
	}
	return b
}

var stepU = tenth / math.Sqrt(12)

// Of reading step and repeatability the larger counts, not both; repeats make
// the repeatability smaller, and never less than the step.
func TestStepOrRepeatability(t *testing.T) {
	for name, c := range map[string]struct {
		s     float64
		df    int
		count int
		want  float64
		line  string
	}{
		"no repeats known":       {0, 0, 1, stepU, "the gauge's step (b1)"},
		"s of no freedom":        {tenth, 0, 1, stepU, "the gauge's step (b1)"},
		"steadier than its step": {tenth / 10, 9, 1, stepU, "the gauge's step (b1)"},
		"as steady as its step":  {stepU, 9, 1, stepU, "repeatability (b1)"},
		"it scatters":            {tenth, 9, 1, tenth, "repeatability (b1)"},
		"count not stated":       {tenth, 9, 0, tenth, "repeatability (b1)"},
		"the mean of four":       {tenth, 9, 4, tenth / 2, "repeatability (b1)"},
		"the mean of very many":  {tenth, 9, 1000, stepU, "the gauge's step (b1)"},
	} {
		r := dial("bore/1 a across")
		r.Common, r.Count, r.Repeat = nil, c.count, Estimate{S: c.s, DF: c.df}
		b := budget(t, Of(r))
		if !near(b.U, c.want, 1e-14) || len(b.Lines) != 1 || b.Lines[0].Name != c.line {
			t.Errorf("%s: %+v, want %v of %s", name, b, c.want, c.line)
		}
	}
	r := Reading{Key: "x", Repeat: Estimate{S: 2, DF: 3}}
	if b := budget(t, Of(r)); b.U != 2 || b.Lines[0].Name != "repeatability" {
		t.Errorf("without a step or a name: %+v", b)
	}
	if StepDoubt(length.Exact{}) != 0 || !near(StepDoubt(length.Of(12)), math.Sqrt(12), 1e-15) {
		t.Errorf("steps: %v and %v", StepDoubt(length.Exact{}), StepDoubt(length.Of(12)))
	}
}

// The master is in a size and cancels in a taper; the step is in both.
func TestFiguresOfReadings(t *testing.T) {
	a, b, c := dial("a"), dial("b"), dial("c")
	master := tenth / 5
	other := dial("d")
	other.Common = []Contribution{Master("ring 2", length.Inch/25_000)}
	for name, x := range map[string]struct {
		f      Figure
		want   float64
		places int
	}{
		"a size":                  {Of(a), math.Hypot(stepU, master), 1},
		"a mean":                  {Mean(a, b, c), math.Hypot(stepU/math.Sqrt(3), master), 3},
		"a taper":                 {Of(a).Less(Of(b)), stepU * math.Sqrt2, 2},
		"a sum":                   {Of(a).Plus(Of(b)), math.Hypot(stepU*math.Sqrt2, 2*master), 2},
		"a size less itself":      {Of(a).Less(Of(a)), 0, 0},
		"one less the mean":       {Of(a).Less(Mean(a, b, c)), stepU * math.Sqrt(2.0/3), 3},
		"with two rings":          {Of(a).Less(Of(other)), math.Sqrt2 * math.Hypot(stepU, master), 2},
		"nothing":                 {Figure{}, 0, 0},
		"a mean of nothing":       {Mean(), 0, 0},
		"nothing and a size":      {Figure{}.Plus(Of(a)), math.Hypot(stepU, master), 1},
		"a size less nothing":     {Of(a).Less(Figure{}), math.Hypot(stepU, master), 1},
		"half the difference":     {Weighted([]Reading{a, b}, []float64{1, -1}, 2), stepU / math.Sqrt2, 2},
		"divided by less than 0":  {Weighted([]Reading{a}, []float64{1}, -1), math.Hypot(stepU, master), 1},
		"divided by nothing":      {Weighted([]Reading{a}, []float64{1}, 0), 0, 0},
		"a weight for each":       {Weighted([]Reading{a, b}, []float64{1}, 1), 0, 0},
		"a mean less another one": {Mean(a, b).Less(Mean(c, dial("e"), dial("f"))), stepU * math.Sqrt(1.0/2+1.0/3), 5},
	} {
		b := budget(t, x.f)
		if !near(b.U, x.want, 1e-14) || x.f.Places() != x.places {
			t.Errorf("%s: %v of %d places, want %v of %d", name, b.U, x.f.Places(), x.want, x.places)
		}
	}
}

// The mean of means counts each of them once, whatever it is of.
func TestMeanOf(t *testing.T) {
	a, b, c := dial("a"), dial("b"), dial("c")
	for name, x := range map[string]struct {
		f    Figure
		want float64
	}{
		"of one":        {MeanOf(Of(a)), math.Hypot(stepU, tenth/5)},
		"of two":        {MeanOf(Of(a), Of(b)), math.Hypot(stepU/math.Sqrt2, tenth/5)},
		"of unequal":    {MeanOf(Mean(a, b), Of(c)), math.Hypot(stepU*math.Sqrt(2.0/16+1.0/4), tenth/5)},
		"less its own":  {MeanOf(Of(a), Of(b)).Less(Mean(a, b)), 0},
		"of nothing":    {MeanOf(), 0},
		"with one void": {MeanOf(Of(a), Figure{}).Less(MeanOf(Of(a), Figure{})), 0},
	} {
		if b := budget(t, x.f); !near(b.U, x.want, 1e-14) {
			t.Errorf("%s: %v, want %v", name, b.U, x.want)
		}
	}
}

// In means and differences of means, of however many readings, what is common
// is gone to the last bit, and the budget names it.
func TestTheMasterCancelsExactly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		value := rapid.Float64Range(1, 1e9).Draw(t, "value")
		mean := func(name string) Figure {
			var rs []Reading
			for i := range rapid.IntRange(1, 9).Draw(t, name) {
				rs = append(rs, Reading{
					Key:    name + strconv.Itoa(i),
					Common: []Contribution{{Name: "the master", Source: "r1", Value: value, Sensitivity: 1}},
				})
			}
			return Mean(rs...)
		}
		b := budget(t, mean("first").Less(mean("second")))
		if b.U != 0 || !slices.Equal(b.Cancelled, []string{"the master"}) {
			t.Errorf("%v is left, cancelled %q", b.U, b.Cancelled)
		}
	})
}

// A least-squares line through readings at x has a slope doubtful by
// u/√Σ(x - x̄)², so its taper by that times the way; the master cancels.
func TestSlopeTaper(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		depths := rapid.SliceOfNDistinct(rapid.Int64Range(0, 300), 2, 6, rapid.ID).Draw(t, "depths")
		slices.Sort(depths)
		var rs []Reading
		var x []float64
		mean := 0.0
		for i, d := range depths {
			rs, x = append(rs, dial(strconv.Itoa(i))), append(x, float64(d)*float64(length.Millimetre))
			mean += x[i] / float64(len(depths))
		}
		squares := 0.0
		for _, d := range x {
			squares += (d - mean) * (d - mean)
		}
		b := budget(t, SlopeTaper(rs, x))
		if want := stepU * (x[len(x)-1] - x[0]) / math.Sqrt(squares); !near(b.U, want, 1e-12) || len(b.Cancelled) != 1 {
			t.Errorf("%v, want %v; cancelled %q", b.U, want, b.Cancelled)
		}
		if ends := budget(t, Of(rs[0]).Less(Of(rs[len(rs)-1]))); len(rs) == 2 && !near(ends.U, b.U, 1e-12) {
			t.Errorf("of two levels %v, end to end %v", b.U, ends.U)
		}
	})
	for _, depths := range [][]float64{nil, {1}, {5, 5}, {5, 9, 5}} {
		rs := make([]Reading, len(depths))
		if b := budget(t, SlopeTaper(rs, depths)); b.U != 0 {
			t.Errorf("at %v: %v", depths, b.U)
		}
	}
}

// The chain: a journal read with a micrometer, the bore gauge set on that
// micrometer. Its error is in both sizes and not in the clearance.
func TestTheChain(t *testing.T) {
	scale := Contribution{Name: "the micrometer", Source: "micrometer m1", Kind: Rectangular, Value: 3 * tenth, Sensitivity: 1}
	journal, bore := dial("journal"), dial("bore")
	journal.Gauge = "m1"
	journal.Common, bore.Common = []Contribution{scale}, []Contribution{scale}
	for name, f := range map[string]Figure{"journal": Of(journal), "bore": Of(bore)} {
		b := budget(t, f)
		if want := math.Hypot(stepU, 3*tenth/math.Sqrt(3)); !near(b.U, want, 1e-14) || b.Sentence() != "most of it is the micrometer" {
			t.Errorf("%s: %v, want %v; %s", name, b.U, want, b.Sentence())
		}
	}
	b := budget(t, Of(bore).Less(Of(journal)))
	want := "most of it is the gauge's step (b1) and the gauge's step (m1); the micrometer cancels"
	if !near(b.U, stepU*math.Sqrt2, 1e-14) || !slices.Equal(b.Cancelled, []string{"the micrometer"}) {
		t.Errorf("clearance: %v, %q", b.U, b.Sentence())
	}
	if got := b.Sentence(); got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// What drifted is each reading's own: it is in a taper too.
func TestDriftStays(t *testing.T) {
	a, b := dial("a"), dial("b")
	a.Common, b.Common = append(a.Common, Drift("a", 30)), append(b.Common, Drift("b", -30))
	got := budget(t, Of(a).Less(Of(b)))
	if want := math.Hypot(stepU, 30/math.Sqrt(3)) * math.Sqrt2; !near(got.U, want, 1e-14) {
		t.Errorf("%v, want %v", got.U, want)
	}
}
