package draw

import (
	"slices"
	"sync"

	"github.com/charmbracelet/x/ansi"
)

// canvas is a grid of cells to draw on; what falls outside it is not drawn. It is
// over once its lines are asked for.
type canvas struct {
	w, h  int
	cells []cell
	line  []byte // being painted
}

// canvases are those that are over. To make each anew was 128 of 298 kB that a frame
// of 200x60 allocated, and to paint it in strings that grew 49.
var canvases = sync.Pool{New: func() any { return new(canvas) }}

// cell holds one sign. A sign two cells wide leaves an empty text in the
// second.
type cell struct {
	text string
	tone Tone
}

func newCanvas(w, h int) *canvas {
	c, _ := canvases.Get().(*canvas)
	c.w, c.h = max(0, w), max(0, h)
	c.cells = slices.Grow(c.cells[:0], c.w*c.h)[:c.w*c.h]
	for i := range c.cells {
		c.cells[i] = cell{text: " "}
	}
	return c
}

// put draws one sign of one cell.
func (c *canvas) put(x, y int, sign string, tone Tone) {
	if x < 0 || x >= c.w || y < 0 || y >= c.h {
		return
	}
	c.mend(x, y)
	c.cells[y*c.w+x] = cell{sign, tone}
}

// mend blanks the other half of a wide sign that is about to lose one.
func (c *canvas) mend(x, y int) {
	row := c.cells[y*c.w : (y+1)*c.w]
	if row[x].text == "" {
		row[x-1].text = " "
	}
	if x+1 < c.w && row[x+1].text == "" {
		row[x+1].text = " "
	}
}

// write draws text from x on, cut to w cells.
func (c *canvas) write(x, y, w int, text string, tone Tone) {
	text = Cut(text, w)
	for text != "" {
		sign, n := ansi.FirstGraphemeCluster(text, ansi.GraphemeWidth)
		text = text[len(sign):]
		switch {
		case n < 1:
			continue
		case x >= 0 && x+n <= c.w:
			c.put(x, y, sign, tone)
			for i := 1; i < n && y >= 0 && y < c.h; i++ {
				c.mend(x+i, y)
				c.cells[y*c.w+x+i] = cell{"", tone}
			}
		}
		x += n
	}
}

// centre draws text in the middle of w cells from x on.
func (c *canvas) centre(x, y, w int, text string, tone Tone) {
	text = Cut(text, w)
	c.write(x+(w-Width(text))/2, y, w, text, tone)
}

// fill draws one sign n times from x on.
func (c *canvas) fill(x, y, n int, sign string, tone Tone) {
	for i := range max(0, n) {
		c.put(x+i, y, sign, tone)
	}
}

// lines paints the canvas, one style for each run of one tone, and gives it back.
func (c *canvas) lines(p *Palette) []string {
	lines := make([]string, c.h)
	for y := range lines {
		c.line = appendRow(c.line[:0], c.cells[y*c.w:(y+1)*c.w], p)
		lines[y] = string(c.line)
	}
	canvases.Put(c)
	return lines
}

// appendRow paints one row. Nothing stands around plain text.
func appendRow(line []byte, row []cell, p *Palette) []byte {
	tone, after := Plain, ""
	for _, c := range row {
		if c.tone != tone && c.text != " " {
			line = append(line, after...)
			tone = c.tone
			var before string
			before, after = p.around(tone)
			line = append(line, before...)
		}
		line = append(line, c.text...)
	}
	return append(line, after...)
}
