package engine_test

import (
	"slices"
	"testing"

	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

func TestGaugesSayWhatWasDoneWithEach(t *testing.T) {
	repeat := deviation(t, "bore/1", "ta", "0.0004")
	repeat.As = record.Repeat
	bodies := append(gauged(t),
		deviation(t, "bore/1", "ta", "0.0003"), repeat, deviation(t, "bore/2", "tb", "0.0003"),
		zero(t, "ta", "0.0004"), record.Zero{Set: "tb", Skipped: true, Why: "no ring at hand"})
	s := replay(t, bodies)
	gs := s.Gauges()
	if len(gs) != 3 || gs[0].ID != "a" || len(gs[0].Settings) != 1 {
		t.Fatalf("gauges %+v", gs)
	}
	a := gs[0].Settings[0]
	if a.Readings != 2 || a.Suspect != 2 || !a.Doubtful || a.Size.Format(length.In, 4) != "3.7500" || len(a.Sets) != 1 {
		t.Errorf("setting of a: %+v", a)
	}
	if len(a.Checks) != 1 || a.Checks[0].Drift.Format(length.In, 4) != "0.0004" || a.Made.IsZero() {
		t.Errorf("checks of a: %+v, made %v", a.Checks, a.Made)
	}
	if !gs[0].Repeats.Known() || gs[0].Repeats.DF != 1 || gs[1].Repeats.Known() {
		t.Errorf("repeatability of a %+v, of b %+v", gs[0].Repeats, gs[1].Repeats)
	}
	b := gs[1].Settings[0]
	if b.Readings != 1 || b.Suspect != 0 || b.Doubtful || len(b.Checks) != 1 || b.Checks[0].Drift.Measured() || b.Checks[0].Why != "no ring at hand" {
		t.Errorf("setting of b: %+v", b)
	}
	if m := gs[2].Settings[0]; m.Readings != 0 || len(m.Checks) != 0 {
		t.Errorf("setting of m: %+v", m)
	}
}

func TestGaugesSayWhatTheyAreChosenFor(t *testing.T) {
	gs := chain(t, "0.0003").Gauges()
	if len(gs) != 2 || len(gs[1].For) != 0 {
		t.Fatalf("gauges %+v", gs)
	}
	if x := gs[1].Settings[0]; x.On != gauge.OnFeature || x.Size.Format(length.In, 4) != "2.0003" {
		t.Errorf("the chained setting has %s", x.Size.Format(length.In, 4))
	}
	s := replay(t, append(gauged(t), record.Plan{Plan: plan.Plan{Families: []plan.Group{
		{Family: plan.Bore, Levels: plan.Grid(plan.Bore, 1), Directions: []string{"across"}, Instrument: "b"},
	}}}))
	if got := s.Gauges()[1].For; !slices.Equal(got, []plan.Family{plan.Bore}) {
		t.Errorf("b is for %v", got)
	}
}
