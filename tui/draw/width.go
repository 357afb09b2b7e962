package draw

import "github.com/charmbracelet/x/ansi"

// Width is the number of cells that a line takes: styles take none, wide signs
// two, combining marks none.
func Width(s string) int {
	if n, ok := quickWidth(s); ok {
		return n
	}
	return ansi.StringWidth(s)
}

// quickWidth measures a line of ASCII, styles, and box and block signs, which is
// most of what is drawn, many times as fast; it gives up on anything else.
func quickWidth(s string) (width int, ok bool) {
	for s != "" {
		n, cells := piece(s)
		if n == 0 {
			return 0, false
		}
		s, width = s[n:], width+cells
	}
	return width, true
}

// piece is the length and the width of the style, the ASCII, or the box or block sign
// that s starts with; a length of 0 where it starts with anything else.
func piece(s string) (n, cells int) {
	switch {
	case s == "":
		return 0, 0
	case s[0] >= ' ' && s[0] < 0x7f:
		return 1, 1
	case s[0] == 0x1b:
		return styleLength(s), 0
	case boxesAreNarrow && isBox(s):
		return 3, 1
	default:
		return 0, 0
	}
}

// boxesAreNarrow tells whether this process counts box signs as one cell; with
// East Asian widths most of them are two.
var boxesAreNarrow = ansi.StringWidth("│") == 1

// isBox says whether s starts with one of U+2500 to U+259F in UTF-8.
func isBox(s string) bool {
	return len(s) >= 3 && s[0] == 0xe2 &&
		(s[1] == 0x94 || s[1] == 0x95 || s[1] == 0x96 && s[2] < 0xa0) && s[2]&0xc0 == 0x80
}

// styleLength is the length of the style that s starts with, such as
// "\x1b[1;31m", or 0.
func styleLength(s string) int {
	if len(s) < 3 || s[1] != '[' {
		return 0
	}
	for i := 2; i < len(s); i++ {
		switch c := s[i]; {
		case c == 'm':
			return i + 1
		case c != ';' && (c < '0' || c > '9'):
			return 0
		}
	}
	return 0
}
