package engine

import (
	"slices"
	"time"

	"borewright/engine/plan"
	"borewright/engine/record"
)

// usualStaleHours is after how many hours a zero is too old where the session
// does not say: a shift, common practice, no source.
const usualStaleHours = 8

// StaleHours is after how many hours a zero is too old.
func (s *Session) StaleHours() int {
	if s.rules.StaleHours > 0 {
		return s.rules.StaleHours
	}
	return usualStaleHours
}

// clockSlack is by how much a clock may stand behind the last event as if nothing
// were wrong: computers whose clocks differ, and clocks that are set right.
const clockSlack = 5 * time.Minute

// Stale reports whether a family's gauge was left with its set open for longer
// than its zero may be trusted: nothing was read, zeroed or checked with it for
// so many whole hours at now. The zero is checked first then, or that is skipped.
// So it is when the clock stands behind what was done last, lay is below zero:
// nobody knows how long it was then.
func (s *Session) Stale(f plan.Family, now time.Time) (h Hand, lay time.Duration, stale bool) {
	h, err := s.Hand(f)
	if err != nil {
		return h, 0, false
	}
	last := s.lastWith(h.Setting.ID)
	if last.IsZero() {
		return h, 0, false
	}
	lay = now.Sub(last)
	return h, lay, int(lay.Hours()) >= s.StaleHours() || lay < -clockSlack
}

// lastWith is when a setting was last made, checked, or read with. A check that
// was skipped counts: it was thought of.
func (s *Session) lastWith(setting string) time.Time {
	of := func(set string) bool {
		x, ok := s.Set(set)
		return ok && x.Setting == setting
	}
	for _, e := range slices.Backward(s.events) {
		uses := false
		switch b := e.Body.(type) {
		case record.Reading:
			uses = of(b.Set)
		case record.Zero:
			uses = of(b.Set)
		case record.Setting:
			uses = b.ID == setting
		}
		if uses && s.Live(e.N) {
			return e.At
		}
	}
	return time.Time{}
}
