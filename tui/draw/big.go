package draw

import "strings"

// Big draws a figure in large digits, exactly rows lines high, all of one
// width ([BigWidth]): digits, point, signs, "/", "?" and the letters of "in",
// "mm" and "µm"; every other character becomes "?". Sizes are 5, 7, 10, 14, 15
// rows and so on; a height between two takes the smaller one and leaves blank
// rows at the end. Below five rows the text stands in the middle row as it is.
// In ASCII only "#" is used.
func Big(text string, rows int, ascii bool) []string {
	s, ok := sizeFor(rows)
	if !ok {
		lines := Box(nil, Width(text), rows)
		if rows > 0 {
			lines[rows/2] = text
		}
		return lines
	}
	dots := s.draw(text)
	c := newCanvas(dots.w, rows)
	hash := ""
	if ascii {
		hash = "#"
	}
	dots.onto(c, 0, 0, hash, Plain)
	return c.lines(nil)
}

// BigWidth is the width in cells that [Big] takes for a text at that many
// rows.
func BigWidth(text string, rows int) int {
	if s, ok := sizeFor(rows); ok {
		return s.width([]rune(text))
	}
	return Width(text)
}

// BigRows is the tallest size, in rows, in which all of a text goes into w
// cells and h rows; 0 when not even the smallest does.
func BigRows(text string, w, h int) int {
	for rows := h; rows >= face5.rows; rows-- {
		if s, _ := sizeFor(rows); s.width([]rune(text)) <= w {
			return s.rows()
		}
	}
	return 0
}

// BigIn draws a figure as large as w cells and h rows allow and returns
// exactly h lines of exactly w cells, the figure at the left and in the middle
// of the height. Where a unit after a blank would keep the figure small, only
// the figure is drawn large and the unit stands after it as it is. Where not
// even five rows fit, the whole text stands as it is.
func BigIn(text string, w, h int, ascii bool) []string {
	figure, unit, parted := strings.Cut(text, " ")
	rows, small := BigRows(text, w, h), 0
	if parted {
		small = BigRows(figure, w-1-Width(unit), h)
	}
	var lines []string
	switch {
	case small > rows:
		lines, rows = Big(figure, small, ascii), small
		lines[rows-1] += " " + unit
	case rows > 0:
		lines = Big(text, rows, ascii)
	default:
		lines, rows = []string{text}, 1
	}
	return Box(append(make([]string, max(0, h-rows)/2), lines...), w, h)
}
