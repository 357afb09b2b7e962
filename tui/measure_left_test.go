package tui

import (
	"strings"
	"testing"
)

// The last reading of a feature leads to the next one; what came of the one that
// is left stays large until a key is pressed, and says whose it is.
func TestWhatIsFinishedStaysInSight(t *testing.T) {
	s, m := atLaunch(t)
	s.keys("+4", "<enter>", "+4", "<enter>", "+4", "<enter>", "+9", "<enter>")
	if m.where() != "bore 5, top, across" {
		t.Fatalf("after the last of bore 4 the hand is at %q", m.where())
	}
	text, _ := m.shown()
	view := s.r.View()
	if text == "" || !strings.Contains(view, "✗ bore 4: ") || !strings.Contains(view, "just taken: 3.7509, bore 4, bottom, along") {
		t.Errorf("large %q and\n%s", text, view)
	}
	if !strings.Contains(view, "bore 5: 0 of 6 read") {
		t.Errorf("the figures are not those of bore 5:\n%s", view)
	}
	s.keys("3")
	if text, _ := m.shown(); text != "3" {
		t.Errorf("a key leaves %q large", text)
	}
	s.keys("/", "/8", "6", "<enter>")
	if text, _ := m.shown(); text != "" || strings.Contains(s.r.View(), "just taken:") {
		t.Errorf("at bore 6, gone to, stands %q", text)
	}
}

// What was withdrawn is not said to be taken, wherever it led.
func TestWhatIsWithdrawnIsNotSaidToBeTaken(t *testing.T) {
	s, m := atLaunch(t)
	s.keys("+4", "<enter>", "+4", "<enter>", "+4", "<enter>", "+9", "<enter>", "/7", "/2")
	if m.where() != "bore 5, top, across" || strings.Contains(s.r.View(), "just taken: 3.7509") {
		t.Errorf("at %s:\n%s", m.where(), s.r.View())
	}
}
