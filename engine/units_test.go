package engine_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine"
	"borewright/engine/enginetest"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// worded takes out of an assessment what is words or decimals, and which event
// it is of.
func worded(a *engine.Assessment) *engine.Assessment {
	b := *a
	b.Head = record.Head{}
	b.Findings = copies(a.Findings)
	for i := range b.Findings {
		b.Findings[i].Text = ""
	}
	b.Cylinders, b.Mains = nil, nil // of the same findings
	b.Features = copies(a.Features)
	b.Clearances = copies(a.Clearances)
	for i := range b.Features {
		b.Features[i].Places = 0
	}
	for i := range b.Clearances {
		b.Clearances[i].Places = 0
	}
	return &b
}

// copies are rows that may be changed.
func copies[T any](rows []*T) []*T {
	out := make([]*T, len(rows))
	for i, x := range values(rows) {
		out[i] = &x
	}
	return out
}

// Another unit changes words and decimals and nothing else, and the first unit
// again changes nothing at all.
func TestTheUnitChangesNoFigure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		home := rapid.SampledFrom([]length.Unit{length.MM, length.In}).Draw(t, "unit")
		bodies := acts(t, small(home, ""))
		s := replay(t, bodies)
		before := engine.Assess(s)
		touched := append(bodies, s.RulesIn(s.OtherUnit()))
		s = replay(t, touched)
		other := engine.Assess(s)
		if s.Unit() == home {
			t.Fatalf("the unit stayed %s", home)
		}
		compare(t, worded(before), worded(other))
		s = replay(t, append(touched, s.RulesIn(s.OtherUnit())))
		again := engine.Assess(s)
		again.Head = before.Head
		if s.Unit() != home {
			t.Fatalf("twice is %s, not %s", s.Unit(), home)
		}
		same(t, before, again)
	})
}

// compare is same, leaving what a feature or clearance keeps for itself.
func compare(t *rapid.T, a, b *engine.Assessment) {
	t.Helper()
	if !reflect.DeepEqual(a.Findings, b.Findings) {
		t.Fatalf("findings changed:\n%+v\n%+v", values(a.Findings), values(b.Findings))
	}
	for i := range a.Features {
		x, y := a.Features[i], b.Features[i]
		if !reflect.DeepEqual(x.Figures, y.Figures) || !reflect.DeepEqual(x.Grid, y.Grid) || !reflect.DeepEqual(x.AsFound, y.AsFound) {
			t.Fatalf("%s changed:\n%+v\n%+v", x.Name, x, y)
		}
	}
	for i := range a.Clearances {
		if x, y := a.Clearances[i], b.Clearances[i]; !reflect.DeepEqual(x.Clearance, y.Clearance) {
			t.Fatalf("the clearance of %s changed:\n%+v\n%+v", x.Name, x, y)
		}
	}
}

func TestTheUnitLeavesTheOtherRules(t *testing.T) {
	rules := record.Rules{
		Unit: length.MM, Judge: limit.Wear, Clearance: limit.MeanMean, StaleHours: 12, Decision: record.Guarded,
		Coverage: "2", Drift: enginetest.Written(t, "0.002 mm"), BlindRate: "0.1",
		Definitions: map[string]string{string(limit.Taper): string(limit.Spread)},
	}
	s := replay(t, append(small(length.MM, ""), rules))
	got := s.RulesIn(s.OtherUnit())
	rules.Unit = length.In
	if !reflect.DeepEqual(got, rules) {
		t.Errorf("the rules became %+v", got)
	}
}

func TestFiguresAndLimitsInAnotherUnit(t *testing.T) {
	s := replay(t, append(small(length.MM, ""),
		readingAt("bore/1", "a", "across", "82.004"), readingAt("bore/1", "a", "along", "82.030"),
		record.Rules{Unit: length.In}))
	a := engine.Assess(s)
	var texts []string
	for _, f := range a.Findings {
		texts = append(texts, f.Text)
	}
	for _, want := range []string{
		"bore 1, top along: size 3.22953, too large: at most 3.22913 in (82.020 mm)",
		"bore 1, top: out-of-round 0.00102 of 0.00039 in (0.010 mm) allowed",
	} {
		if !slices.Contains(texts, want) {
			t.Errorf("%q is not among\n%s", want, strings.Join(texts, "\n"))
		}
	}
	live := a.Live(s, plan.Feature{Family: plan.Bore, At: 1})
	if got := live[0].Value + " " + live[0].Against; got != "3.22953 3.22835-3.22913" {
		t.Errorf("live: %q", got)
	}
}

// sizeText returns the sentence on the size of bore 1.
func sizeText(t *testing.T, s *engine.Session) string {
	t.Helper()
	for _, f := range engine.Assess(s).Findings {
		if f.Of == (plan.Feature{Family: plan.Bore, At: 1}) && f.On == limit.Size {
			return f.Text
		}
	}
	t.Fatal("the size of bore 1 is not judged")
	return ""
}

func TestARangeIsToldInBothUnits(t *testing.T) {
	for unit, want := range map[length.Unit]string{
		length.MM: "bore 1, top across: size 82.004, 82.000 to 82.020 mm",
		length.In: "bore 1, top across: size 3.22850, 3.22835 to 3.22913 in (82.000 to 82.020 mm)",
	} {
		s := replay(t, append(small(unit, ""), readingAt("bore/1", "a", "across", "82.004")))
		if got := sizeText(t, s); got != want {
			t.Errorf("%s: %q, want %q", unit, got, want)
		}
	}
	mixed := limit.Limits{On: limit.Size, Of: "bore", New: limit.Range{Low: enginetest.Written(t, "82.000 mm"), High: enginetest.Written(t, "3.2300 in")}}
	s := replay(t, append(small(length.In, ""), record.Limit{Limits: mixed}, readingAt("bore/1", "a", "across", "82.004")))
	if got, want := sizeText(t, s), "bore 1, top across: size 3.22850, 3.22835 in (82.000 mm) to 3.2300 in"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestTheUnitIsToldInTheLog(t *testing.T) {
	s := replay(t, append(small(length.MM, ""),
		record.Rules{Unit: length.In, Judge: limit.Wear, Definitions: map[string]string{"taper": "spread"}}, record.Rules{}))
	log := s.Log()
	n := len(log)
	if got, want := log[n-2].Text, "rules: figures shown in in, taper by spread, judged by wear limits"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got := log[n-1].Text; got != "rules: the usual ones" {
		t.Errorf("no rules are told as %q", got)
	}
}

func TestTheArchiveLeavesAClosedSessionFinal(t *testing.T) {
	f := plan.Feature{Family: plan.Bore, At: 1}
	bodies := append(small(length.MM, ""), readingAt("bore/1", "a", "across", "82.004"))
	for _, c := range []struct {
		states []string
		want   string
	}{
		{[]string{record.Archived}, "as found"},
		{[]string{record.Closed}, "final"},
		{[]string{record.Closed, record.Archived}, "final"},
		{[]string{record.Closed, record.Archived, record.Restored}, "final"},
		{[]string{record.Closed, record.Archived, record.Restored, record.Reopened}, "as found"},
	} {
		all := slices.Clone(bodies)
		for _, x := range c.states {
			all = append(all, record.State{State: x})
		}
		s := replay(t, all)
		if got := s.StageName(f, s.Stage(f)); got != c.want {
			t.Errorf("%v: %s, want %s", c.states, got, c.want)
		}
		if last := c.states[len(c.states)-1]; s.Lifecycle() != last {
			t.Errorf("%v: %s", c.states, s.Lifecycle())
		}
	}
}
