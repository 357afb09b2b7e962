package draw

import (
	"strings"

	"github.com/charmbracelet/x/ansi"
)

// Head is the beginning of a line: its length, its width in cells, and the style
// that is on where it ends.
type Head struct {
	Bytes, Cells int
	Style        string
}

// Alike is the beginning that two lines have in common, but for its last sign: what
// follows that may combine with it. It goes no further than signs of which every
// terminal knows the width: ASCII, lines and blocks.
func Alike(a, b string) Head {
	var found Head
	at, style := 0, ""
	for cells := 0; ; {
		n, wide := piece(a[at:])
		if n == 0 || !strings.HasPrefix(b[at:], a[at:at+n]) {
			return found
		}
		switch part := a[at : at+n]; {
		case wide > 0:
			found = Head{at, cells, style}
			cells += wide
		case part == ansi.ResetStyle || part == reset:
			style = ""
		default:
			style += part
		}
		at += n
	}
}

// reset takes every style away, as lipgloss writes it.
const reset = "\x1b[0m"
