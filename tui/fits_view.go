package tui

import (
	"fmt"
	"strings"

	"borewright/engine"
	"borewright/tui/draw"
)

// fitsLayout is how the fits share their body: a pure function of its size.
type fitsLayout struct {
	rows, about int
	// both says that what is tried and what is best both have a column.
	both bool
	// name and part are the widths of a position's name and of what is there.
	name, part int
}

// The lines above the rows and below them, and the widths of a cell's figure.
const (
	fitsHead   = 3
	fitsFoot   = 2
	fitsFigure = 16
)

func layoutFits(w, h, name, part int) fitsLayout {
	l := fitsLayout{about: max(3, h/4), name: name, part: part}
	l.rows = max(1, h-fitsHead-fitsFoot-l.about)
	cells := 2
	if l.both = w >= l.name+3*(part+fitsFigure)+3; l.both {
		cells = 3
	}
	l.part = max(0, min(part, (w-l.name-cells)/cells-fitsFigure))
	return l
}

// View draws the page in view, what the marked row says, and what is keyed.
func (s *fits) View() []string {
	page := s.here()
	name, part := page.widest()
	l := layoutFits(s.w, s.h, name, part)
	lines := []string{s.tabs(), s.standing(), s.heading(page, l)}
	lines = append(lines, draw.Box(s.rowsInView(page, l), s.w, l.rows)...)
	lines = append(lines, draw.Rule("", s.w, s.st.ASCII))
	lines = append(lines, draw.Box(s.about(page, l), s.w, l.about)...)
	return append(lines, s.prompt(page))
}

// rowsInView are the rows around the marked one.
func (s *fits) rowsInView(page fitsPage, l fitsLayout) []string {
	at := s.list()
	row := func(i int) []string {
		if page.long {
			return s.sentenceRow(page.rows[i], i == at.at)
		}
		return s.row(page.rows[i], i == at.at, l)
	}
	var rows []string
	first, last := at.windowTall(len(page.rows), l.rows, func(i int) int { return len(row(i)) })
	for i := first; i < last; i++ {
		rows = append(rows, row(i)...)
	}
	return rows
}

// longIndent is where the sentence of a row begins.
const longIndent = 4

// sentence is what a row says, in as many lines as it takes.
func (s *fits) sentence(r fitsRow) []string {
	return draw.Wrap(s.st.Signs.Text(draw.Clean(r.about[0])), max(10, s.w-longIndent-1))
}

// sentenceRow is a row that is a sentence, with the sign of its verdict.
func (s *fits) sentenceRow(r fitsRow, here bool) []string {
	p := &s.st.Palette
	mark, tone := "  ", draw.Plain
	if here {
		mark, tone = s.st.Signs.Here+" ", draw.Marked
	}
	v := verdictTone(r.finding.Judgement)
	switch {
	case r.outside:
		v = draw.Bad
	case r.finding.Text == "":
		v = draw.Dim
	}
	lines := s.sentence(r)
	for i, text := range lines {
		head := draw.Fit("", longIndent)
		if i == 0 {
			head = p.Paint(tone, mark) + p.Paint(v, s.st.Signs.For(v)) + " "
		}
		lines[i] = head + p.Paint(tone, text)
	}
	return lines
}

// widest is how wide the names of the page are at most with a mark before them,
// and what is at a position.
func (p fitsPage) widest() (name, part int) {
	for _, r := range p.rows {
		name = max(name, draw.Width(r.name)+3)
		for _, c := range []fitsCell{r.asIs, r.tried, r.finer} {
			part = max(part, draw.Width(c.part))
		}
	}
	return min(name, 27), min(part, 27)
}

// tabs names the pages, the one in view in brackets.
func (s *fits) tabs() string {
	p := &s.st.Palette
	var out []string
	for i, page := range s.all() {
		if i == s.page {
			out = append(out, p.Paint(draw.Marked, "["+page.name+"]"))
			continue
		}
		out = append(out, p.Paint(draw.Dim, " "+page.name+" "))
	}
	return draw.Fit(" "+strings.Join(out, " "), s.w)
}

// standing says how the engine stands, and how it would with what is tried.
func (s *fits) standing() string {
	p := &s.st.Palette
	text := " as it is: " + standingText(s.desk.Now)
	if s.tried != nil {
		text += p.Paint(draw.Marked, "   tried: "+standingText(s.tried.a))
	}
	if s.target.Measured() {
		u := s.desk.Session.Unit()
		text += p.Paint(draw.Marked, "   target "+s.target.Format(u, u.Decimals()))
	}
	return draw.Fit(text, s.w)
}

// standingText counts what is outside and names the worst margin.
func standingText(a *engine.Assessment) string {
	text := fmt.Sprintf("outside %d", a.Outside())
	if m, ok := a.WorstMargin(); ok {
		text += ", worst " + engine.MarginText(m)
	}
	return text
}

// heading heads the columns.
func (s *fits) heading(page fitsPage, l fitsLayout) string {
	p := &s.st.Palette
	if page.long {
		return p.Paint(draw.Dim, draw.Fit("   what to do, in its order; figures diametral, in "+unitWord(s.desk.Session.Unit()), s.w))
	}
	wide := l.part + fitsFigure
	text := draw.Fit("", l.name) + draw.Fit(page.as, wide) + " "
	switch {
	case l.both:
		text += draw.Fit("tried", wide) + " " + draw.Fit(page.best2, wide)
	case s.tried != nil:
		text += draw.Fit("tried", wide)
	default:
		text += draw.Fit(page.best2, wide)
	}
	return p.Paint(draw.Dim, draw.Fit(text, s.w))
}

// row is one position. What is at it goes on below where its column is too narrow.
func (s *fits) row(r fitsRow, here bool, l fitsLayout) []string {
	p := &s.st.Palette
	mark, tone := "  ", draw.Plain
	if here {
		mark, tone = s.st.Signs.Here+" ", draw.Marked
	}
	columns := [][]string{s.cell(r.asIs, draw.Plain, l)}
	if l.both || s.tried != nil {
		columns = append(columns, s.cellTried(r, l))
	}
	if l.both || s.tried == nil {
		columns = append(columns, s.cell(r.finer, draw.Plain, l))
	}
	high := 1
	for _, c := range columns {
		high = max(high, len(c))
	}
	lines := make([]string, high)
	for y := range lines {
		head := ""
		if y == 0 {
			head = mark + draw.Clean(r.name)
		}
		lines[y] = p.Paint(tone, draw.Fit(head, l.name))
		for i, c := range columns {
			if i > 0 {
				lines[y] += " "
			}
			if y < len(c) {
				lines[y] += c[y]
				continue
			}
			lines[y] += draw.Fit("", l.part+fitsFigure)
		}
	}
	return lines
}

// cellTried is what is tried, blank while nothing is.
func (s *fits) cellTried(r fitsRow, l fitsLayout) []string {
	if s.tried == nil {
		return nil
	}
	if r.tried.part != r.asIs.part || r.tried.value != r.asIs.value {
		return s.cell(r.tried, draw.Marked, l)
	}
	return s.cell(r.tried, draw.Plain, l)
}

// cell is what is at a position, the clearance that it makes and its verdict;
// below them is the rest of what is at it.
func (s *fits) cell(c fitsCell, tone draw.Tone, l fitsLayout) []string {
	part := draw.Clean(c.part)
	if draw.Width(part) > l.part {
		part = strings.ReplaceAll(part, "/", "/ ")
	}
	lines := append(draw.Wrap(part, max(1, l.part)), "")
	lines = lines[:max(1, len(lines)-1)]
	for y, text := range lines {
		if lines[y] = s.st.Palette.Paint(tone, draw.Fit(text, l.part)); y == 0 {
			lines[y] += s.figure(c)
			continue
		}
		lines[y] += draw.Fit("", fitsFigure)
	}
	return lines
}

// figure is a cell's figure, its verdict and the share of the margin used.
func (s *fits) figure(c fitsCell) string {
	p := &s.st.Palette
	u := s.desk.Session.Unit()
	value := ""
	if c.value.Measured() {
		value = c.value.Format(u, u.Decimals())
	}
	tone := verdictTone(c.finding.Judgement)
	sign := ""
	if c.finding.Text != "" {
		sign = s.st.Signs.For(tone)
	}
	return " " + draw.FitRight(value, 7) + " " + p.Paint(tone, draw.Fit(sign, 1)+draw.FitRight(marginText(c.finding.Judgement), 6))
}

// about says more of the marked row, else what is missing on the page.
func (s *fits) about(page fitsPage, l fitsLayout) []string {
	r, _ := s.marked()
	if page.long && len(r.about) > 0 {
		r.about = r.about[1:] // it stands in the row
	}
	var out []string
	for i, text := range append(append([]string(nil), r.about...), page.notes...) {
		tone := draw.Plain
		if i >= len(r.about) {
			tone = draw.Dim
		}
		out = append(out, wrapped(s.st, s.w, tone, text, l.about)...)
	}
	return out
}

// prompt is what is keyed, or what to key.
func (s *fits) prompt(page fitsPage) string {
	p := &s.st.Palette
	r, ok := s.marked()
	if !ok {
		return ""
	}
	asks := page.asks(r)
	if s.keyed.text == "" {
		return draw.Fit(" "+p.Paint(draw.Dim, draw.Clean(asks)), s.w)
	}
	return draw.Fit(" "+p.Paint(draw.Dim, draw.Clean(asks)+": ")+p.Paint(draw.Value, s.keyed.text), s.w)
}
