package tui

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"borewright/engine/record"
)

// shutAt has the book read no more of its first session than all but the last
// two events, because of err.
func shutAt(s *station, err error) (intact int) {
	intact = len(s.book.sessions[s.book.order[0]]) - 2
	s.book.broken, s.book.intact = fmt.Errorf("session \"s1\" cannot be read from event %d on: %w", intact+1, err), intact
	if !errors.Is(err, record.ErrNewer) {
		s.book.broken = fmt.Errorf("%w; \"borewright salvage OUT\" recovers what is intact", s.book.broken)
	}
	return intact
}

var errChanged = errors.New("a byte is changed")

// A session of which only the beginning can be read lies open with that, says so
// on every screen, and takes nothing more: no reading, no setup, no limits, no
// sheet.
func TestAShutSessionIsOnlyRead(t *testing.T) {
	for err, words := range map[error]string{
		errChanged: "DAMAGED",
		&record.NewerError{What: "event", Found: 9, Known: 2}: "NEWER",
	} {
		t.Run(words, func(t *testing.T) {
			s := newStation(t, 80, 24, "launch")
			intact := shutAt(s, err)
			s.keys("<enter>")
			m := top[*measure](s)
			head := fmt.Sprintf("borewright: %s from event %d, only read: ", words, intact+1)
			said := s.st.status.text
			if n := m.desk.Session.Head().N; n != int64(intact) {
				t.Errorf("%d events are shown of %d intact ones", n, intact)
			}
			if !strings.Contains(said, fmt.Sprintf("from event %d on", intact+1)) || strings.Contains(said, "salvage") != (words == "DAMAGED") {
				t.Errorf("said %q", said)
			}
			for _, k := range shutKeys {
				s.keys(k.keys...)
				seen := s.r.View()
				if !strings.Contains(seen, head) || strings.Contains(seen, "nothing is added") != k.refused {
					t.Errorf("%q shows\n%s", k.keys, seen)
				}
				for len(s.r.stack) > 2 {
					s.keys("<esc>")
				}
			}
			s.keys("<esc>", "A", "<enter>")
			if !strings.Contains(s.r.View(), "is not archived: nothing is added") {
				t.Errorf("archived:\n%s", s.r.View())
			}
			if n := m.desk.Session.Head().N; n != int64(intact) || len(s.book.sessions[m.desk.UID()]) != intact+2 {
				t.Errorf("something was added: %d events", n)
			}
			if files := s.st.Folder.(*drawer).files; len(files) != 0 {
				t.Errorf("%d sheets were written", len(files))
			}
		})
	}
}

// shutKeys lead from measuring to other screens, and some try to keep something.
var shutKeys = []struct {
	refused bool
	keys    []string
}{
	{true, []string{"+", "4", "<enter>"}},
	{false, []string{"w"}},
	{false, []string{"e", "<enter>"}},
	{false, []string{"v"}},
	{false, []string{"b"}},
	{true, []string{"b", "<enter>", "3.7499", "<f2>"}},
	{false, []string{"b", "<enter>", "?"}},
	{false, []string{"l"}},
	{true, []string{"l", "n", "words", "<enter>"}},
	{false, []string{"s"}},
	{true, []string{"s", "x", "<f2>"}},
	{false, []string{"p"}},
	{true, []string{"p", "<enter>"}},
	{false, []string{"?"}},
}
