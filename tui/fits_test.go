package tui

import (
	"strings"
	"testing"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

const completeUID = "demo-launch-complete"

// atFits opens the fits of the engine that is measured completely, at a page.
func atFits(t *testing.T, page string) (*station, *fits) {
	t.Helper()
	s := newStation(t, 80, 24, "launch-complete")
	s.keys("<enter>", "v")
	f := top[*fits](s)
	for range f.all() {
		if f.here().name == page {
			return s, f
		}
		s.keys("<tab>")
	}
	t.Fatalf("there is no page %q", page)
	return nil, nil
}

// goTo marks the row of a feature.
func (s *fits) markRow(t *testing.T, of string) {
	t.Helper()
	for i, r := range s.here().rows {
		if r.of.String() == of {
			s.list().at = i
			return
		}
	}
	t.Fatalf("there is no row of %s on %s", of, s.here().name)
}

// shows looks for texts on the screen, however its lines are broken.
func shows(t *testing.T, s *station, lines ...string) {
	t.Helper()
	view := s.r.View()
	text := strings.Join(strings.Fields(view), " ")
	for _, line := range lines {
		if !strings.Contains(text, strings.Join(strings.Fields(line), " ")) {
			t.Errorf("the screen lacks %q:\n%s", line, view)
		}
	}
}

func TestWhatToDoStandsFirst(t *testing.T) {
	s, f := atFits(t, todoPage)
	shows(t, s, "[to do]", "as it is: outside 3, worst 1.80", "hone bore 2 to 3.7512 in", "for bore 2, middle: out-of-round 0.0009 of 0.0005 in allowed")
	before := len(s.book.sessions[completeUID])
	s.keys("<enter>")
	shows(t, s, "tried: outside 2, worst 1.20")
	s.keys("*")
	shows(t, s, "tried: outside 0, worst 0.97")
	if len(f.changes) != 4 {
		t.Errorf("%d changes are tried, want 4: %v", len(f.changes), f.changes)
	}
	s.keys("/")
	if f.tried != nil || strings.Contains(s.r.View(), "tried:") {
		t.Error("taken back, and still tried")
	}
	if len(s.book.sessions[completeUID]) != before {
		t.Error("something tried became an event")
	}
}

// A piston keyed at a bore changes places with the one that is there, and the
// clearances of both follow at once.
func TestAPistonIsTried(t *testing.T) {
	s, f := atFits(t, "pistons")
	f.markRow(t, "bore/2")
	s.keys("4", "<enter>")
	shows(t, s, "bore 2         piston 2  0.0035", "piston 4  0.0036", "bore 4         piston 4  0.0038", "piston 2  0.0037")
	if len(f.changes) != 2 {
		t.Errorf("tried %v", f.changes)
	}
	s.keys("9", "<enter>")
	if !strings.Contains(s.st.status.text, "there is no piston 9") || f.keyed.text != "9" {
		t.Errorf("status %q, keyed %q", s.st.status.text, f.keyed.text)
	}
	s.keys("/", "/", "*")
	shows(t, s, "as numbered against best: worst margin used 0.50 to 0.40")
	if f.tried == nil || len(f.changes) != 2 {
		t.Errorf("the best tries %v", f.changes)
	}
}

func TestAShellIsTriedByTheNumberOfItsPair(t *testing.T) {
	s, f := atFits(t, "shells, main bearings")
	f.markRow(t, "main-bearing/3")
	shows(t, s, "1: 0.001 extra/0.001 extra 0.0018", "4: 0.001 extra/standard 0.0013, centre +0.00025")
	s.keys("4", "<enter>")
	shows(t, s, "-0.001/std", "0.0013")
	if len(f.changes) != 1 || f.changes[0].Of.Part != plan.Upper {
		t.Errorf("tried %v", f.changes)
	}
	for keyed, says := range map[string]string{"2": "pair 2 is what is in", "99": "there are pairs 1 to 7, not 99", "0": "there are pairs 1 to 7"} {
		s.keys("/", keyed, "<enter>")
		if !strings.Contains(s.st.status.text, says) {
			t.Errorf("%s: %q, want %q", keyed, s.st.status.text, says)
		}
	}
}

func TestABoreIsTriedAndATarget(t *testing.T) {
	s, f := atFits(t, boresPage)
	f.markRow(t, "bore/2")
	shows(t, s, "hone bore 2 to 3.7512 in: 0.0011 top, 0.0012 middle, 0.0010 bottom to take")
	s.keys("3.7514", "<enter>")
	shows(t, s, "0.0049", "hone bore 2 to 3.7514 in")
	s.keys("3751", "<enter>")
	if !strings.Contains(s.st.status.text, "in full, with its point") {
		t.Errorf("a size without its point: %q", s.st.status.text)
	}
	s.keys("/", "/", "3.7508", "t")
	shows(t, s, "target 3.7508", "3.7508 in is no more to be reached: the least possible is")
	f.markRow(t, "bore/3")
	shows(t, s, "hone bore 3 to 3.7508 in")
}

func TestAGapIsTried(t *testing.T) {
	s, f := atFits(t, gapsPage)
	f.markRow(t, "ring-gap/5/top")
	shows(t, s, "top ring gap 5", "0.0175", "at the smallest place of its travel")
	s.keys("0.0180", "<enter>")
	shows(t, s, "0.0180")
	f.markRow(t, "end-play/1")
	s.keys("0.0060", "<enter>")
	if len(f.changes) != 2 || f.changes[0].Did != engine.File || f.changes[1].Did != engine.Bring {
		t.Errorf("tried %v", f.changes)
	}
	s.keys("<enter>")
	if got := s.st.status.text; !strings.Contains(got, "key the figure to bring end play to") {
		t.Errorf("Enter on nothing keyed: %q", got)
	}
}

// What is decided is recorded as intended, once it is confirmed, and stands
// under what is to do with what came of it.
func TestADecisionIsRecordedOnlyWhenConfirmed(t *testing.T) {
	s, f := atFits(t, todoPage)
	before := len(s.book.sessions[completeUID])
	s.keys("i")
	if len(s.book.sessions[completeUID]) != before || !strings.Contains(s.st.status.text, "nothing is tried") {
		t.Errorf("deciding on nothing: %q", s.st.status.text)
	}
	s.keys("*", "i")
	shows(t, s, "Record this as intended?", "hone bore 2 to 3.7512 in", "file top ring gap 5 to 0.0175 in")
	s.keys("/")
	if top[*fits](s) != f || len(s.book.sessions[completeUID]) != before || len(f.changes) != 4 {
		t.Fatal("left, and yet it was recorded, or what is tried is gone")
	}
	s.keys("i", "<enter>")
	x, ok := s.last(completeUID).Body.(record.Intended)
	if !ok || len(x.Actions) != 4 || x.Actions[0].Did != engine.Hone || x.Actions[0].Amount != "3.7512 in" {
		t.Fatalf("recorded %+v", s.last(completeUID).Body)
	}
	shows(t, s, "hone bore 2 to 3.7512 in: not done yet")
	if f.tried != nil {
		t.Error("what was decided is still tried")
	}
}

func TestATargetIsDecided(t *testing.T) {
	s, _ := atFits(t, boresPage)
	s.keys("3.7513", "t", "i", "<enter>")
	g, ok := s.last(completeUID).Body.(record.Given)
	if !ok || g.Name != engine.GivenHoneTarget || g.Value != "3.7513 in" {
		t.Errorf("recorded %+v", s.last(completeUID).Body)
	}
	shows(t, s, "hone bore 1 to 3.7513 in")
}

func TestTheFitsWalkAndLead(t *testing.T) {
	s, f := atFits(t, boresPage)
	s.keys("+", "+", "-")
	if f.list().at != 1 {
		t.Errorf("+ + - leads to row %d", f.list().at)
	}
	s.keys("<left>")
	if f.here().name != "shells, main bearings" {
		t.Errorf("left of the bores is %s", f.here().name)
	}
	s.keys("<right>", "g")
	if m := top[*measure](s); m.place.Of.String() != "bore/2" {
		t.Errorf("led to %s", m.place.Of)
	}
	s.keys("v")
	if f := top[*fits](s); f.here().name != boresPage || f.list().at != 1 {
		t.Errorf("opened at %s, row %d", f.here().name, f.list().at)
	}
}

// Other sessions and bare ones have the pages that there is something for.
func TestThePagesOfOtherSessions(t *testing.T) {
	for session, want := range map[string]string{
		"hillclimb": "to do, pistons, shells, main bearings, bores", "launch": "to do, pistons, shells, main bearings, bores",
		"launch-complete": "to do, pistons, shells, main bearings, bores, gaps",
	} {
		s := newStation(t, 80, 24, session)
		s.keys("<enter>", "v")
		f := top[*fits](s)
		var names []string
		for _, p := range f.all() {
			names = append(names, p.name)
		}
		if got := strings.Join(names, ", "); got != want {
			t.Errorf("%s has the pages %s, want %s", session, got, want)
		}
	}
}

func TestNothingToDoIsSaid(t *testing.T) {
	s := newStation(t, 80, 24, "hillclimb")
	s.keys("<enter>", "v")
	f := top[*fits](s)
	for f.here().name != todoPage {
		s.keys("<tab>")
	}
	shows(t, s, "nothing is outside its limits: there is nothing to do")
	s.keys("*", "<enter>", "g", "c")
	if f.tried != nil || len(s.book.sessions["demo-hillclimb"]) == 0 {
		t.Error("something was tried of nothing")
	}
}

func TestLayoutOfTheFits(t *testing.T) {
	for _, c := range []struct {
		w, h, name, part int
		both             bool
	}{{80, 21, 17, 14, false}, {80, 21, 27, 27, false}, {140, 42, 17, 23, true}, {200, 57, 17, 14, true}, {80, 21, 8, 4, true}} {
		l := layoutFits(c.w, c.h, c.name, c.part)
		cells := 2
		if l.both {
			cells = 3
		}
		if l.both != c.both || l.rows+l.about+fitsHead+fitsFoot != c.h || l.name+cells*(l.part+fitsFigure)+cells-1 > c.w {
			t.Errorf("%+v is laid out %+v", c, l)
		}
	}
}

func keyedSize(t *testing.T, text string) length.Exact {
	t.Helper()
	w, err := length.Parse(text, length.In)
	if err != nil {
		t.Fatal(err)
	}
	return w.Exact()
}
