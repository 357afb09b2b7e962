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
		{"clock put back by an hour", -1, true, 0, []record.Body{deviation(t, "bore/1", "ta", "0.0003")}},
		{"clock put back by years", -24 * 400, true, 0, nil},
	} {
		bodies := append(gauged(t), choose)
		if c.rules > 0 {
			bodies = append(bodies, record.Rules{StaleHours: c.rules})
		}
		s := replay(t, append(bodies, c.then...))
		last := s.Events()[len(s.Events())-1].At
		h, lay, stale := s.Stale(plan.Bore, last.Add(c.hours*time.Hour))
		if stale != c.want || h.Setting.ID != "sa" || lay < c.hours*time.Hour || (lay < 0) != (c.hours < 0) {
			t.Errorf("%s: stale %v after %v, want %v", c.name, stale, lay, c.want)
		}
	}
}

// A clock that is set right by minutes asks for nothing; one that was put back does,
// and once the check was skipped, at whatever time the clock shows, not again.
func TestAClockPutBackIsAskedAboutOnce(t *testing.T) {
	choose := record.Plan{Plan: plan.Plan{Families: []plan.Group{
		{Family: plan.Bore, Levels: plan.Grid(plan.Bore, 1), Directions: []string{"across"}, Instrument: "a"},
	}}}
	s := replay(t, append(gauged(t), choose, deviation(t, "bore/1", "ta", "0.0003")))
	end := s.Events()[len(s.Events())-1]
	for back, want := range map[time.Duration]bool{time.Second: false, 5 * time.Minute: false, 6 * time.Minute: true, 20 * time.Hour: true} {
		if _, _, stale := s.Stale(plan.Bore, end.At.Add(-back)); stale != want {
			t.Errorf("put back by %v: stale %v", back, stale)
		}
	}
	morning := end.At.Add(-20 * time.Hour)
	skipped, err := record.Seal(record.Event{At: morning, Body: record.Zero{Set: "ta", Skipped: true, Why: "put back"}}, end.Head)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.Apply(skipped); err != nil {
		t.Fatal(err)
	}
	if _, lay, stale := s.Stale(plan.Bore, morning.Add(time.Minute)); stale || lay != time.Minute {
		t.Errorf("after the check: stale %v after %v", stale, lay)
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
