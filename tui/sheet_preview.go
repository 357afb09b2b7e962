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

// widestCell is how many cells a column of a table has at most.
const widestCell = 34

// table adds a table; what does not fit in the width is cut.
func (p *preview) table(t sheet.Table) {
	widths := make([]int, len(t.Columns))
	rows := append([][]string{nil}, make([][]string, len(t.Rows))...)
	for i, c := range t.Columns {
		rows[0] = append(rows[0], p.signs.Text(draw.Clean(c)))
		widths[i] = min(widestCell, draw.Width(rows[0][i]))
	}
	tones := make([]draw.Tone, len(t.Rows)+1)
	tones[0] = draw.Dim
	for i, row := range t.Rows {
		for j, c := range row {
			text := p.signs.Text(draw.Clean(c.Text))
			rows[i+1] = append(rows[i+1], text)
			widths[j] = min(widestCell, max(widths[j], draw.Width(text)))
			tones[i+1] = max(tones[i+1], rowTone(c.Tone))
		}
	}
	p.stretch(widths, rows)
	for j := range widths {
		if len(t.Rows) > 0 && t.Rows[0][j].Number {
			widths[j] = -widths[j]
		}
	}
	p.add(draw.Plain, "")
	p.say(draw.Value, t.Caption)
	for i, row := range rows {
		p.add(tones[i], draw.Row(row, widths))
	}
}

// stretch gives the last column what room is left, as far as it has use for it.
func (p *preview) stretch(widths []int, rows [][]string) {
	last, left := len(widths)-1, p.w-2
	for _, w := range widths[:max(0, last)] {
		left -= w + draw.ColumnGap
	}
	for _, row := range rows {
		if last >= 0 && last < len(row) {
			widths[last] = max(widths[last], min(left, draw.Width(row[last])))
		}
	}
}

// rowTone is the tone that a cell gives its row: what is good needs none.
func rowTone(t sheet.Tone) draw.Tone {
	if t == sheet.Good {
		return draw.Plain
	}
	return toneIn(t)
}
