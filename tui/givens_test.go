package tui

import (
	"strings"
	"testing"

	"borewright/engine"
	"borewright/engine/record"
)

// atGivens opens what is given, at a line.
func atGivens(t *testing.T, session, line string) (*station, *Desk) {
	t.Helper()
	s := newStation(t, 80, 24, session)
	s.keys("<enter>", "v", "o")
	g := top[*givens](s)
	for i, x := range g.lines() {
		if x.name == line {
			g.list.at = i
			s.keys("<enter>")
			return s, g.desk
		}
	}
	t.Fatalf("there is no line %q", line)
	return nil, nil
}

// A hone target keyed at the bench is what the remedies hone to, once it is
// kept; cleared, it is given no more.
func TestATargetIsKeyedAndCleared(t *testing.T) {
	s, d := atGivens(t, "launch", "honing and boring")
	n := d.Session.Head().N
	s.keys("3.7510", "<enter>", "0.0001", "<enter>")
	if d.Session.Head().N != n {
		t.Error("what is keyed is recorded before it is kept")
	}
	s.keys("<f2>")
	shows(t, s, "hone target 3.7510 in; finish allowance 0.0001 in")
	s.keys("<esc>", "<right>")
	shows(t, s, "hone bore 2 to 3.7510 in")
	s.keys("o", "1", "/", "<enter>", "<f2>")
	if got := d.Session.GivenValue(engine.GivenHoneTarget, "bore"); got != "" {
		t.Errorf("cleared, the target is %q", got)
	}
	shows(t, s, "honing and boring finish allowance 0.0001 in")
}

// Shells on hand are keyed row by row; the fits choose among them at once.
func TestShellsOnHandAreKeyed(t *testing.T) {
	s, d := atGivens(t, "launch", "shells on hand, main bearings")
	s.keys("<down>", "0.001 extra", "<enter>", "-0.001", "<enter>", "<enter>", "2", "<enter>")
	shows(t, s, "1 0.001 extra -0.001 either 2")
	s.keys("<f2>")
	shows(t, s, "0.001 extra × 2")
	if got := d.Session.TableRows(shellTable(t, d)); len(got) != 1 || got[0][engine.ColumnUndersize] != "-0.001 in" || got[0][engine.ColumnCount] != "2" {
		t.Errorf("kept as %v", got)
	}
	s.keys("<esc>", "<right>", "<down>")
	shows(t, s, "fit shells, upper/lower: main bearing 3 0.001 extra/0.001 extra")
	// By their walls the sizes are keyed anew, and a row that lacks one says so.
	s.keys("o", "7", "<right>")
	f := top[*entry](s)
	if why := f.why(); !strings.Contains(why, "row 1 of the shells on hand for the mains has no wall") {
		t.Errorf("told by walls: %q", why)
	}
	s.keys("<esc>", "<esc>")
	if top[*givens](s) == nil || len(d.Session.TableRows(shellTable(t, d))) != 1 {
		t.Error("left without keeping, and changed")
	}
}

func shellTable(t *testing.T, d *Desk) engine.TableTopic {
	t.Helper()
	for _, x := range d.Session.TableTopics() {
		if x.Name == record.Shells {
			return x
		}
	}
	t.Fatal("no shells")
	return engine.TableTopic{}
}

// A piston that is locked stays where it is when the best is tried.
func TestAPistonIsLocked(t *testing.T) {
	s, d := atGivens(t, "launch-complete", "where pistons may be")
	s.keys("2", "<enter>", "2", "<enter>", "<f2>")
	shows(t, s, "where pistons may be 2 only at 2")
	for _, c := range d.Session.Arrange(d.Now, "piston").Changes {
		if c.Of.At == 2 {
			t.Errorf("piston 2 is locked, and the best is to %s", d.Session.Tell(c))
		}
	}
	s.keys("<enter>", "<down>", "9", "<enter>", "<f2>")
	if !strings.Contains(s.st.status.text, "there is no piston 9") {
		t.Errorf("status %q", s.st.status.text)
	}
}

// Stretch is keyed with its limits and judged under what is to do.
func TestFastenersAreKeyed(t *testing.T) {
	s, _ := atGivens(t, "launch-complete", "fasteners of main bearings")
	s.keys("0.005", "<enter>", "0.006", "<enter>", "<enter>", "70 N m", "<enter>", "3.2", "<enter>", "3.2065", "<enter>", "72 N m", "<enter>", "<f2>", "<esc>")
	s.keys(strings.Split(strings.Repeat("<down> ", 20), " ")[:20]...)
	shows(t, s, "✗ fastener of main bearing 1, stretch: OUTSIDE, 0.0065 in, 0.005 in to 0.006", "✗ fastener of main bearing 1, torque: OUTSIDE, 72 N m, at most 70 N m")
}
