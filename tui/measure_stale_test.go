package tui

import (
	"strings"
	"testing"
	"time"

	"borewright/engine/plan"
	"borewright/engine/record"
)

// nextMorning opens the launch as it is found the morning after.
func nextMorning(t *testing.T) (*station, *measure) {
	t.Helper()
	s := newStation(t, 80, 24, "launch")
	s.morning = true
	s.keys("<enter>")
	m := top[*measure](s)
	if m.keys.Asking.What != askStale {
		t.Fatalf("no zero check is asked for:\n%s", s.r.View())
	}
	return s, m
}

func TestNextMorningAZeroCheckComesFirst(t *testing.T) {
	s, m := nextMorning(t)
	if view := s.r.View(); !strings.Contains(view, "first a zero check") || !strings.Contains(view, "hours") {
		t.Errorf("not asked:\n%s", view)
	}
	s.keys("+.5", "<enter>")
	if z := s.last(launchUID).Body.(record.Zero); z.Skipped || z.Deviation.String() != "0.00005 in" {
		t.Errorf("recorded %+v", z)
	}
	if m.keys.Asking.What != "" || m.where() != "bore 4, middle, across" {
		t.Errorf("asks %q at %s", m.keys.Asking.What, m.where())
	}
	s.keys("+4", "<enter>")
	if r := s.last(launchUID).Body.(record.Reading); r.Keyed != "+4" {
		t.Errorf("recorded %+v", r)
	}
}

func TestASkippedZeroCheckIsRecordedAndNotAskedAgain(t *testing.T) {
	s, _ := nextMorning(t)
	s.keys("/")
	z := s.last(launchUID).Body.(record.Zero)
	if !z.Skipped || !strings.Contains(z.Why, "hours") || z.Set != "t-large" {
		t.Errorf("recorded %+v", z)
	}
	s.keys("<esc>", "<enter>")
	if m := top[*measure](s); m.keys.Asking.What != "" {
		t.Errorf("asked again: %s", m.keys.Asking.Title)
	}
}

func TestEveryGaugeIsAskedForOnce(t *testing.T) {
	s, m := nextMorning(t)
	s.keys("/")
	m.move(m.desk.Session.Enter(plan.Feature{Family: plan.MainJournal, At: 1}))
	if m.keys.Asking.What != askStale || !strings.Contains(m.keys.Asking.Title, "2 to 3 in micrometer") {
		t.Errorf("with another gauge asks %+v", m.keys.Asking)
	}
	s.keys("/")
	m.move(m.desk.Session.Enter(plan.Feature{Family: plan.MainJournal, At: 2}))
	if m.keys.Asking.What != "" {
		t.Errorf("asks again: %s", m.keys.Asking.Title)
	}
}

func TestABadCheckInTheMorningDoubtsTheDayBefore(t *testing.T) {
	s, m := nextMorning(t)
	s.keys("+4", "<enter>")
	if m.keys.Asking.What != askRezero || len(m.desk.Session.MeasureAgain()) == 0 {
		t.Errorf("asks %q, %d suspect", m.keys.Asking.What, len(m.desk.Session.MeasureAgain()))
	}
}

// The clock was put back overnight: the same is asked, and kept, with other words.
func TestAClockPutBackOvernightAsksForAZeroCheck(t *testing.T) {
	s := newStation(t, 80, 24, "launch")
	s.morning = true
	clock := noon.AddDate(0, 0, -2)
	s.st.Now = func() time.Time { clock = clock.Add(time.Second); return clock }
	s.keys("<enter>")
	if view := s.r.View(); !strings.Contains(view, "first a zero check") || !strings.Contains(view, "the clock was put") {
		t.Errorf("not asked:\n%s", view)
	}
	s.keys("/")
	z := s.last(launchUID).Body.(record.Zero)
	if !z.Skipped || !strings.Contains(z.Why, "the clock was put back") {
		t.Errorf("recorded %+v", z)
	}
	s.keys("<esc>", "<enter>")
	if m := top[*measure](s); m.keys.Asking.What != "" {
		t.Errorf("asked again: %s", m.keys.Asking.Title)
	}
}

func TestDaysAreSaidAsDays(t *testing.T) {
	for hours, want := range map[time.Duration]string{9: "9 hours", 47: "47 hours", 48: "2 days", 400: "16 days"} {
		if got := layText(hours * time.Hour); got != want {
			t.Errorf("%d is %q, want %q", hours, got, want)
		}
	}
}

// A temperature that is not that of the last zero asks for a zero check, at the
// place; it can be skipped, and that is recorded.
func TestANewTemperatureAsksForAZeroCheck(t *testing.T) {
	s := newStation(t, 80, 24, "launch")
	s.morning = true
	s.keys("<enter>", "0", "<enter>", "+4", "<enter>")
	m := top[*measure](s)
	s.keys("/6", "12.5", "<enter>", "19.5", "<enter>")
	if m.keys.Asking.What != askStale || !strings.Contains(m.keys.Asking.Title, "the part is 7 °C colder than at the last zero") {
		t.Fatalf("asks %+v:\n%s", m.keys.Asking, s.r.View())
	}
	s.keys("/")
	if z := s.last(launchUID).Body.(record.Zero); !z.Skipped || z.Why != "skipped at the bench: the part is 7 °C colder than at the last zero" {
		t.Errorf("recorded %+v", z)
	}
	if m.keys.Asking.What != "" || m.where() != "bore 4, middle, along" {
		t.Errorf("asks %q at %s", m.keys.Asking.What, m.where())
	}
	s.keys("+4", "<enter>", "/6", "12", "<enter>", "/")
	if m.keys.Asking.What != "" {
		t.Errorf("half a degree more asks again: %s", m.keys.Asking.Title)
	}
}
