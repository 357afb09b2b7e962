package tui

import (
	"strings"
	"testing"
)

// The page on keys is whole at the least window, whichever screen it is asked
// for on, and has a line for every state of the keypad.
func TestTheKeysAreOnePage(t *testing.T) {
	for name, keys := range map[string][]string{"bench": nil, "measure": {"<enter>"}, "worst": {"<enter>", "w"}, "log": {"<enter>", "l"}, "limits": {"<enter>", "b"}} {
		s := newStation(t, 80, 24, "launch")
		s.keys(append(keys, "?", "*")...)
		card := top[*keyCard](s)
		if n := len(card.View()); n >= card.h {
			t.Errorf("%s: %d lines of %d, so the page may be cut:\n%s", name, n, card.h, strings.Join(card.View(), "\n"))
		}
		for _, x := range keypadStates {
			if !strings.Contains(s.r.View(), "  "+x.name) {
				t.Errorf("%s: nothing is said of %q", name, x.name)
			}
		}
		s.keys("<enter>")
		top[*help](s)
	}
}

// A help page that is longer than the window says so, and its end is reached
// and left without a dead key.
func TestALongHelpPageSaysSo(t *testing.T) {
	s := newStation(t, 80, 24, "launch")
	s.keys("<enter>", "?")
	shows(t, s, "lines 1 to 20 of")
	for range 100 {
		s.keys("<down>")
	}
	shows(t, s, "it resumes at this place")
	end := s.r.View()
	s.keys("<up>")
	if s.r.View() == end {
		t.Error("the first key up does nothing")
	}
}
