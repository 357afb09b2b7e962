package tui

import (
	"strings"

	"borewright/engine"
	"borewright/engine/limit"
	"borewright/tui/draw"
)

// headline is the worst member of a line: its label large, beside it its
// finding, and when the line is not drawn below, the others in order.
func (s *worst) headline(rs []engine.Ranking, title string, w, rows int, drawn bool) []string {
	p := &s.st.Palette
	if len(rs) == 0 {
		return draw.Box(nil, w, rows)
	}
	f, ok := rs[0].Worst()
	if !ok || f.Judgement.Verdict == limit.NotMeasured {
		return draw.Box([]string{p.Paint(draw.Title, title), p.Paint(draw.Dim, "nothing measured that a limit judges")}, w, rows)
	}
	tone := verdictTone(f.Judgement)
	big := bigLabel(rs[0].Label, rows, s.st.ASCII)
	for i := range big {
		big[i] = p.Paint(tone, big[i])
	}
	room := max(10, w-draw.Widest(big)-2)
	text := []string{p.Paint(draw.Title, title+": ") + p.Paint(tone, strings.ToUpper(f.Judgement.Verdict.String()))}
	text = append(text, draw.Wrap(f.Text, room)...)
	if !drawn && len(text) < rows {
		text = append(text, s.order(rs[1:], room))
	}
	return draw.Box(draw.Beside(2, big, draw.Box(text, room, rows)), w, rows)
}

// bigLabel is a label in large digits, or as it is where it is no number.
func bigLabel(label string, rows int, ascii bool) []string {
	label = draw.Clean(label)
	if strings.Trim(label, "0123456789") != "" {
		lines := make([]string, rows)
		lines[0] = " " + label
		return lines
	}
	return draw.Big(label, rows, ascii)
}

// order names members in their order, worst first, as many as have room.
func (s *worst) order(rs []engine.Ranking, room int) string {
	p := &s.st.Palette
	text := p.Paint(draw.Dim, "then")
	for _, r := range rs {
		tone := draw.Dim
		if f, ok := r.Worst(); ok {
			tone = verdictTone(f.Judgement)
		}
		next := text + " " + p.Paint(tone, draw.Clean(r.Label)+s.st.Signs.For(tone))
		if draw.Width(next) > room {
			break
		}
		text = next
	}
	return text
}
