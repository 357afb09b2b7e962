package tui

import (
	"strings"
	"testing"

	"borewright/engine/record"
)

// atHone opens the countdown of bore 2 of the engine that is measured.
func atHone(t *testing.T) (*station, *hone) {
	t.Helper()
	s, f := atFits(t, boresPage)
	f.markRow(t, "bore/2")
	s.keys("c")
	return s, top[*hone](s)
}

// Strokes and sizes with digits and Enter alone: 3.7500 to begin with, 0.0006
// for 24 strokes, so 6 more tenths at 4 strokes each to 3.7512.
func TestTheCountdownOnDigitsAndEnter(t *testing.T) {
	s, h := atHone(t)
	shows(t, s, "bore 2, middle, along, to 3.7512 in diametral", "0.0012 in left", "key the strokes since the last size", "as found     3.75000")
	s.keys("24", "<enter>")
	shows(t, s, "key the size at bore 2, middle, along after 24 strokes, graduations from 3.7500 in")
	s.keys("+6", "<enter>")
	shows(t, s, "0.0006 in left, about 24 strokes (4.0 to each 0.0001 in)")
	if s.st.bells != 1 || len(h.passes) != 2 {
		t.Errorf("%d bells, %d passes", s.st.bells, len(h.passes))
	}
	s.keys("12", "<enter>", "9", "<enter>")
	shows(t, s, "0.0003 in left, about 12 strokes (4.0 to each 0.0001 in)")
}

func TestAWarmBoreWaits(t *testing.T) {
	s, h := atHone(t)
	if err := h.desk.Record(record.Given{Name: "expansion", Of: "bore", Value: "11.4", Source: "grey cast iron"}); err != nil {
		t.Fatal(err)
	}
	s.keys("24", "<enter>", "+8", "<enter>", "*")
	shows(t, s, "by how many °C is the bore warmer than the gauge's master?")
	s.keys("6", "<enter>")
	shows(t, s, "0.00066 in left", "the bore is 6 °C warm and reads 0.00026 in large: wait before the last")
	s.keys("*", "99999", "<enter>")
	if h.asks != askWarm || h.warmer != 6 {
		t.Errorf("a temperature that cannot be is taken: %g", h.warmer)
	}
}

func TestWhatIsKeyedWrongIsTakenBack(t *testing.T) {
	s, h := atHone(t)
	s.keys("<enter>")
	if h.asks != askStrokes || len(h.passes) != 1 {
		t.Error("Enter alone did something")
	}
	for _, keyed := range []string{"0", "1.5", "+3", "99999"} {
		s.keys(keyed, "<enter>")
		if h.asks != askStrokes || !strings.Contains(s.st.status.text, "strokes are a whole number") {
			t.Errorf("%s strokes: %q", keyed, s.st.status.text)
		}
		s.keys("/")
	}
	s.keys("24", "<enter>", "/")
	if h.asks != askStrokes {
		t.Error("strokes are not taken back")
	}
	s.keys("24", "<enter>", "+6", "<enter>", "/")
	if len(h.passes) != 1 || h.asks != askStrokes {
		t.Errorf("a size is not taken back: %v", h.passes)
	}
	s.keys("/", "/")
	if len(h.passes) != 1 {
		t.Error("what was found is taken back")
	}
}

// A size that looks like a slip is held, and kept only by *.
func TestASlipIsHeldInTheCountdown(t *testing.T) {
	s, h := atHone(t)
	s.keys("24", "<enter>", "106", "<enter>")
	if h.held == nil || len(h.passes) != 1 || s.st.bells != 2 {
		t.Fatalf("not held: %q, %d passes", s.st.status.text, len(h.passes))
	}
	s.keys("5", "<enter>")
	if h.held == nil || h.keyed.text != "106" {
		t.Error("digits or Enter changed what is held")
	}
	s.keys("*")
	if h.held != nil || len(h.passes) != 2 || h.passes[1].Size.Cmp(keyedSize(t, "3.7606")) != 0 {
		t.Errorf("kept as %v", h.passes)
	}
	s.keys("24", "<enter>", "106", "<enter>", "/")
	if h.held != nil || h.keyed.text != "" {
		t.Error("/ does not clear what is held")
	}
}

// The work is recorded when it is confirmed, and the bore is read again.
func TestHonedIsRecordedAndMeasuredAgain(t *testing.T) {
	s, _ := atHone(t)
	before := len(s.book.sessions[completeUID])
	s.keys("h")
	if !strings.Contains(s.st.status.text, "no strokes were keyed yet") {
		t.Errorf("honed without a stroke: %q", s.st.status.text)
	}
	s.keys("24", "<enter>", "+12", "<enter>", "h")
	shows(t, s, "Record this work?", "bore 2 is honed; it is measured again now", "top ring gap 2 is read again")
	if len(s.book.sessions[completeUID]) != before {
		t.Error("counting down became events")
	}
	s.keys("<enter>")
	w, ok := s.last(completeUID).Body.(record.Work)
	if !ok || w.Did != "honed" || w.Amount != "3.7512 in" || len(w.Changes) != 4 || !w.Metal {
		t.Fatalf("recorded %+v", s.last(completeUID).Body)
	}
	if m := top[*measure](s); m.where() != "bore 2, top, across" {
		t.Errorf("then at %s", m.where())
	}
}

// Without a target, or a reading, it says what is missing and counts on.
func TestACountdownWithoutATarget(t *testing.T) {
	s := newStation(t, 80, 24, "launch")
	s.keys("<enter>", "v")
	f := top[*fits](s)
	f.markRow(t, "bore/6")
	s.keys("c")
	shows(t, s, "no target is given", "key the size at bore 6, top, across")
	s.keys("+3", "<enter>", "10", "<enter>", "+4", "<enter>")
	if h := top[*hone](s); len(h.passes) != 2 {
		t.Errorf("%d passes", len(h.passes))
	}
	shows(t, s, "no target is given", "Esc, key the size to hone to, Enter, then c again")
	s.keys("<esc>")
	f.markRow(t, "bore/6")
	s.keys("3.7508", "<enter>", "c")
	shows(t, s, "to 3.7508 in diametral")
}
