package tui

import (
	"reflect"
	"testing"
)

// What is kept of the session's answers is what it answers, after every key.
func TestAnswersFollowTheSession(t *testing.T) {
	s, m := atLaunch(t)
	for _, key := range []string{"+", "4", "<enter>", "-", "9", "9", "<enter>", "*", "<enter>", "/", "1", "/", "7", "u", "3", "<enter>"} {
		s.keys(key)
		s.r.View()
		d := m.desk
		settled, planned := d.progress()
		if a, b := d.Session.Progress(); a != settled || b != planned {
			t.Errorf("after %s: %d of %d, kept %d of %d", key, a, b, settled, planned)
		}
		if want, got := d.Now.Live(d.Session, m.place.Of), d.live(m.place.Of); !reflect.DeepEqual(want, got) {
			t.Errorf("after %s: live %v, kept %v", key, want, got)
		}
		want, err := d.Session.Reads(m.place)
		if got, e := d.reads(m.place); !reflect.DeepEqual(want, got) || !reflect.DeepEqual(err, e) {
			t.Errorf("after %s: read against %v (%v), kept %v (%v)", key, want, err, got, e)
		}
	}
}
