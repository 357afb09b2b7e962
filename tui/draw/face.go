package draw

import (
	"strings"
	"sync"
)

// face is one size of the large digits, as drawn in glyphs.go.
type face struct {
	rows   int // height in rows of cells
	gap    int // blank cells between glyphs
	sheets []string
}

// unknown stands for every character that a face does not have.
const unknown = '?'

// readFace reads the sheets of a face into its glyphs.
func readFace(f face) map[rune]bitmap {
	glyphs := map[rune]bitmap{' ': newBitmap(f.rows/2+1, 2*f.rows)}
	for _, sheet := range f.sheets {
		lines := strings.Split(strings.TrimSpace(sheet), "\n")
		names := strings.Fields(lines[0])
		for i, name := range names {
			var column []string
			for _, line := range lines[1:] {
				column = append(column, strings.Fields(line)[i])
			}
			glyphs[[]rune(name)[0]] = dotted(column)
		}
	}
	return glyphs
}

func dotted(rows []string) bitmap {
	b := newBitmap(len(rows[0]), len(rows))
	for y, row := range rows {
		for x, dot := range row {
			if dot == '#' {
				b.set(x, y)
			}
		}
	}
	return b
}

// size is a face drawn k times as large.
type size struct {
	face   *face
	glyphs map[rune]bitmap
	k      int
}

func (s size) rows() int { return s.face.rows * s.k }

// The glyphs are read when a big figure is first drawn, not at every start.
var (
	glyphs5 = sync.OnceValue(func() map[rune]bitmap { return readFace(face5) })
	glyphs7 = sync.OnceValue(func() map[rune]bitmap { return readFace(face7) })
)

// sizeFor is the tallest size of at most that many rows; none when rows is
// below five.
func sizeFor(rows int) (size, bool) {
	five := size{&face5, glyphs5(), rows / face5.rows}
	seven := size{&face7, glyphs7(), rows / face7.rows}
	if seven.rows() > five.rows() {
		return seven, true
	}
	return five, five.k > 0
}

func (s size) glyph(r rune) bitmap {
	if r == 'μ' { // Greek mu, drawn as the micro sign
		r = 'µ'
	}
	if g, ok := s.glyphs[r]; ok {
		return g
	}
	return s.glyphs[unknown]
}

// gapAfter is the space in cells between two glyphs: a point and a blank stand
// closer.
func (s size) gapAfter(a, b rune) int {
	if a == '.' || b == '.' || a == ' ' || b == ' ' {
		return s.k
	}
	return s.face.gap * s.k
}

// draw sets text in this size.
func (s size) draw(text string) bitmap {
	runes := []rune(text)
	line := newBitmap(s.width(runes), 2*s.rows())
	x := 0
	for i, r := range runes {
		if i > 0 {
			x += s.gapAfter(runes[i-1], r)
		}
		g := s.glyph(r)
		line.stamp(g, x, s.k)
		x += g.w * s.k
	}
	return line
}

func (s size) width(runes []rune) int {
	w := 0
	for i, r := range runes {
		if i > 0 {
			w += s.gapAfter(runes[i-1], r)
		}
		w += s.glyph(r).w * s.k
	}
	return w
}
