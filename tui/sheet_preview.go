package tui

import (
	"strings"

	"borewright/engine/sheet"
	"borewright/tui/draw"
)

// paintedLine is a line with its tone.
type paintedLine struct {
	tone draw.Tone
	text string
}

// mostShown is how many lines of a table or of JSON are shown.
const mostShown = 2000

// shown are the lines of the sheet, in the width there is.
func (s *sheetScreen) shown() []paintedLine {
	if s.made == nil {
		return nil
	}
	if s.lines == nil || s.linesWide != s.w {
		s.linesWide = s.w
		p := preview{signs: s.st.Signs, w: s.w}
		if s.made.Form.Document() {
			p.document(s.made.Sheet)
		} else {
			p.data(s.made.Data)
		}
		s.lines = p.lines
	}
	return s.lines
}

// preview writes a sheet as lines.
type preview struct {
	signs draw.Signs
	w     int
	lines []paintedLine
}

func (p *preview) add(tone draw.Tone, text string) {
	p.lines = append(p.lines, paintedLine{tone, " " + text})
}

// say adds a text over as many lines as it takes, none for none.
func (p *preview) say(tone draw.Tone, text string) {
	if text == "" {
		return
	}
	for _, line := range draw.Wrap(p.signs.Text(draw.Clean(text)), max(1, p.w-2)) {
		p.add(tone, line)
	}
}

// data adds the lines of a file of text as they stand there.
func (p *preview) data(data []byte) {
	n := 0
	for line := range strings.Lines(string(data)) {
		if n++; n > mostShown {
			p.add(draw.Dim, "and so on")
			return
		}
		line = strings.TrimRight(line, "\r\n")
		text := strings.TrimLeft(line, " ")
		p.add(draw.Plain, line[:len(line)-len(text)]+p.signs.Text(draw.Clean(text)))
	}
}

// toneIn is a tone of the sheet as one of the screen.
func toneIn(t sheet.Tone) draw.Tone {
	return [...]draw.Tone{sheet.Plain: draw.Plain, sheet.Good: draw.Good, sheet.Doubtful: draw.Warn, sheet.Bad: draw.Bad}[t]
}

func (p *preview) document(s sheet.Sheet) {
	p.say(draw.Title, s.Title)
	who := s.Engine
	if s.Customer != "" {
		who += ", for " + s.Customer
	}
	p.say(draw.Dim, who)
	p.say(toneIn(s.Tone), p.signs.For(toneIn(s.Tone))+" "+s.Verdict)
	for _, x := range s.Sections {
		p.add(draw.Plain, "")
		p.say(draw.Title, strings.ToUpper(x.Heading))
		for _, note := range x.Notes {
			p.say(draw.Plain, note)
		}
		for _, pic := range x.Pictures {
			p.say(draw.Dim, "(picture) "+pic.Caption)
		}
		for _, t := range x.Tables {
			p.table(t)
		}
	}
}

// table adds a table. Where it is wider than there is room, its columns of words
// give way, the widest first, and their words go on below one another.
func (p *preview) table(t sheet.Table) {
	rows := make([][]string, len(t.Rows))
	tones := make([]draw.Tone, len(t.Rows))
	for i, row := range t.Rows {
		words := make([]string, len(row))
		for j, c := range row {
			words[j] = p.signs.Text(draw.Clean(c.Text))
			tones[i] = max(tones[i], rowTone(c.Tone))
			if c.Below != "" {
				words[j] += "\n" + p.signs.Text(draw.Clean(c.Below))
			}
		}
		rows[i] = words
	}
	heading := p.cells(t.Columns)
	figures := func(j int) bool { return len(t.Rows) > 0 && t.Rows[0][j].Number }
	widths := widest(heading, rows, figures)
	narrow(widths, p.w-2, func(j int) bool { return !figures(j) })
	p.add(draw.Plain, "")
	p.say(draw.Value, t.Caption)
	p.row(draw.Dim, heading, widths, figures)
	for i, row := range rows {
		p.row(tones[i], row, widths, figures)
	}
}

// row adds a row of a table over as many lines as its words take.
func (p *preview) row(tone draw.Tone, cells []string, widths []int, figures func(column int) bool) {
	parts := make([][]string, len(cells))
	signed := make([]int, len(widths))
	high := 0
	for j, w := range widths {
		if signed[j] = w; figures(j) {
			signed[j] = -w
		}
		if j < len(cells) {
			parts[j] = draw.Wrap(cells[j], w)
			high = max(high, len(parts[j]))
		}
	}
	for y := range high {
		line := make([]string, len(widths))
		for j := range parts {
			if y < len(parts[j]) {
				line[j] = parts[j][y]
			}
		}
		p.add(tone, strings.TrimRight(draw.Row(line, signed), " "))
	}
}

func (p *preview) cells(texts []string) []string {
	out := make([]string, len(texts))
	for i, text := range texts {
		out[i] = p.signs.Text(draw.Clean(text))
	}
	return out
}

// widest returns the width of every column: that of its widest cell, and of the
// heading too, of which a column of figures needs the longest word alone.
func widest(heading []string, rows [][]string, figures func(column int) bool) []int {
	out := make([]int, len(heading))
	for j, text := range heading {
		out[j] = draw.Width(text)
		if figures(j) {
			out[j] = draw.Widest(strings.Fields(text))
		}
	}
	for _, row := range rows {
		for j, text := range row {
			out[j] = max(out[j], draw.Widest(strings.Split(text, "\n")))
		}
	}
	return out
}

// leastColumn is how narrow a column of words becomes at most.
const leastColumn = 8

// narrow makes the columns that may give way narrower, the widest first, until
// all stand in so many cells or none can give more.
func narrow(widths []int, room int, give func(column int) bool) {
	all := -draw.ColumnGap
	for _, w := range widths {
		all += w + draw.ColumnGap
	}
	for ; all > room; all-- {
		at := -1
		for j, w := range widths {
			if give(j) && w > leastColumn && (at < 0 || w > widths[at]) {
				at = j
			}
		}
		if at < 0 {
			return
		}
		widths[at]--
	}
}

// rowTone is the tone that a cell gives its row: what is good needs none.
func rowTone(t sheet.Tone) draw.Tone {
	if t == sheet.Good {
		return draw.Plain
	}
	return toneIn(t)
}
