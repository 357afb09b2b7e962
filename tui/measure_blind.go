package tui

import (
	"borewright/tui/draw"
)

// blind reports whether the place is read again unseen: what stands there is
// hidden, and what is keyed is kept apart from it.
func (m *measure) blind() bool { return !m.blindFrom.IsZero() }

// goOnOrBlind goes on in the plan, now and then by way of an earlier place of
// the set that is read again unseen.
func (m *measure) goOnOrBlind() {
	s := m.desk.Session
	next := s.Next(m.place)
	p, ok := s.BlindPlace(m.place)
	if !ok {
		m.move(next)
		return
	}
	m.move(p)
	m.blindFrom = next
	m.st.Say(draw.Marked, "once more: "+s.PlaceName(p)+", as if it were new; it tells how well the gauge repeats")
}

// endBlind goes on where the hand would have been without the blind repeat.
func (m *measure) endBlind() {
	m.move(m.blindFrom)
	m.st.Hush()
}
