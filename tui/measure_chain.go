package tui

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine"
	"borewright/engine/gauge"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/tui/draw"
)

// chainKeys are the key that makes size or clearance large where the gauge is
// zeroed on a measured part.
func (m *measure) chainKeys() []Action {
	p := m.chainPlace()
	if _, _, ok := m.desk.Session.Chained(p); !ok {
		return nil
	}
	help := "size large"
	if m.sizeLarge {
		help = "clearance large"
	}
	return []Action{on("c", help, func() tea.Cmd {
		m.sizeLarge = !m.sizeLarge
		return nil
	}).because("the dial reads clearance over the part that the gauge was zeroed on; the size follows from it")}
}

// chainPlace is the place whose figure is shown large.
func (m *measure) chainPlace() plan.Place {
	if len(m.desk.Session.Now(m.place)) == 0 && m.showsTaken() {
		return m.justTaken
	}
	return m.place
}

// standing is what stands at a place large: its clearance where the dial read
// that, else its size.
func (m *measure) standing(p plan.Place) string {
	c, _, ok := m.desk.Session.Chained(p)
	if !ok || m.sizeLarge {
		return m.figureText(p)
	}
	x, _ := m.desk.Now.Feature(p.Of)
	return c.Format(m.desk.Session.Unit(), x.Places)
}

// chainLines say what is large and what is not, and what cancels on the way.
func (m *measure) chainLines(p plan.Place, line func(draw.Tone, string) []string) []string {
	s := m.desk.Session
	c, over, ok := s.Chained(p)
	if !ok {
		return nil
	}
	x, _ := m.desk.Now.Feature(p.Of)
	u := s.Unit()
	clearance := "clearance over " + s.Name(over) + " " + c.Format(u, x.Places)
	size := "size " + m.figureText(p)
	text := clearance + ", " + size
	if m.sizeLarge {
		text = size + ", " + clearance
	}
	out := line(draw.Value, text+" "+u.String()+", diametral")
	return append(out, line(draw.Dim, m.cancelsText(p.Of))...)
}

// cancelsText says what falls out of the clearance of a feature.
func (m *measure) cancelsText(f plan.Feature) string {
	for _, x := range m.desk.Now.Findings {
		if x.Of == f && x.On == limit.Clearance && len(x.Doubt.Budget.Cancelled) > 0 {
			return "in the clearance cancels: " + strings.Join(x.Doubt.Budget.Cancelled, ", ")
		}
	}
	return "the micrometer's own error cancels in the clearance, not in the size"
}

// masterText names what graduations are counted from: a size, or a measured
// part.
func (m *measure) masterText(h engine.Hand) string {
	if h.Setting.On == gauge.OnFeature && h.Setting.Size.IsZero() {
		return m.desk.Session.NameOf(h.Setting.Feature)
	}
	return h.Setting.Size.String()
}
