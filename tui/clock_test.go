package tui

import (
	"strings"
	"testing"
	"time"

	"borewright/engine/record"
)

// summer and winter are the bench's offsets before and after the night on which
// the clocks go back.
var (
	summer = time.FixedZone("", 7200)
	winter = time.FixedZone("", 3600)
)

// clocks are two times between which something was done, the later of which
// its clock does not show as later.
var clocks = map[string][2]time.Time{
	"put back by a day":       {noon, noon.AddDate(0, 0, -1)},
	"put back by years":       {noon, noon.AddDate(-6, 0, 0)},
	"the end of summer time":  {time.Date(2026, 10, 25, 2, 50, 0, 0, summer), time.Date(2026, 10, 25, 2, 10, 0, 0, winter)},
	"a laptop brought west":   {noon.In(winter), noon.Add(time.Minute).In(time.FixedZone("", -5*3600))},
	"the same moment is read": {noon, noon},
}

// Whatever the clock shows, the session that was touched last stands first, and
// the log has the newest event first.
func TestTheClockOrdersNoList(t *testing.T) {
	for name, at := range clocks {
		t.Run(name, func(t *testing.T) {
			s := newStation(t, 80, 24, "hillclimb", "launch")
			s.st.Now = func() time.Time { return at[1] }
			for i, text := range []string{"in the evening", "in the morning"} {
				if _, err := s.book.Keep(launchUID, record.Event{At: at[i], By: "ek", Body: record.Note{Text: text}}); err != nil {
					t.Fatal(err)
				}
			}
			s.mail()
			s.run(s.r.stack[0].(*bench).Init())
			view := s.r.View()
			if a, b := strings.Index(view, "Kittiwake"), strings.Index(view, "Hillclimb"); a < 0 || b >= 0 && b < a {
				t.Errorf("the newest touched is not first:\n%s", view)
			}
			s.keys("<enter>", "l")
			view = s.r.View()
			morning, evening := strings.Index(view, "in the morning"), strings.Index(view, "in the evening")
			if morning < 0 || evening < morning {
				t.Errorf("the log is not in the order of its numbers:\n%s", view)
			}
			t.Logf("PROOF | the clock between two events: %s | 1 | 0 | the list and the log in the order of what was done", name)
		})
	}
}

// What the clock has not reached yet is not said to be of today.
func TestWhatIsStillToComeIsNotToday(t *testing.T) {
	for _, c := range []struct {
		at   time.Time
		want string
	}{
		{noon.Add(time.Hour), "today 08:30"},
		{noon.AddDate(0, 0, 1), "12 Mar 2026 07:30"},
		{noon.AddDate(3, 0, 0), "11 Mar 2029 07:30"},
		{noon.In(time.FixedZone("", -8*3600)), "today 07:30"},
		{time.Date(2026, 3, 11, 0, 30, 0, 0, time.FixedZone("", 2*3600)), "yesterday 23:30"},
	} {
		if got := Ago(c.at, noon); got != c.want {
			t.Errorf("%s is %q at %s, want %q", c.at, got, noon, c.want)
		}
	}
}

// The list shows when a session was touched and last read on one clock.
func TestTheListShowsOneClock(t *testing.T) {
	s := newStation(t, 100, 24, "launch")
	west := noon.In(time.FixedZone("", -5*3600))
	s.st.Now = func() time.Time { return west }
	if view := s.r.View(); !strings.Contains(view, "09:36") || strings.Contains(view, "15:36") {
		t.Errorf("read at 15:36 with +01:00, shown at -05:00:\n%s", view)
	}
}
