package tui

import (
	"testing"
	"time"

	"borewright/engine/record"
)

// A burst is told by the watch, and an event does not take its time from it.
func TestTheWatchTellsTheRhythmOfKeys(t *testing.T) {
	for gap, via := range map[time.Duration]string{25 * time.Millisecond: record.ViaCable, 35 * time.Millisecond: record.ViaKeypad} {
		s, m := atLaunch(t)
		h, err := m.desk.Session.Hand(m.place.Of.Family)
		if err != nil {
			t.Fatal(err)
		}
		h.Instrument.Sends = "graduations"
		if !m.record(record.Instrument{Instrument: h.Instrument}) {
			t.Fatal(s.st.status.text)
		}
		before, watch := s.last(launchUID).At, noon
		s.st.Watch = func() time.Time { watch = watch.Add(gap); return watch }
		s.keys("+1.5", "<enter>")
		e := s.last(launchUID)
		if r := e.Body.(record.Reading); r.Via != via || e.At.Sub(before) != time.Second {
			t.Errorf("with %v between characters and Enter: %+v, %v after the event before", gap, r, e.At.Sub(before))
		}
	}
}
