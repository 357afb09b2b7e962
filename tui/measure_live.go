package tui

import (
	"borewright/engine"
	"borewright/engine/limit"
	"borewright/tui/draw"
)

// liveRows is from how many rows on the live figure is as large as what is being
// keyed; on fewer it is as small as large digits are.
const liveRows = 34

// worstLive is the live figure that matters: of those that limits judge and
// that are measured, the worst of the feature's; ok is false when there is none.
func (m *measure) worstLive() (worst engine.LiveFigure, ok bool) {
	for _, f := range m.desk.Now.Live(m.desk.Session, m.place.Of) {
		if !f.Judged || f.Value == "" {
			continue
		}
		if !ok || limit.Compare(f.Judgement, worst.Judgement) < 0 {
			worst, ok = f, true
		}
	}
	return worst, ok
}

// liveWords says what the live figure is and what its limits say of it.
func (m *measure) liveWords(f engine.LiveFigure) string {
	tone := verdictTone(f.Judgement)
	return m.st.Signs.For(tone) + " " + f.Name + " " + engine.VerdictText(f.Judgement) + ", " + f.Against
}

// bigLive is the live figure large, below what is being keyed, where there is
// room for both beside the figures and the bar; used are the rows taken above.
func (m *measure) bigLive(l measureLayout, used int) []string {
	f, ok := m.worstLive()
	if !ok || m.keys.Text == "" || m.blind() || m.keys.Asking.What != "" {
		return nil
	}
	high, out := min(draw.BigRows(f.Value, l.right, l.big), l.big), []string{""}
	if l.rows < liveRows {
		high, out = minBig, nil
		if small := m.live(l, 0); used+high+1+len(small)+len(m.bar(l.right)) > l.rows {
			return nil
		}
	}
	p := &m.st.Palette
	tone := verdictTone(f.Judgement)
	for _, line := range draw.BigIn(f.Value, l.right, high, m.st.ASCII) {
		out = append(out, p.Paint(tone, line))
	}
	return append(out, p.Paint(tone, draw.Cut(m.liveWords(f), l.right)))
}
