package tui

import (
	"errors"
	"strings"
	"testing"

	"borewright/engine/plan"
	"borewright/engine/record"
)

const launchUID = "demo-launch"

// atLaunch opens the interrupted launch at its very place: bore 4, middle,
// across.
func atLaunch(t *testing.T) (*station, *measure) {
	t.Helper()
	s := newStation(t, 80, 24, "launch")
	s.keys("<enter>")
	m := top[*measure](s)
	if got := m.desk.Session.PlaceName(m.place); got != "bore 4, middle, across" {
		t.Fatalf("the launch resumes at %q", got)
	}
	return s, m
}

func (m *measure) where() string { return m.desk.Session.PlaceName(m.place) }

func TestAReadingIsKeyedWithDigitsAndEnterAlone(t *testing.T) {
	s, m := atLaunch(t)
	s.keys("+4", "<enter>")
	r := s.last(launchUID).Body.(record.Reading)
	want := plan.Place{Of: plan.Feature{Family: plan.Bore, At: 4}, Level: "b", Dir: "across"}
	if r.Place() != want || r.Keyed != "+4" || r.Dev.String() != "0.0004 in" || r.As != record.First || r.Via != record.ViaKeypad {
		t.Errorf("recorded %+v", r)
	}
	if m.where() != "bore 4, middle, along" {
		t.Errorf("went on to %q", m.where())
	}
	if s.st.bells != 1 {
		t.Errorf("rang %d bells for taken and kept, want 1", s.st.bells)
	}
}

func TestEnterAloneDoesNothingEver(t *testing.T) {
	s, m := atLaunch(t)
	before := len(s.book.sessions[launchUID])
	s.keys("<enter>", "<enter>")
	if len(s.book.sessions[launchUID]) != before || m.where() != "bore 4, middle, across" || s.st.bells != 0 {
		t.Errorf("Enter on nothing did something: at %q, %d bells", m.where(), s.st.bells)
	}
}

func TestTheBellWaitsForTheDisk(t *testing.T) {
	s, m := atLaunch(t)
	s.book.hold = true
	s.keys("+4", "<enter>")
	if s.st.bells != 0 || !strings.Contains(s.r.View(), "keeping 1") {
		t.Errorf("before it is kept: %d bells, header %q", s.st.bells, s.r.header())
	}
	if x, _ := m.desk.Now.Feature(m.place.Of); x.Read != 3 {
		t.Errorf("a pending reading does not count: %d read", x.Read)
	}
	s.book.settle(launchUID)
	s.mail()
	if s.st.bells != 1 || strings.Contains(s.r.View(), "keeping") {
		t.Errorf("once kept: %d bells, header %q", s.st.bells, s.r.header())
	}
}

func TestWhatCannotBeKeptStaysAndIsKeptLater(t *testing.T) {
	s, m := atLaunch(t)
	s.book.err = errors.New("the disk is full")
	s.keys("+4", "<enter>")
	if view := s.r.View(); !strings.Contains(view, "1 NOT KEPT: the disk is full") || s.st.bells != 2 {
		t.Errorf("%d bells and\n%s", s.st.bells, view)
	}
	s.book.err = nil
	s.keys("+5", "<enter>")
	if m.desk.Pending() != 0 || strings.Contains(s.r.View(), "NOT KEPT") {
		t.Errorf("still pending: %d", m.desk.Pending())
	}
}

func TestQuittingSaysWhatIsNotKept(t *testing.T) {
	s, _ := atLaunch(t)
	s.book.err = errors.New("the disk is full")
	s.keys("+4", "<enter>", "<esc>", "q")
	top[*leaving](s)
	if view := s.r.View(); !strings.Contains(view, "Not kept yet: 1") || !strings.Contains(view, "the disk is full") {
		t.Errorf("leaving shows\n%s", view)
	}
	s.book.err = nil
	s.keys("<enter>")
	if n := len(s.st.Pending()); n != 0 {
		t.Errorf("trying again left %d sessions pending", n)
	}
}

func TestASlipIsHeldAndKeptOnlyByStar(t *testing.T) {
	s, m := atLaunch(t)
	before := len(s.book.sessions[launchUID])
	s.keys("102", "<enter>")
	if !strings.Contains(s.r.View(), "HELD") || s.st.bells != 2 || len(s.book.sessions[launchUID]) != before {
		t.Fatalf("a dial revolution out was not held:\n%s", s.r.View())
	}
	s.keys("5", "<enter>")
	if m.keys.Text != "102" || len(s.book.sessions[launchUID]) != before {
		t.Errorf("digits or Enter changed what is held: %q", m.keys.Text)
	}
	s.keys("/")
	if m.keys.Text != "" || m.where() != "bore 4, middle, across" {
		t.Errorf("/ left %q at %s", m.keys.Text, m.where())
	}
	s.keys("102", "<enter>", "*")
	r := s.last(launchUID).Body.(record.Reading)
	if r.Keyed != "102" || r.Despite == "" {
		t.Errorf("kept as keyed: %+v", r)
	}
}

func TestTheMenuInOneBurst(t *testing.T) {
	s, m := atLaunch(t)
	s.keys("/1")
	l := s.last(launchUID).Body.(record.LeftOut)
	if l.Level != "b" || l.Dir != "across" || m.where() != "bore 4, middle, along" {
		t.Errorf("left out %+v, now at %s", l, m.where())
	}
}

func TestWalkingThePlan(t *testing.T) {
	for keys, want := range map[string]string{
		"/2":            "bore 4, middle, along",
		"//":            "bore 4, top, along",
		"/3":            "bore 5, top, across",
		"/8,6,<enter>":  "bore 6, top, across",
		"/81.3,<enter>": "main journal 3, front, vertical",
		"/0":            "bore 4, middle, across",
	} {
		s, m := atLaunch(t)
		s.keys(strings.Split(keys, ",")...)
		if m.where() != want {
			t.Errorf("%s leads to %q, want %q (%s)", keys, m.where(), want, s.st.status.text)
		}
	}
}

func TestRepeatGoesBackAndForth(t *testing.T) {
	s, m := atLaunch(t)
	s.keys("+4", "<enter>", "*")
	if m.where() != "bore 4, middle, across" {
		t.Fatalf("* leads to %q", m.where())
	}
	s.keys("+5", "<enter>")
	if r := s.last(launchUID).Body.(record.Reading); r.As != record.Repeat || r.Level != "b" || r.Dir != "across" {
		t.Errorf("recorded %+v", r)
	}
	if m.where() != "bore 4, middle, along" {
		t.Errorf("after the repeat at %q", m.where())
	}
	if got := m.figureText(plan.Place{Of: m.place.Of, Level: "b", Dir: "across"}); got != "3.7504" {
		t.Errorf("the mean of +4 and +5 shows as %s, want 3.7504 (half to even)", got)
	}
}

func TestARevisitAddsARepeat(t *testing.T) {
	s, m := atLaunch(t)
	s.keys("//", "*", "+4", "<enter>")
	if r := s.last(launchUID).Body.(record.Reading); r.As != record.Repeat || r.Level != "a" || r.Dir != "along" {
		t.Errorf("recorded %+v", r)
	}
	if m.where() != "bore 4, middle, across" {
		t.Errorf("after the repeat at %q", m.where())
	}
}

func TestARevisitReplaces(t *testing.T) {
	s, m := atLaunch(t)
	s.keys("//")
	if !strings.Contains(s.r.View(), "a new number replaces it") {
		t.Errorf("the revisit does not say so:\n%s", s.r.View())
	}
	s.keys("+2", "<enter>")
	if r := s.last(launchUID).Body.(record.Reading); r.As != record.Replace {
		t.Errorf("recorded %+v", r)
	}
	if m.where() != "bore 4, middle, across" {
		t.Errorf("after replacing at %q", m.where())
	}
}

func TestWithdrawTakesBackAndReturns(t *testing.T) {
	s, m := atLaunch(t)
	s.keys("+4", "<enter>", "/7")
	w := s.last(launchUID).Body.(record.Withdrawn)
	if w.Event != s.last(launchUID).N-1 || m.where() != "bore 4, middle, across" {
		t.Errorf("withdrew %d, now at %s", w.Event, m.where())
	}
	s.keys("l", "<down>", "W", "<enter>")
	if back := s.last(launchUID).Body.(record.Withdrawn); back.Event != s.last(launchUID).N-1 {
		t.Errorf("the log did not bring it back: %+v", back)
	}
	if x, _ := m.desk.Now.Feature(m.place.Of); x.Read != 3 {
		t.Errorf("%d read after undo and redo, want 3", x.Read)
	}
}

func TestZeroCheckTemperatureAndWork(t *testing.T) {
	s, m := atLaunch(t)
	s.keys("/4", "-0.5", "<enter>")
	if z := s.last(launchUID).Body.(record.Zero); z.Deviation.String() != "-0.00005 in" || z.Set != "t-large" {
		t.Errorf("zero check %+v", z)
	}
	s.keys("/6", "18.5", "<enter>", "21", "<enter>")
	if x := s.last(launchUID).Body.(record.Set); x.At.Part != "18.5" || x.At.Gauge != "21" || x.ID != "t5" {
		t.Errorf("temperatures %+v", x)
	}
	s.keys("/9", "1", "<enter>")
	if w := s.last(launchUID).Body.(record.Work); w.Did != "honed" || !w.Metal || m.where() != "bore 4, top, across" {
		t.Errorf("work %+v, now at %s", w, m.where())
	}
	if !strings.Contains(s.r.View(), "after work") {
		t.Error("the stage is not shown")
	}
}

func TestAnotherGaugeAndItsMaster(t *testing.T) {
	s, m := atLaunch(t)
	s.keys("/5", "2", "<enter>")
	if !strings.Contains(s.r.View(), "zeroed on") {
		t.Fatalf("the master's size is not asked:\n%s", s.r.View())
	}
	s.keys("3.7510", "<enter>")
	h, err := m.desk.Session.Hand(plan.Bore)
	if err != nil || h.Instrument.ID != "small" || h.Setting.Size.String() != "3.7510 in" {
		t.Errorf("in the hand: %+v, %v", h, err)
	}
	s.keys("-6", "<enter>")
	if got := m.figureText(plan.Place{Of: plan.Feature{Family: plan.Bore, At: 4}, Level: "b", Dir: "across"}); got != "3.7504" {
		t.Errorf("-6 from 3.7510 is %s", got)
	}
}

func TestNumLockOffIsSaid(t *testing.T) {
	s, m := atLaunch(t)
	s.keys("<home>")
	if !strings.Contains(s.st.status.text, "NumLock") || m.where() != "bore 4, middle, across" {
		t.Errorf("status %q at %s", s.st.status.text, m.where())
	}
}

func TestTheWorstLeadsToThePlaceAndBack(t *testing.T) {
	s, m := atLaunch(t)
	s.keys("w")
	if view := s.r.View(); !strings.Contains(view, "OUTSIDE") || !strings.Contains(view, "bore 2, middle: out-of-round 0.0009 of 0.0005 in allowed") {
		t.Errorf("the worst screen shows\n%s", view)
	}
	s.keys("<enter>")
	if m.where() != "bore 2, middle, across" {
		t.Errorf("the worst leads to %q", m.where())
	}
	s.keys("w", "<esc>")
	top[*measure](s)
}

func TestTheWrongHoleIsPutRightByOneEvent(t *testing.T) {
	s, m := atLaunch(t)
	// bore 1 again, with what bore 2 read
	for i, v := range []string{"+4", "+1", "+9", "0", "+5", "+2"} {
		s.keys("/8", "1", "<enter>")
		for range i {
			s.keys("/2")
		}
		s.keys(v, "<enter>")
	}
	if !strings.Contains(m.keys.Asking.Title, "fits the earlier readings of bore 2") {
		t.Fatalf("not asked about:\n%s", s.r.View())
	}
	s.keys("2", "<enter>")
	moved := s.last(launchUID).Body.(record.Moved)
	if len(moved.Readings) != 6 || moved.Places[0].Of.At != 2 {
		t.Errorf("recorded %+v", moved)
	}
	if got := m.figureText(plan.Place{Of: plan.Feature{Family: plan.Bore, At: 1}, Level: "b", Dir: "across"}); got != "3.7504" {
		t.Errorf("bore 1, middle, across is %s again, want 3.7504", got)
	}
}
