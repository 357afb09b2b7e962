package engine_test

import (
	"testing"

	"borewright/engine/gauge"
	"borewright/engine/plan"
	"borewright/engine/record"
)

func TestAZeroIsBelievedUntilACheckIsBadAndAgainAfterAGoodOne(t *testing.T) {
	bodies := append(gauged(t),
		deviation(t, "bore/1", "ta", "0.0003"), deviation(t, "bore/2", "tb", "0.0003"), deviation(t, "bore/3", "ta", "0.0003"))
	for _, c := range []struct {
		check    record.Zero
		doubtful bool
		suspect  int
	}{
		{zero(t, "ta", "0.0001"), false, 0},
		{zero(t, "ta", "0.0004"), true, 0},
		{zero(t, "ta", "0.0000"), false, 0},
	} {
		bodies = append(bodies, c.check)
		s := replay(t, bodies)
		if s.Doubtful("sa") != c.doubtful || s.Doubtful("sb") || s.SuspectReadings("sa") != c.suspect {
			t.Errorf("after %s: doubtful %v, %d suspect", c.check.Keyed, s.Doubtful("sa"), s.SuspectReadings("sa"))
		}
	}
	bodies = append(bodies, deviation(t, "bore/4", "ta", "0.0003"), zero(t, "ta", "0.0004"))
	if s := replay(t, bodies); s.SuspectReadings("sa") != 1 || s.SuspectReadings("sb") != 0 {
		t.Errorf("%d and %d suspect, want 1 and 0", s.SuspectReadings("sa"), s.SuspectReadings("sb"))
	}
}

func TestHandWithIsWhatAnotherGaugeWouldRead(t *testing.T) {
	bodies := gauged(t)
	s := replay(t, bodies)
	if _, err := s.Hand(plan.Bore); err == nil {
		t.Error("no gauge is chosen, and one is in the hand")
	}
	h, err := s.HandWith(plan.Bore, "b")
	if err != nil || h.Setting.ID != "sb" || h.Set.ID != "tb" {
		t.Errorf("with b: %+v, %v", h, err)
	}
	bodies = append(bodies, record.Setting{Setting: gauge.Setting{ID: "sb2", Instrument: "b", On: gauge.OnRing, Size: h.Setting.Size}},
		record.Set{Set: gauge.Set{ID: "tb2", Setting: "sb2"}})
	if h, _ := replay(t, bodies).HandWith(plan.Bore, "b"); h.Set.ID != "tb2" {
		t.Errorf("the newest set is %q, want tb2", h.Set.ID)
	}
	for f, i := range map[plan.Family]string{plan.Bore: "none", plan.MainJournal: "a"} {
		if _, err := s.HandWith(f, i); err == nil {
			t.Errorf("%s with %s is no hand", f, i)
		}
	}
}
