package tui

import (
	"strings"
	"testing"

	"borewright/engine/record"
)

// In the launch the worst finding is the out-of-round of bore 2 in the middle:
// it rests on both directions there.
func TestTheWorstIsMeasuredAgain(t *testing.T) {
	s, m := atLaunch(t)
	s.keys("w", "m")
	if m.where() != "bore 2, middle, across" || !strings.Contains(s.r.View(), "measuring again, 1 of 2: a new number replaces") {
		t.Fatalf("m leads to %s:\n%s", m.where(), s.r.View())
	}
	s.keys("+3", "<enter>")
	if r := s.last(launchUID).Body.(record.Reading); r.As != record.Replace || r.Level != "b" || r.Dir != "across" {
		t.Errorf("recorded %+v", r)
	}
	if m.where() != "bore 2, middle, along" || !strings.Contains(s.r.View(), "measuring again, 2 of 2") {
		t.Errorf("went on to %s", m.where())
	}
	s.keys("+3", "<enter>")
	if m.where() != "bore 4, middle, across" {
		t.Errorf("behind the last one the hand is at %s", m.where())
	}
	x, _ := m.desk.Now.Feature(m.desk.Session.Places()[0].Of)
	if x.Read == 0 || m.desk.Now.Outside() != 1 {
		t.Errorf("%d findings are outside, want the main bearing alone", m.desk.Now.Outside())
	}
}

func TestARepeatWithinMeasuringAgainComesBack(t *testing.T) {
	s, m := atLaunch(t)
	s.keys("w", "m", "+3", "<enter>", "/", "/")
	if m.where() != "bore 2, middle, across" || len(m.again) != 0 {
		t.Fatalf("back one place leaves what was to be read again: at %s, %d left", m.where(), len(m.again))
	}
	s, m = atLaunch(t)
	s.keys("w", "m", "*", "+3", "<enter>")
	if m.where() != "bore 2, middle, along" {
		t.Errorf("a repeat at the first place leads to %s", m.where())
	}
}

// What was never measured is led through place by place too.
func TestMeasuringAgainTakesWhatWasNeverRead(t *testing.T) {
	s, m := atLaunch(t)
	s.keys("w", "<down>", "<down>", "<down>", "m")
	if m.where() != "bore 5, top, across" || strings.Contains(s.r.View(), "replaces what stands here") {
		t.Errorf("at %s:\n%s", m.where(), s.r.View())
	}
	if len(m.again) != 5 {
		t.Errorf("%d places are left", len(m.again))
	}
}

// A bearing's clearance rests on the direction square to the parting line.
func TestOnlyWhatIsJudgedIsMeasuredAgain(t *testing.T) {
	s, m := atLaunch(t)
	s.keys("w", "<down>", "m")
	if m.where() != "main bearing 3, front, vertical" || m.agains != 1 {
		t.Errorf("at %s, one of %d", m.where(), m.agains)
	}
}

func TestPlacesThatAreGoneAreNotMeasuredAgain(t *testing.T) {
	s, m := atLaunch(t)
	m.startAgain(nil)
	if m.where() != "bore 4, middle, across" || !strings.Contains(s.st.status.text, "no place to measure again") {
		t.Errorf("at %s: %s", m.where(), s.st.status.text)
	}
}
