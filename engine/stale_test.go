package engine_test

import (
	"testing"
	"time"

	"borewright/engine/plan"
	"borewright/engine/record"
)

func TestAZeroLeftOvernightIsStale(t *testing.T) {
	choose := record.Plan{Plan: plan.Plan{Families: []plan.Group{
		{Family: plan.Bore, Levels: plan.Grid(plan.Bore, 1), Directions: []string{"across"}, Instrument: "a"},
	}}}
	for _, c := range []struct {
		name  string
		hours time.Duration
		want  bool
		rules int
		then  []record.Body
	}{
		{"at once", 0, false, 0, []record.Body{deviation(t, "bore/1", "ta", "0.0003")}},
		{"seven hours", 7, false, 0, []record.Body{deviation(t, "bore/1", "ta", "0.0003")}},
		{"eight hours", 8, true, 0, []record.Body{deviation(t, "bore/1", "ta", "0.0003")}},
		{"nothing read", 9, true, 0, nil},
		{"twelve allowed", 9, false, 12, []record.Body{deviation(t, "bore/1", "ta", "0.0003")}},
		{"two allowed", 3, true, 2, []record.Body{deviation(t, "bore/1", "ta", "0.0003")}},
		{"another gauge used since", 8, true, 0, []record.Body{deviation(t, "bore/1", "tb", "0.0003")}},
		{"long ago", 24 * 400, true, 0, []record.Body{zero(t, "ta", "0.0000")}},
	} {
		bodies := append(gauged(t), choose)
		if c.rules > 0 {
			bodies = append(bodies, record.Rules{StaleHours: c.rules})
		}
		s := replay(t, append(bodies, c.then...))
		last := s.Events()[len(s.Events())-1].At
		h, hours, stale := s.Stale(plan.Bore, last.Add(c.hours*time.Hour))
		if stale != c.want || h.Setting.ID != "sa" || hours < int(c.hours) {
			t.Errorf("%s: stale %v after %d hours, want %v", c.name, stale, hours, c.want)
		}
	}
}

func TestASkippedCheckIsNotAskedForAgain(t *testing.T) {
	bodies := append(gauged(t), record.Plan{Plan: plan.Plan{Families: []plan.Group{
		{Family: plan.Bore, Levels: plan.Grid(plan.Bore, 1), Directions: []string{"across"}, Instrument: "a"},
	}}})
	s := replay(t, append(bodies, record.Zero{Set: "ta", Skipped: true, Why: "no ring at hand"}))
	last := s.Events()[len(s.Events())-1].At
	if _, _, stale := s.Stale(plan.Bore, last.Add(time.Hour)); stale {
		t.Error("asked for again an hour later")
	}
	if _, _, stale := s.Stale(plan.Piston, last.Add(99*time.Hour)); stale {
		t.Error("a family that is not planned has a stale zero")
	}
}
