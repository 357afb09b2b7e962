package tui

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"borewright/engine/record"
	"borewright/tui/keying"
	"borewright/tui/term"
)

// lasting is what one key must not take away: what happened and was not taken
// back, the limits, the steps of the sign-off, and the session's place on the
// bench.
type lasting struct {
	live          map[int64]bool
	limits, steps int
	away          bool
}

func lastingOf(s *station) map[string]lasting {
	out := map[string]lasting{}
	for _, d := range s.st.desks {
		x := lasting{live: map[int64]bool{}, limits: len(d.Session.Limits()), steps: len(d.Session.Prep().List())}
		for _, e := range d.Session.Log() {
			_, reading := e.Body.(record.Reading)
			x.live[e.N] = e.Live && (!reading || e.ReplacedBy == 0)
			if state, is := e.Body.(record.State); is && e.Live {
				x.away = state.State == record.Archived
			}
		}
		out[d.UID()] = x
	}
	return out
}

// lost says what of was is gone, or "".
func (was lasting) lost(now lasting) string {
	for n, live := range was.live {
		if live && !now.live[n] {
			return "an event"
		}
	}
	switch {
	case now.limits < was.limits:
		return "a limit"
	case now.steps < was.steps:
		return "a step"
	case now.away && !was.away:
		return "the session"
	}
	return ""
}

// asked says that a question or an open menu is in sight, so that a key is the
// second of two.
func asked(s *station) bool {
	switch x := s.r.top().(type) {
	case *confirm, *sure:
		return true
	case *measure:
		return x.keys.At == keying.Menu || x.keys.At == keying.Held || x.keys.Text != ""
	case *prepScreen:
		return x.menu || x.keys.At == keying.Held || x.keys.Text != ""
	}
	return false
}

// TestNoSingleKeyDestroys presses each key of each screen once and looks whether
// anything that lasts is gone without a question.
func TestNoSingleKeyDestroys(t *testing.T) {
	harmless := []string{"up", "down", "left", "right", "pgup", "pgdown", "?", "f1", "esc"}
	for _, name := range slices.Sorted(maps.Keys(everyScreen)) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			fresh := func() *station {
				s := newStation(t, 80, 24, "hillclimb", "launch")
				s.keys(everyScreen[name]...)
				return s
			}
			s := fresh()
			if asked(s) {
				return
			}
			pressed := map[string]bool{}
			for _, a := range s.r.actions() {
				for _, key := range a.Keys {
					if slices.Contains(harmless, key) || pressed[key] || len([]rune(key)) > 1 && key != "enter" && key != "delete" {
						continue
					}
					pressed[key] = true
					was, before := lastingOf(s), s.r.View()
					s.tap(key)
					now := lastingOf(s)
					for uid := range was {
						if gone := was[uid].lost(now[uid]); gone != "" {
							t.Errorf("%q alone takes away %s", key, gone)
						}
					}
					if s.r.View() != before {
						s = fresh()
					}
				}
			}
		})
	}
}

// tap presses a key by the name that actions know it by.
func (s *station) tap(key string) {
	s.t.Helper()
	switch key {
	case "enter":
		s.keys("<enter>")
	case "delete":
		s.run(s.r.key(term.Token{Kind: term.Navigation, Name: "delete", At: noon}))
		s.run(s.r.settle())
		s.mail()
	default:
		s.keys(key)
	}
}

// TestNoKeyMeansTwoThings goes through every key of every screen as it stands:
// those of the keypad spelt out, those that letters are bound to, and those of
// every screen.
func TestNoKeyMeansTwoThings(t *testing.T) {
	for name, keys := range everyScreen {
		s := newStation(t, 80, 24, "hillclimb", "launch")
		s.keys(keys...)
		means := map[string]string{}
		for _, a := range s.r.actions() {
			for _, key := range spelt(a.Keys) {
				if other, twice := means[key]; twice && other != a.Help {
					t.Errorf("%s: %q is %q and %q", name, key, other, a.Help)
				}
				means[key] = a.Help
			}
		}
		if s.r.top().Typing() == Words && means["?"] != "" {
			t.Errorf("%s: ? is typed, and shown as %q", name, means["?"])
		}
		if m, is := s.r.top().(*measure); is && m.keys.Text != "" {
			for _, unit := range "inmµ\"" {
				if other := means[string(unit)]; other != "" {
					t.Errorf("%s: %q belongs to a unit, and is %q", name, unit, other)
				}
			}
		}
	}
}

// spelt spells out what a row of the keypad lists: "0-9 ." is eleven keys.
func spelt(keys []string) []string {
	var out []string
	for _, k := range keys {
		for _, part := range strings.Fields(k) {
			if part == "0-9" {
				out = append(out, "0", "1", "2", "3", "4", "5", "6", "7", "8", "9")
				continue
			}
			out = append(out, named(part))
		}
	}
	return out
}

// named is a key by the one name that all rows share; capital letters are keys
// of their own.
func named(key string) string {
	if len([]rune(key)) > 1 {
		return strings.ToLower(key)
	}
	return key
}
