package tui

import (
	"testing"

	"borewright/tui/keying"
)

// What was begun at one place does not act at another: the menu closes when
// another screen leads elsewhere or comes back, and a number that was being
// keyed is dropped where the place is another.
func TestTheMenuClosesUnderAnotherScreen(t *testing.T) {
	for _, keys := range [][]string{{"w", "m"}, {"w", "<enter>"}, {"w", "<esc>"}} {
		s, m := atLaunch(t)
		s.keys("/")
		s.keys(keys...)
		if m.keys.At != keying.Empty {
			t.Errorf("%q leaves the menu open: %v", keys, m.keys.At)
		}
	}
	s, m := atLaunch(t)
	s.keys("3", "w", "<esc>")
	if m.keys.Text != "3" {
		t.Errorf("back at the same place stands %q", m.keys.Text)
	}
	s.keys("w", "<enter>")
	if m.where() != "bore 2, middle, across" || m.keys.Text != "" {
		t.Errorf("at %s stands %q", m.where(), m.keys.Text)
	}
	s, m = atLaunch(t)
	s.keys("102", "<enter>", "w", "<enter>")
	if m.keys.At != keying.Empty {
		t.Errorf("what was held at another place is still held: %+v", m.keys)
	}
}
