package tui

import (
	"strings"
	"testing"

	"borewright/engine/record"
)

// atBlind is the launch with every place followed by a blind repeat, one
// reading taken: the hand is at a place to be read again.
func atBlind(t *testing.T) (*station, *measure) {
	t.Helper()
	s, m := atLaunch(t)
	rules := m.desk.Session.Rules()
	rules.BlindRate = "1"
	if err := m.desk.Record(rules); err != nil {
		t.Fatal(err)
	}
	s.keys("+4", "<enter>")
	if !m.blind() {
		t.Fatalf("not asked again: at %s", m.where())
	}
	return s, m
}

func TestABlindRepeatIsKeptApart(t *testing.T) {
	s, m := atBlind(t)
	at, figure := m.place, m.figureText(m.place)
	for _, hidden := range []string{"stands here", "replaces"} {
		if strings.Contains(s.r.View(), hidden) {
			t.Errorf("%q is shown:\n%s", hidden, s.r.View())
		}
	}
	if text, _ := m.shown(); text != "" || m.view().HasReading {
		t.Errorf("large is %q, has a reading %v", text, m.view().HasReading)
	}
	s.keys("+3", "<enter>")
	r := s.last(launchUID).Body.(record.Reading)
	if !r.Blind || r.As != record.Repeat || r.Place() != at {
		t.Errorf("recorded %+v", r)
	}
	if m.blind() || m.where() != "bore 4, middle, along" {
		t.Errorf("behind it the hand is at %s", m.where())
	}
	if m.figureText(at) != figure {
		t.Errorf("its figure went from %s to %s", figure, m.figureText(at))
	}
	if len(m.desk.Session.Blind(at, m.desk.Session.Stage(at.Of))) != 1 {
		t.Error("it is not kept as a blind repeat")
	}
	if s.st.bells != 2 {
		t.Errorf("%d bells rang for two readings kept", s.st.bells)
	}
}

func TestABlindRepeatCanBeLeft(t *testing.T) {
	s, m := atBlind(t)
	before := s.last(launchUID).N
	s.keys("/1")
	if m.blind() || m.where() != "bore 4, middle, along" || s.last(launchUID).N != before {
		t.Errorf("left out leads to %s, recorded %v", m.where(), s.last(launchUID).N-before)
	}
	_, m = atBlind(t)
	m.move(m.desk.Session.Resume())
	if m.blind() {
		t.Error("elsewhere it is still blind")
	}
}

func TestWithoutARateNothingIsReadAgain(t *testing.T) {
	s, m := atLaunch(t)
	s.keys("+4", "<enter>", "+3", "<enter>")
	if m.blind() || m.where() != "bore 4, bottom, across" {
		t.Errorf("at %s", m.where())
	}
}
