package tui

import (
	"fmt"
	"strings"

	"borewright/engine/limit"
	"borewright/tui/draw"
)

// The column at the left of a lineup that names its rows, the least that each
// member needs where it has room, and the most that one takes.
const (
	rowNames               = 13
	leastNamed, mostMember = 7, 26
)

// lineupGrid is how a lineup shares the width.
type lineupGrid struct {
	names  int // cells for the names of the rows, 0 for none
	member int // cells of each member, with the gap behind it
	gap    int
}

func gridOf(w, n int) lineupGrid {
	n = max(1, n)
	g := lineupGrid{names: rowNames, member: (w - rowNames) / n, gap: 1}
	if g.member < leastNamed {
		g.names, g.member = 0, w/n
	}
	if g.member <= draw.ProfileLeast {
		g.gap = 0
	}
	g.member = min(g.member, mostMember)
	return g
}

// inner is what a member may fill of its cells.
func (g lineupGrid) inner() int { return g.member - g.gap }

// words is what words and figures may fill, so that none runs into the next.
func (g lineupGrid) words() int { return g.member - 1 }

// picture draws a lineup: a rule, and for each member its label and verdict,
// its form, what is worst, its clearance (without any, its mean size) and the
// margin used.
func (s *worst) picture(l lineup, w, forms int, what bool) []string {
	g := gridOf(w, len(l.members))
	lines := []string{draw.Rule(s.pictureTitle(l, g, w), w, s.st.ASCII), s.cells(g, "", l, g.member, s.memberHead)}
	lines = append(lines, s.forms(l, g, forms)...)
	if what {
		lines = append(lines, s.cells(g, "worst in", l, g.words(), s.memberWorst))
	}
	figure := s.cells(g, "clearance", l, g.words(), s.memberClearance)
	if l.by == "" {
		figure = s.cells(g, "mean size", l, g.words(), memberSize)
	}
	return append(lines, figure, s.cells(g, "margin used", l, g.inner(), s.memberMargin))
}

// pictureTitle says what is drawn and how much too large; the definition of the
// clearances too where there is room.
func (s *worst) pictureTitle(l lineup, g lineupGrid, w int) string {
	title := l.family.Plural()
	if l.form.Measured() {
		u := s.desk.Session.Unit()
		title += fmt.Sprintf(", %s about %s %s, diametral", draw.FactorText(l.form.Factor(g.inner()), s.st.Signs), l.about.Format(u, u.Decimals()), u)
	} else {
		title += ": nothing measured yet"
	}
	for _, more := range []string{hatched(l), prefixed("; clearance ", l.by)} {
		if draw.Width(title+more)+4 <= w {
			title += more
		}
	}
	return title
}

// hatched says what the hatching is, where more than one direction is drawn.
func hatched(l lineup) string {
	if t, _ := l.family.Traits(); t.Judged != "" || len(l.group.Directions) < 2 || !l.form.Measured() {
		return ""
	}
	return "; hatched: out-of-round"
}

func prefixed(before, text string) string {
	if text == "" {
		return ""
	}
	return before + text
}

// cells draws one row of a lineup: its name and a text of at most w cells for
// each member.
func (s *worst) cells(g lineupGrid, name string, l lineup, w int, of func(m member, w int) string) string {
	var b strings.Builder
	b.WriteString(s.st.Palette.Paint(draw.Dim, draw.Fit(" "+name, g.names)))
	for _, m := range l.members {
		b.WriteString(draw.Fit(of(m, w), g.member))
	}
	return b.String()
}

// forms draws the forms, the levels named at their rows.
func (s *worst) forms(l lineup, g lineupGrid, rows int) []string {
	names := make([]string, rows)
	for i, y := range l.form.Rows(rows) {
		if names[y] == "" {
			names[y] = draw.Cut(" "+draw.Clean(l.group.Levels[i].Called()), g.names-1)
		}
	}
	for i := range names {
		names[i] = s.st.Palette.Paint(draw.Dim, draw.Fit(names[i], g.names))
	}
	blocks := [][]string{names}
	for _, x := range l.form.Draw(g.inner(), rows) {
		blocks = append(blocks, draw.Box(x, g.member, rows))
	}
	return draw.Beside(0, blocks...)
}

// memberHead is a member's label, with the sign and the words of its verdict.
func (s *worst) memberHead(m member, w int) string {
	p := &s.st.Palette
	mark, tone := " ", draw.Title
	if m.marked {
		mark, tone = s.st.Signs.Here, draw.Marked
	}
	label := draw.Cut(draw.Clean(m.Label), w-2)
	f, ok := m.Worst()
	if !ok {
		return p.Paint(tone, mark+label)
	}
	v := verdictTone(f.Judgement)
	room := w - draw.Width(mark+label) - 2
	return p.Paint(tone, mark+label) + p.Paint(v, s.st.Signs.For(v)+prefixed(" ", memberVerdict(f.Judgement, room)))
}

// memberVerdict is the verdict in words, as long as there is room for.
func memberVerdict(j limit.Judgement, room int) string {
	for _, text := range verdictWords(j) {
		if draw.Width(text) <= room {
			return text
		}
	}
	return ""
}

// verdictWords are the words for a verdict, the longest first.
func verdictWords(j limit.Judgement) []string {
	switch j.Verdict {
	case limit.Outside:
		return []string{"OUTSIDE", "OUT"}
	case limit.NotMeasured:
		return []string{"not finished", "to do"}
	case limit.TooClose:
		return []string{"too close to call", "too close", "close"}
	case limit.InsideWear:
		return []string{"inside, wear only", "by wear", "wear"}
	default:
		if j.Suspect {
			return []string{"suspect"}
		}
		return []string{j.Verdict.String()}
	}
}

// memberWorst is what is worst of a member, of what is measured, where all of
// the word has room.
func (s *worst) memberWorst(m member, w int) string {
	if f, ok := m.used(); ok && draw.Width(string(f.On)) < w {
		return " " + string(f.On)
	}
	return ""
}

// memberClearance is a member's clearance with the sign of its verdict: without
// the zero before its point where there is little room, and nothing where not
// all of it has room.
func (s *worst) memberClearance(m member, w int) string {
	text := m.clearance
	if draw.Width(text) > w {
		text = strings.TrimPrefix(text, "0")
	}
	n := draw.Width(text)
	switch {
	case n == 0 || n > w:
		return ""
	case m.tone != draw.Plain && n+3 <= w:
		return " " + text + " " + s.st.Palette.Paint(m.tone, s.st.Signs.For(m.tone))
	case n < w:
		return " " + text
	default:
		return text
	}
}

// memberSize is the mean size of what is drawn of a member, where all of it has
// room.
func memberSize(m member, w int) string {
	switch n := draw.Width(m.size); {
	case n < w:
		return " " + m.size
	case n > w:
		return ""
	default:
		return m.size
	}
}

// The width of a margin as a number, and from which width on it stands behind
// its bar.
const marginNumber, numbered = 5, 14

// memberMargin is the share of the margin that a member has used, as a bar, and
// as a number too where there is room.
func (s *worst) memberMargin(m member, w int) string {
	f, ok := m.used()
	if !ok || !f.Judgement.Ranked {
		return ""
	}
	p := &s.st.Palette
	tone := verdictTone(f.Judgement)
	bar := draw.Used{Share: f.Judgement.Margin, Known: true, Tone: tone, ASCII: s.st.ASCII, Palette: p}
	if w < numbered {
		return bar.Draw(w)
	}
	return bar.Draw(w-marginNumber) + p.Paint(tone, draw.FitRight(marginText(f.Judgement), marginNumber))
}
