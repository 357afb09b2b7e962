package tui

import (
	"fmt"
	"time"

	"borewright/engine"
	"borewright/engine/record"
	"borewright/tui/draw"
	"borewright/tui/keying"
)

// askStale is the question for a zero check before the first reading with a
// gauge that lay for hours.
const askStale = "zero check first"

// askStale asks for a zero check where the gauge in the hand lay for too long, or
// where part or gauge is not as warm as at the last zero.
func (m *measure) askStale(now time.Time) {
	why, h := m.stale(now)
	if why == "" {
		return
	}
	m.keys = keying.Ask(m.keys, keying.Asking{
		What: askStale, Signed: true,
		Title: fmt.Sprintf("first a zero check: %s. What does %s read on %s, in graduations? / skips it",
			why, h.Instrument.Name, masterWords(m.desk.Session, h.Setting)),
	})
}

// stale says why the zero of the gauge in the hand is to be checked first, or "".
func (m *measure) stale(now time.Time) (why string, h engine.Hand) {
	s := m.desk.Session
	if m.place.IsZero() || m.desk.Shut != nil {
		return "", h
	}
	h, lay, stale := s.Stale(m.place.Of.Family, now)
	switch {
	case s.Doubtful(h.Setting.ID):
		return "", h
	case stale && lay < 0:
		return "the clock was put back since " + h.Instrument.Name + " was used", h
	case stale:
		return h.Instrument.Name + " lay for " + layText(lay), h
	default:
		return s.Warmed(m.place.Of.Family), h
	}
}

// layText says how long something lay.
func layText(lay time.Duration) string {
	hours := int(lay.Hours())
	if hours >= 48 {
		return fmt.Sprintf("%d days", hours/24)
	}
	return fmt.Sprintf("%d hours", hours)
}

// skipStale records that the zero check was skipped.
func (m *measure) skipStale() {
	why, h := m.stale(m.st.look())
	if why == "" {
		return
	}
	if m.record(record.Zero{Set: h.Set.ID, Skipped: true, Why: "skipped at the bench: " + why}) {
		m.st.Say(draw.Warn, "zero check skipped, and recorded so: "+why)
	}
}
