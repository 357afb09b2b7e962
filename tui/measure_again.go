package tui

import (
	"fmt"
	"slices"

	"borewright/engine"
	"borewright/engine/plan"
	"borewright/tui/draw"
)

// measureAgain asks the measure screen to take the hand through places once
// more, so that what is keyed replaces what stands there.
type measureAgain struct{ places []plan.Place }

// placesOf returns the places that a finding rests on, of its own feature: at
// its level and in its direction, as far as it has them.
func (d *Desk) placesOf(f engine.Finding) []plan.Place {
	t, _ := f.Of.Family.Traits()
	var out []plan.Place
	for _, p := range d.Session.Plan().Places(f.Of) {
		counts := t.Judged == "" || p.Dir == t.Judged || p.Dir == f.Dir
		if counts && (f.Level == "" || p.Level == f.Level) && (f.Dir == "" || p.Dir == f.Dir) {
			out = append(out, p)
		}
	}
	return out
}

// startAgain goes to the first of the places that are still planned.
func (m *measure) startAgain(places []plan.Place) {
	planned := m.desk.Session.Places()
	places = slices.DeleteFunc(slices.Clone(places), func(p plan.Place) bool { return !slices.Contains(planned, p) })
	if len(places) == 0 {
		m.refuse("there is no place to measure again")
		return
	}
	m.again, m.agains = places, len(places)
	m.nextAgain()
}

// nextAgain goes to the next of the places to be read again.
func (m *measure) nextAgain() {
	rest := m.again
	m.move(rest[0])
	m.again = rest[1:]
	text := fmt.Sprintf("measuring again, %d of %d", m.agains-len(m.again), m.agains)
	if len(m.desk.Session.Now(m.place)) > 0 {
		text += ": a new number replaces what stands here"
	}
	m.st.Say(draw.Marked, text)
}

// goOn goes to where a taken reading leads: to the next place that is in
// doubt or to be read again, back to where the hand was when it added a repeat to an earlier
// place, else on in the plan.
func (m *measure) goOn() {
	again, clearing := m.again, m.clearing
	switch {
	case !m.returnTo.IsZero():
		m.move(m.returnTo)
		m.again, m.clearing = again, clearing
	case clearing:
		m.clearNext()
	case len(again) > 0:
		m.nextAgain()
	default:
		m.goOnOrBlind()
	}
}
