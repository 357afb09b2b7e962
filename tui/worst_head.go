package tui

import (
	"slices"
	"strings"

	"borewright/engine"
	"borewright/engine/plan"
	"borewright/tui/draw"
)

// headline is the worst member of a line: its label large, beside it its
// finding, and when the line is not drawn below, the others in order.
func (s *worst) headline(rs []engine.Ranking, title string, w, rows int, drawn bool) []string {
	p := &s.st.Palette
	first, f, ok := engine.Headline(rs)
	if !ok {
		return draw.Box([]string{p.Paint(draw.Title, title), p.Paint(draw.Dim, "nothing measured that a limit judges")}, w, rows)
	}
	tone := verdictTone(f.Judgement)
	big := bigLabel(first.Label, rows, s.st.ASCII)
	for i := range big {
		big[i] = p.Paint(tone, big[i])
	}
	room := max(10, w-draw.Widest(big)-2)
	text := append(s.verdictLines(title, f, room), draw.Wrap(f.Text, room)...)
	if !drawn && len(text) < rows {
		text = append(text, s.order(slices.DeleteFunc(slices.Clone(rs), func(r engine.Ranking) bool { return r.At == first.At }), room))
	}
	return draw.Box(draw.Beside(2, big, draw.Box(text, room, rows)), w, rows)
}

// verdictLines are the title and the verdict, on one line where there is room.
func (s *worst) verdictLines(title string, f engine.Finding, room int) []string {
	p := &s.st.Palette
	verdict := strings.ToUpper(f.Judgement.Verdict.String())
	painted := p.Paint(verdictTone(f.Judgement), verdict)
	if draw.Width(title+": "+verdict) <= room {
		return []string{p.Paint(draw.Title, title+": ") + painted}
	}
	return []string{p.Paint(draw.Title, title), painted}
}

// headlines are the worst of both lines beside each other, or of the only line that
// is in the plan.
func (s *worst) headlines(rows int, drawn map[plan.Line]bool) []string {
	lines := []struct {
		of    plan.Line
		rs    []engine.Ranking
		title string
	}{
		{plan.CylinderLine, s.desk.Now.Cylinders, "worst cylinder"},
		{plan.CrankLine, s.desk.Now.Mains, "worst main"},
	}
	var blocks [][]string
	for _, l := range lines {
		if s.planned(l.of) {
			blocks = append(blocks, s.headline(l.rs, l.title, s.w/2-1, rows, drawn[l.of]))
		}
	}
	if len(blocks) == 0 {
		return make([]string, rows)
	}
	return draw.Beside(2, blocks...)
}

// planned reports whether anything of a line is in the plan.
func (s *worst) planned(l plan.Line) bool {
	return slices.ContainsFunc(s.desk.Session.Plan().Families, func(g plan.Group) bool { return g.Family.Line() == l })
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
