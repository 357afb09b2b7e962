package tui

import (
	"strings"
	"testing"

	"borewright/engine/gauge"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// chained takes the launch to main bearing 1, read with the small gauge zeroed
// on main journal 1.
func chained(t *testing.T) (*station, *measure) {
	t.Helper()
	s, m := atLaunch(t)
	err := m.desk.Record(
		record.Setting{Setting: gauge.Setting{ID: "chain", Instrument: "small", On: gauge.OnFeature, Feature: "main-journal/1"}},
		record.Set{Set: gauge.Set{ID: "tchain", Setting: "chain"}})
	if err != nil {
		t.Fatal(err)
	}
	m.move(m.desk.Session.Enter(plan.Feature{Family: plan.MainBearing, At: 1}))
	s.keys("+18", "<enter>")
	if len(m.keys.Text) > 0 {
		s.keys("*")
	}
	m.move(m.justTaken)
	return s, m
}

func TestTheChainShowsClearanceAndSize(t *testing.T) {
	s, m := chained(t)
	if text, _ := m.shown(); text != "0.0018" {
		t.Fatalf("large is %q:\n%s", text, s.r.View())
	}
	size := m.figureText(m.place)
	for _, want := range []string{"clearance over main journal 1 0.0018", size, "cancels"} {
		if !strings.Contains(s.r.View(), want) {
			t.Errorf("%q is not shown:\n%s", want, s.r.View())
		}
	}
	s.keys("c")
	if text, _ := m.shown(); text != size {
		t.Errorf("after c large is %q, want the size %s", text, size)
	}
	s.keys("c")
	if text, _ := m.shown(); text != "0.0018" {
		t.Errorf("after c twice large is %q", text)
	}
	m.move(m.desk.Session.Step(m.place, 1))
	if text, _ := m.shown(); text != "0.0018" && len(m.desk.Session.Now(m.place)) == 0 {
		t.Errorf("what was just taken shows as %q", text)
	}
}

func TestOutsideAChainTheKeyIsNotThere(t *testing.T) {
	_, m := atLaunch(t)
	if len(m.chainKeys()) != 0 || m.chainLines(m.place, nil) != nil {
		t.Error("a ring is no chain")
	}
	h, _ := m.desk.Session.Hand(plan.Bore)
	if got := m.masterText(h); got != "3.7500 in" {
		t.Errorf("counted from %q", got)
	}
}

func TestMixedConditionsAreSaidOnTheMeasureScreen(t *testing.T) {
	s, m := atLaunch(t)
	h, _ := m.desk.Session.Hand(plan.Bore)
	bare := gauge.Set{ID: "bare", Setting: h.Setting.ID}
	if err := m.desk.Record(record.Set{Set: bare}); err != nil {
		t.Fatal(err)
	}
	s.keys("+3", "<enter>")
	if view := s.r.View(); !strings.Contains(view, "readings in different conditions are mixed") {
		t.Errorf("not said:\n%s", view)
	}
}

func TestWarmthIsSaidOnTheMeasureScreen(t *testing.T) {
	s, m := atLaunch(t)
	h, _ := m.desk.Session.Hand(plan.Bore)
	i, x := h.Instrument, h.Setting
	i.Material, i.Alpha, x.At.Gauge, x.ID = "steel", "11.5", "24", "swarm"
	set := gauge.Set{ID: "cold", Setting: x.ID, Plate: h.Set.Plate, At: gauge.Temperatures{Gauge: "19"}}
	if err := m.desk.Record(record.Instrument{Instrument: i}, record.Setting{Setting: x}, record.Set{Set: set}); err != nil {
		t.Fatal(err)
	}
	s.keys("+3", "<enter>")
	view := strings.Join(strings.Fields(s.r.View()), " ")
	if !strings.Contains(view, "colder than when set") {
		t.Errorf("not said:\n%s", s.r.View())
	}
}
