package sheet

// The size of the words of a table, its line, and what is left free at both
// sides of a cell, in points.
const (
	cellSize = 7.0
	cellLine = 9.0
	cellPad  = 3.0
	// mostWord is the width beyond which a word may be broken.
	mostWord = 150.0
	// tableLeast is the least of a table that a page ends with.
	tableLeast = 16 + 6*cellLine
)

// table writes a table; its heading stands on every page it goes over.
func (p *printer) table(t Table) {
	p.space(6)
	p.room(tableLeast)
	p.bold(t.Caption, 8.5)
	widths := p.widths(t)
	p.heading(t, widths)
	for _, row := range t.Rows {
		p.row(t, row, widths)
	}
	p.space(4)
}

// widths shares the page between the columns: each has its longest word at
// least, and what is left goes to those that have more to say.
func (p *printer) widths(t Table) []float64 {
	n := len(t.Columns)
	least, want := make([]float64, n), make([]float64, n)
	p.font("B", cellSize, Black)
	for i, c := range t.Columns {
		least[i] = p.longest(c)
		want[i] = least[i]
	}
	p.font("", cellSize, Black)
	for _, row := range t.Rows {
		for i, c := range row {
			whole := max(p.f.GetStringWidth(drawable(c.Text)), p.f.GetStringWidth(drawable(c.Below)))
			if want[i] = max(want[i], whole); c.unbroken() {
				least[i] = max(least[i], whole)
			} else {
				least[i] = max(least[i], p.longest(c.Text))
			}
		}
	}
	sumLeast, sumWant := 0.0, 0.0
	for i := range n {
		least[i] = min(least[i], mostWord) + 2*cellPad
		want[i] = min(want[i]+2*cellPad, 260)
		want[i] = max(want[i], least[i])
		sumLeast += least[i]
		sumWant += want[i]
	}
	return share(least, want, sumLeast, sumWant)
}

// share makes columns fill the page exactly.
func share(least, want []float64, sumLeast, sumWant float64) []float64 {
	out := make([]float64, len(want))
	for i := range out {
		switch {
		case sumWant <= wide:
			out[i] = want[i] + (wide-sumWant)/float64(len(out))
		case sumLeast <= wide:
			out[i] = least[i] + (want[i]-least[i])*(wide-sumLeast)/(sumWant-sumLeast)
		default:
			out[i] = least[i] * wide / sumLeast
		}
	}
	return out
}

func (p *printer) heading(t Table, widths []float64) {
	p.font("B", cellSize, Black)
	cells := make([][]string, len(t.Columns))
	most := 1
	for i, c := range t.Columns {
		cells[i] = p.wrap(c, widths[i]-2*cellPad)
		most = max(most, len(cells[i]))
	}
	x := edge
	for i, lines := range cells {
		for j, line := range lines {
			p.word(line, x, p.y+cellLine*float64(most-len(lines)+j+1)-2, widths[i], rightAligned(t, i))
		}
		x += widths[i]
	}
	p.y += cellLine*float64(most) + 1
	p.pen(Black, 0.7)
	p.f.Line(edge, p.y, pageWide-edge, p.y)
	p.y += 1.5
}

func (p *printer) row(t Table, row []Cell, widths []float64) {
	p.font("", cellSize, Black)
	cells := make([][]string, len(row))
	most := 1
	for i, c := range row {
		cells[i] = p.wrap(c.Text, widths[i]-2*cellPad)
		if c.Below != "" {
			cells[i] = append(cells[i], p.wrap(c.Below, widths[i]-2*cellPad)...)
		}
		most = max(most, len(cells[i]))
	}
	h := cellLine*float64(most) + 2
	if p.y+h > foot {
		p.page()
		p.heading(t, widths)
		p.font("", cellSize, Black)
	}
	x := edge
	for i, c := range row {
		if c.Tone != Plain {
			p.fill(paleOf(c.Tone))
			p.f.Rect(x, p.y+0.3, widths[i], h-0.6, "F")
		}
		for j, line := range cells[i] {
			p.word(line, x, p.y+cellLine*float64(j+1)-1.5, widths[i], c.Number)
		}
		x += widths[i]
	}
	p.y += h
	p.pen(Pale, 0.5)
	p.f.Line(edge, p.y, pageWide-edge, p.y)
}

// word writes one line of a cell at the left or the right of it.
func (p *printer) word(line string, x, y, w float64, right bool) {
	if right {
		x += w - 2*cellPad - p.f.GetStringWidth(line)
	}
	p.f.Text(x+cellPad, y, line)
}
