package tui

import (
	"borewright/engine"
	"borewright/engine/plan"
	"borewright/tui/draw"
	"borewright/tui/keying"
)

// askMixup is the question whether a finished feature's readings belong to
// another one.
const askMixup = "wrong hole or order"

// wonder asks about a feature that a reading has just finished, when it looks
// like another one. Nothing is moved before it is answered.
func (m *measure) wonder(f plan.Feature) {
	x, ok := m.desk.Session.Mixup(f)
	if !ok {
		return
	}
	m.mixed = x
	m.keys = keying.Ask(m.keys, keying.Asking{
		What: askMixup, Title: x.Text + ". Which is right?", Options: m.mixupChoices(x),
	})
	m.st.Ring(2)
}

func (m *measure) mixupChoices(x engine.Mixup) []string {
	to := "they belong to " + m.desk.Session.Name(x.As) + ": put them there"
	if x.As == x.Of {
		to = "they were read from the other end: turn them round"
	}
	return []string{"they stand where they were keyed", to}
}

// settleMixup leaves the readings or puts them right, by one event.
func (m *measure) settleMixup(text string) {
	if text == "2" && m.record(m.mixed.Moved) {
		m.st.Say(draw.Plain, "the readings are put right; the log can take it back")
		m.move(m.desk.Session.Enter(m.mixed.Of))
	}
}
