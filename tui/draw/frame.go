package draw

import "strings"

// Box cuts and pads lines to exactly h lines of exactly w cells. Lines that
// are too many are left out at the end.
func Box(lines []string, w, h int) []string {
	box := make([]string, max(0, h))
	for i := range box {
		if i < len(lines) {
			box[i] = Fit(lines[i], w)
		} else {
			box[i] = blanks(w)
		}
	}
	return box
}

// Beside sets blocks side by side, their tops level, with gap blank cells
// between them. Each block is as wide as its widest line; the result is as
// high as the highest block.
func Beside(gap int, blocks ...[]string) []string {
	h := 0
	columns := make([]Column, len(blocks))
	for i, block := range blocks {
		h, columns[i] = max(h, len(block)), Column{block, Widest(block)}
	}
	return Columns(gap, h, columns...)
}

// Column is a block of lines that stands W cells wide.
type Column struct {
	Lines []string
	W     int
}

// Columns sets columns side by side in exactly h lines, each cut and padded as [Box]
// does, with gap blank cells between them.
func Columns(gap, h int, columns ...Column) []string {
	lines := make([]string, max(0, h))
	var row []byte // one for all: a builder a line was 11 of 298 kB of a frame of 200x60
	for y := range lines {
		row = row[:0]
		for i, c := range columns {
			if i > 0 {
				row = append(row, blanks(gap)...)
			}
			line, n := "", 0
			if y < len(c.Lines) {
				line, n = cut(c.Lines[y], c.W)
			}
			row = append(append(row, line...), blanks(c.W-n)...)
		}
		lines[y] = string(row)
	}
	return lines
}

// Widest is the width in cells of the widest line.
func Widest(lines []string) int {
	w := 0
	for _, line := range lines {
		w = max(w, Width(line))
	}
	return w
}

// Rule is a line across w cells with a heading set into its start; an empty
// heading gives the bare line.
func Rule(heading string, w int, ascii bool) string {
	dash := "─"
	if ascii {
		dash = "-"
	}
	if heading = Cut(heading, w-4); heading != "" {
		heading = dash + " " + heading + " "
	}
	return heading + strings.Repeat(dash, max(0, w-Width(heading)))
}
