package tui

import (
	"fmt"
	"slices"

	"borewright/engine"
	"borewright/engine/plan"
	"borewright/tui/draw"
)

// leastBeside is how many rows are left when the neighbours are shown.
const leastBeside = 6

// The widths of a neighbour's line: its pointer and name, its sizes and its
// verdict; the rest is what is worst of it.
const besideName, besideSizes, besideVerdict = 22, 18, 12

// neighbours shows the other features of the family beside the one in the hand:
// what they measure, and what is worst of each.
func (m *measure) neighbours(w, rows int) []string {
	all := featuresOf(m.desk.Session, m.place.Of.Family)
	if rows < leastBeside || len(all) < 2 {
		return nil
	}
	lines := []string{"", draw.Rule("beside it, smallest to largest, diametral, "+m.desk.Session.Unit().String(), w, m.st.ASCII)}
	room := rows - len(lines)
	at := slices.Index(all, m.place.Of)
	first := max(0, min(at-room/2, len(all)-room))
	for _, f := range all[first:min(len(all), first+room)] {
		lines = append(lines, m.neighbour(f, w))
	}
	return lines
}

// neighbour is one feature's line.
func (m *measure) neighbour(f plan.Feature, w int) string {
	p, s := &m.st.Palette, m.desk.Session
	mark, tone := "  ", draw.Plain
	if f == m.place.Of {
		mark, tone = m.st.Signs.Here+" ", draw.Marked
	}
	x, _ := m.desk.Now.Feature(f)
	head := p.Paint(tone, draw.Fit(mark+draw.Clean(s.Name(f)), min(besideName, w/3)))
	if x.Read == 0 {
		return head + p.Paint(draw.Dim, m.st.Signs.Dash)
	}
	if f == m.place.Of && m.blind() {
		return head + p.Paint(draw.Dim, "hidden")
	}
	u := s.Unit()
	sizes := x.Figures.Smallest.Format(u, x.Places)
	if largest := x.Figures.Largest.Format(u, x.Places); largest != sizes {
		sizes += " - " + largest
	}
	worst, ok := m.desk.worstOf(f)
	if !ok {
		return head + draw.Cut(sizes, w-draw.Width(head))
	}
	tone = verdictTone(worst.Judgement)
	verdict := m.st.Signs.For(tone) + " " + shortVerdict(worst.Judgement)
	line := head + draw.Fit(sizes, besideSizes) + p.Paint(tone, draw.Fit(verdict, besideVerdict))
	return line + p.Paint(draw.Dim, draw.Cut(besideWords(worst), max(0, w-draw.Width(line))))
}

// besideWords name what is worst of a feature, and how much of its margin.
func besideWords(f engine.Finding) string {
	text := string(f.On)
	if f.Judgement.Ranked {
		text += fmt.Sprintf(" %.2f", f.Judgement.Margin)
	}
	return text
}
