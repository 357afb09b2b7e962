package draw

import (
	"math"
	"strings"
)

// Used is how much of a margin is used up, as a bar that is full on the limit.
//
// Read it by shape: "[" is the target and "]" the limit, and ">" stands behind
// the limit when it is passed.
type Used struct {
	// Share is 0 at the target and 1 on the limit; it is used when Known is set.
	Share   float64
	Known   bool
	Tone    Tone // of what is used
	ASCII   bool
	Palette *Palette
}

// usedLeast is the least width of the bar: two cells of margin, its ends, and
// the sign behind them.
const usedLeast = 5

// Draw draws the bar in w cells. It is full on the limit and beyond it, and
// never before; in less than five cells it is blank.
func (u Used) Draw(w int) string {
	if w < usedLeast {
		return blanks(w)
	}
	room := w - 3
	n, over := u.cells(room), " "
	if u.Known && u.Share > 1 {
		over = ">"
	}
	sign := "━"
	if u.ASCII {
		sign = "="
	}
	p := u.Palette
	return p.Paint(Frame, "[") + p.Paint(u.Tone, strings.Repeat(sign, n)) + blanks(room-n) +
		p.Paint(Frame, "]") + p.Paint(u.Tone, over)
}

// cells is how many of the cells are filled.
func (u Used) cells(room int) int {
	switch {
	case !u.Known || math.IsNaN(u.Share) || u.Share <= 0:
		return 0
	case u.Share >= 1:
		return room
	default:
		return min(int(math.Round(u.Share*float64(room))), room-1)
	}
}
