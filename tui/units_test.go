package tui

import (
	"strings"
	"testing"

	"borewright/engine/length"
	"borewright/engine/record"
)

func TestTheUnitIsToggledAtOneKey(t *testing.T) {
	s, m := atLaunch(t)
	keyed := len(s.book.sessions[launchUID])
	s.keys("u")
	if r := s.last(launchUID).Body.(record.Rules); r.Unit != length.MM || m.where() != "bore 4, middle, across" {
		t.Fatalf("u recorded %+v at %s", r, m.where())
	}
	for _, want := range []string{
		"diametral, mm", "95.255", // the readings
		"95.2500-95.2754", "95.2500 mm (3.7500 in)", // the limits
		"key graduations from 3.7500 in", // what is keyed
	} {
		if view := s.r.View(); !strings.Contains(view, want) {
			t.Errorf("%q is not on the screen:\n%s", want, view)
		}
	}
	s.keys("+4")
	if view := s.r.View(); !strings.Contains(view, "+4 → 3.7504 in, LARGER") {
		t.Errorf("the echo left the gauge's unit:\n%s", view)
	}
	s.keys("<enter>", "u")
	if got := len(s.book.sessions[launchUID]) - keyed; got != 3 {
		t.Errorf("%d events, want the unit, the reading and the unit", got)
	}
	if m.desk.Session.Unit() != length.In {
		t.Errorf("twice is %s", m.desk.Session.Unit())
	}
	for _, x := range m.desk.Session.Log() {
		if r, ok := x.Body.(record.Reading); ok && r.Keyed == "+4" && !strings.Contains(x.Text, "+0.0004 in from zero, keyed +4") {
			t.Errorf("the log says %q", x.Text)
		}
	}
}

func TestAUnitThatIsKeyedIsNoKey(t *testing.T) {
	s, m := atLaunch(t)
	before := len(s.book.sessions[launchUID])
	s.keys("2u")
	if m.keys.Text != "2u" || len(s.book.sessions[launchUID]) != before {
		t.Errorf("the field holds %q after %d events", m.keys.Text, len(s.book.sessions[launchUID])-before)
	}
}

func TestWhatIsKeyedInAnotherUnitIsSaid(t *testing.T) {
	s, _ := atLaunch(t)
	s.keys("/81.3", "<enter>", "u")
	if view := s.r.View(); !strings.Contains(view, "69.835") || !strings.Contains(view, "stands here, keyed 2.7494: a new number replaces it") {
		t.Errorf("a main journal in millimetres:\n%s", view)
	}
	s.keys("u")
	if view := s.r.View(); !strings.Contains(view, "stands here: a new number") {
		t.Errorf("in the gauge's own unit:\n%s", view)
	}
}

func TestTheWorstScreenTogglesTheUnitToo(t *testing.T) {
	s, _ := atLaunch(t)
	s.keys("w", "u")
	if view := s.r.View(); !strings.Contains(view, "0.023 of 0.0127 mm (0.0005 in) allowed") {
		t.Errorf("the findings in millimetres:\n%s", view)
	}
	top[*worst](s)
}

// Whatever the unit, the screens keep their shape.
func TestTheUnitIsHeldByEveryScreenOfASession(t *testing.T) {
	s, m := atLaunch(t)
	if err := m.desk.Record(record.Rules{Unit: length.MM, StaleHours: 9}); err != nil {
		t.Fatal(err)
	}
	s.keys("u")
	if r := m.desk.Session.Rules(); r.StaleHours != 9 || r.Unit != length.In {
		t.Errorf("the rules became %+v", r)
	}
	s.keys("u")
	s.keys("<esc>", "<enter>")
	if got := top[*measure](s).desk.Session.Unit(); got != length.MM {
		t.Errorf("opened again it shows %s", got)
	}
}
