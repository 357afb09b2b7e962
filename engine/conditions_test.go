package engine_test

import (
	"strings"
	"testing"

	"borewright/engine"
	"borewright/engine/gauge"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// conditioned is the session of gauged with bores of two levels and a choice of
// sets of gauge a.
func conditioned(t *testing.T, then ...record.Body) *engine.Session {
	t.Helper()
	bodies := append(gauged(t), record.Plan{Plan: plan.Plan{Families: []plan.Group{
		{Family: plan.Bore, Levels: plan.Grid(plan.Bore, 2), Directions: []string{"across"}, Instrument: "a"},
	}}})
	for _, x := range []gauge.Set{
		{ID: "plate", Setting: "sa", Plate: "two inch plate", Fastener: "studs"},
		{ID: "warm", Setting: "sa", Plate: "two inch plate", Fastener: "studs", At: gauge.Temperatures{Part: "24"}},
		{ID: "bolts", Setting: "sa", Plate: "two inch plate", Fastener: "bolts"},
		{ID: "bare", Setting: "sa"},
	} {
		bodies = append(bodies, record.Set{Set: x})
	}
	return replay(t, append(bodies, then...))
}

// honed is the first bore honed.
func honed() record.Work {
	f := []plan.Feature{{Family: plan.Bore, At: 1}}
	return record.Work{Did: "honed", To: f, Changes: f, Metal: true}
}

// at is a reading of bore 1 at a level in a set.
func at(t *testing.T, level, set string) record.Reading {
	t.Helper()
	r := deviation(t, "bore/1", set, "0.0003")
	r.Level = level
	return r
}

func TestReadingsInDifferentConditionsAreSaid(t *testing.T) {
	one := plan.Feature{Family: plan.Bore, At: 1}
	for _, c := range []struct {
		name, want string
		then       []record.Body
	}{
		{"nothing read", "", nil},
		{"one set", "", []record.Body{at(t, "a", "plate"), at(t, "b", "plate")}},
		{"temperatures alone", "", []record.Body{at(t, "a", "plate"), at(t, "b", "warm")}},
		{"without the plate", "mixed in one figure: deck plate two inch plate, and none", []record.Body{at(t, "a", "plate"), at(t, "b", "bare")}},
		{"another fastener", "mixed in one figure: fastener studs, and bolts", []record.Body{at(t, "a", "plate"), at(t, "b", "bolts")}},
		{"honed, read alike", "", []record.Body{at(t, "a", "plate"), honed(), at(t, "a", "plate")}},
		{"honed, read bare", "read on a deck plate (two inch plate) before it was honed, and without one now", []record.Body{at(t, "a", "plate"), honed(), at(t, "a", "bare")}},
		{"honed, read on a plate", "read without a deck plate before it was honed, and on one now", []record.Body{at(t, "a", "bare"), honed(), at(t, "a", "plate")}},
		{"honed, other fastener", "fastener changed since it was honed: studs before, bolts now", []record.Body{at(t, "a", "plate"), honed(), at(t, "a", "bolts")}},
		{"honed twice, read between never", "without one now", []record.Body{at(t, "a", "plate"), honed(), honed(), at(t, "a", "bare")}},
		{"honed, the open set is bare", "without one now", []record.Body{at(t, "a", "plate"), honed()}},
	} {
		got := conditioned(t, c.then...).MixedConditions(one)
		if (c.want == "") != (got == "") || !strings.Contains(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

func TestConditionsAreOfEachFeatureAlone(t *testing.T) {
	s := conditioned(t, at(t, "a", "plate"), deviation(t, "bore/2", "bare", "0.0001"))
	for n := 1; n <= 4; n++ {
		if got := s.MixedConditions(plan.Feature{Family: plan.Bore, At: n}); got != "" {
			t.Errorf("bore %d: %q", n, got)
		}
	}
}

func TestTheFiguresSayMixedConditions(t *testing.T) {
	s := conditioned(t, at(t, "a", "plate"), at(t, "b", "bare"))
	lines := strings.Join(engine.Assess(s).Figures(s), "\n")
	if !strings.Contains(lines, "note: readings in different conditions are mixed in one figure") {
		t.Errorf("not said:\n%s", lines)
	}
}
