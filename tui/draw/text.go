package draw

import (
	"strings"

	"github.com/charmbracelet/x/ansi"
)

// ColumnGap is the number of blank cells that [Row] leaves between columns.
const ColumnGap = 2

// cutMark ends a text that was cut, so that a cut figure is never taken for a
// whole one. It is one cell wide everywhere.
const cutMark = "~"

// Fit cuts or pads one line to exactly w cells. A cut text ends in "~". Styles
// are kept whole; a wide sign that would be halved is left out. Line breaks
// and tabs become blanks. With w below 1 the result is empty.
func Fit(s string, w int) string {
	s, n := cut(s, w)
	return s + blanks(w-n)
}

// FitRight is [Fit] with the text at the right end, for figures.
func FitRight(s string, w int) string {
	s, n := cut(s, w)
	return blanks(w-n) + s
}

// Centre is [Fit] with the text in the middle; an odd cell goes to the right.
func Centre(s string, w int) string {
	s, n := cut(s, w)
	left := max(0, w-n) / 2
	return blanks(left) + s + blanks(w-n-left)
}

// Cut shortens one line to at most w cells as [Fit] does and pads nothing.
func Cut(s string, w int) string {
	s, _ = cut(s, w)
	return s
}

// cut is [Cut] with the width of what is left.
func cut(s string, w int) (string, int) {
	if w < 1 {
		return "", 0
	}
	if strings.ContainsAny(s, "\n\r\t\v\f") {
		s = breaks.Replace(s)
	}
	n := Width(s)
	if n > w {
		s = ansi.Truncate(s, w, cutMark)
		n = Width(s)
	}
	return s, n
}

var breaks = strings.NewReplacer("\r\n", " ", "\n", " ", "\r", " ", "\t", " ", "\v", " ", "\f", " ")

// Wrap breaks plain text at its blanks into lines of at most w cells; a longer
// word is broken where it must be. Line breaks in the text are kept. Style the
// lines afterwards: a style across a break would run into what stands beside.
func Wrap(s string, w int) []string {
	if w < 1 {
		return nil
	}
	s = strings.ReplaceAll(strings.ReplaceAll(s, "\r\n", "\n"), "\t", " ")
	lines := strings.Split(ansi.Wrap(s, w, ""), "\n")
	for i, line := range lines {
		lines[i] = Cut(strings.TrimRight(line, " "), w)
	}
	return lines
}

// Row sets cells in columns, [ColumnGap] cells apart. A width below zero sets
// its cell at the right end of that many cells, as figures want it. A cell
// that is missing leaves its column blank; cells without a width are left out.
func Row(cells []string, widths []int) string {
	var b strings.Builder
	room := 0
	for _, w := range widths {
		room += ColumnGap + max(w, -w)
	}
	b.Grow(room)
	for i, w := range widths {
		if i > 0 {
			b.WriteString(blanks(ColumnGap))
		}
		cell, n := "", 0
		if i < len(cells) {
			cell, n = cut(cells[i], max(w, -w))
		}
		if w < 0 {
			b.WriteString(blanks(-w - n))
			b.WriteString(cell)
		} else {
			b.WriteString(cell)
			b.WriteString(blanks(w - n))
		}
	}
	return b.String()
}

func blanks(n int) string { return strings.Repeat(" ", max(0, n)) }
