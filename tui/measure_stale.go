package tui

import (
	"fmt"
	"time"

	"borewright/engine/record"
	"borewright/tui/draw"
	"borewright/tui/keying"
)

// askStale is the question for a zero check before the first reading with a
// gauge that lay for hours.
const askStale = "zero check first"

// askStale asks for a zero check where the gauge in the hand lay for too long.
func (m *measure) askStale(now time.Time) {
	s := m.desk.Session
	if m.place.IsZero() {
		return
	}
	h, hours, stale := s.Stale(m.place.Of.Family, now)
	if !stale || s.Doubtful(h.Setting.ID) {
		return
	}
	m.keys = keying.Ask(m.keys, keying.Asking{
		What: askStale, Signed: true,
		Title: fmt.Sprintf("first a zero check: %s lay for %s. What does it read on %s, in graduations? / skips it",
			h.Instrument.Name, layText(hours), masterWords(s, h.Setting)),
	})
}

// layText says how long something lay.
func layText(hours int) string {
	if hours >= 48 {
		return fmt.Sprintf("%d days", hours/24)
	}
	return fmt.Sprintf("%d hours", hours)
}

// skipStale records that the zero check was skipped.
func (m *measure) skipStale() {
	h, hours, stale := m.desk.Session.Stale(m.place.Of.Family, m.st.look())
	if !stale {
		return
	}
	if m.record(record.Zero{Set: h.Set.ID, Skipped: true, Why: "skipped at the bench after " + layText(hours)}) {
		m.st.Say(draw.Warn, "zero check skipped, and recorded so: what is read now rests on a zero of "+layText(hours)+" ago")
	}
}
