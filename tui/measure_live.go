package tui

import (
	"borewright/engine"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/tui/draw"
)

// liveRows is from how many rows on the live figure is as large as what is being
// keyed; on fewer it is as small as large digits are.
const liveRows = 34

// worstLive is the live figure that matters: of those that limits judge and
// that are measured, the worst of a feature's; ok is false when there is none.
func (m *measure) worstLive(of plan.Feature) (worst engine.LiveFigure, ok bool) {
	for _, f := range m.desk.live(of) {
		if !f.Judged || f.Value == "" {
			continue
		}
		if !ok || limit.Compare(f.Judgement, worst.Judgement) < 0 {
			worst, ok = f, true
		}
	}
	return worst, ok
}

// liveWords says what a live figure is and what its limits say of it, and whose
// it is where that is not the feature in the hand.
func (m *measure) liveWords(of plan.Feature, f engine.LiveFigure) string {
	tone := verdictTone(f.Judgement)
	name := f.Name
	if of != m.place.Of {
		name = m.desk.Session.Name(of) + ": " + name
	}
	return m.st.Signs.For(tone) + " " + name + " " + engine.VerdictText(f.Judgement) + ", " + f.Against
}

// bigLive is the live figure large, below what is being keyed, where there is
// room for both: so many rows are left by the figures and the bar.
func (m *measure) bigLive(l measureLayout, room int) []string {
	f, ok := m.worstLive(m.place.Of)
	if !ok || m.keys.Text == "" || m.blind() || m.keys.Asking.What != "" {
		return nil
	}
	high, out := min(draw.BigRows(f.Value, l.right, l.big), l.big), []string{""}
	if l.rows < liveRows {
		high, out = minBig, nil
		if high+1 > room {
			return nil
		}
	}
	p := &m.st.Palette
	tone := verdictTone(f.Judgement)
	for _, line := range draw.BigIn(f.Value, l.right, high, m.st.ASCII) {
		out = append(out, p.Paint(tone, line))
	}
	return append(out, p.Paint(tone, draw.Cut(m.liveWords(m.place.Of, f), l.right)))
}
