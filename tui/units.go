package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine/length"
	"borewright/tui/draw"
)

// unitKey is the key that shows a session's figures in the other unit. Nothing
// that was keyed is touched.
func (st *Station) unitKey(d *Desk) Action {
	to := d.Session.OtherUnit()
	return on("u", unitWord(to), func() tea.Cmd {
		st.showIn(d, to)
		return nil
	}).because("shows every figure of the session in the other unit; what was keyed and the limits keep the unit they were written in")
}

// showIn shows the figures of a session in a unit from here on.
func (st *Station) showIn(d *Desk, u length.Unit) {
	if err := d.Record(d.Session.RulesIn(u)); err != nil {
		st.Say(draw.Warn, err.Error())
		st.Ring(2)
		return
	}
	st.Say(draw.Plain, "figures are shown in "+unitWord(u)+"; what was keyed stays as it is")
}

// keyedIn says in which unit a bare number is keyed, when that is not the one
// that figures are shown in.
func (m *measure) keyedIn() string {
	h, err := m.desk.Session.Hand(m.place.Of.Family)
	if u := h.Instrument.Unit; err == nil && u != length.NoUnit && u != m.desk.Session.Unit() {
		return ", in " + unitWord(u)
	}
	return ""
}

// standsAs is what stands at the place as it was keyed, when figures are shown
// in another unit than it was keyed in.
func (m *measure) standsAs() string {
	now := m.desk.Session.Now(m.place)
	if len(now) != 1 || m.keyedIn() == "" {
		return ""
	}
	return ", keyed " + now[0].Keyed
}
