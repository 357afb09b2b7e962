package tui

import (
	"strings"
	"testing"

	"borewright/engine/record"
)

// The last reading of all leaves the hand where it is and says that all is
// read: the next number does not fall on the first place, which has a reading.
func TestTheLastReadingOfAllSaysSo(t *testing.T) {
	b := newSetupBench(t)
	b.press("n", "7", "<f2>")
	m := top[*measure](b.station)
	for _, size := range []string{"80.01", "80.012", "80.011", "80.013", "80.012", "80.011"} {
		if strings.Contains(b.r.View(), "every place is read") {
			t.Errorf("too soon, before %s", size)
		}
		b.press(size, "<enter>")
	}
	if m.where() != "bore 1, bottom, along" {
		t.Errorf("the hand is at %s", m.where())
	}
	b.see("every place is read or left out: w shows what is worst, e writes the sheet")

	// Measured again it goes on as ever.
	b.press("80.015", "<enter>")
	if r := b.last(m.desk.UID()).Body.(record.Reading); r.As != record.Replace || m.where() != "bore 1, top, across" {
		t.Errorf("measured again: %+v, at %s", r, m.where())
	}

	// Leaving the last one out ends it too.
	b.press("/7", "/7", "/1")
	b.see("every place is read or left out")
	b.press("<esc>", "<enter>")
	b.see("w shows what is worst")
}
