package draw

// bitmap is a picture in half cells: each row of cells is two rows of dots, so
// that a dot is about square on a screen.
type bitmap struct {
	w, h int      // in dots
	dots []uint64 // a bit each, row by row: as bools they were 7 of 68 kB of a frame of 200x60
}

func newBitmap(w, h int) bitmap {
	return bitmap{w: w, h: h, dots: make([]uint64, (max(0, w)*max(0, h)+63)/64)}
}

func (b bitmap) holds(x, y int) bool { return x >= 0 && x < b.w && y >= 0 && y < b.h }

func (b bitmap) at(x, y int) bool {
	i := y*b.w + x
	return b.holds(x, y) && b.dots[i/64]>>(i%64)&1 == 1
}

func (b bitmap) set(x, y int) {
	if b.holds(x, y) {
		i := y*b.w + x
		b.dots[i/64] |= 1 << (i % 64)
	}
}

// stamp adds g from the column x on, every dot of it k by k dots.
func (b bitmap) stamp(g bitmap, x, k int) {
	for row := range k * g.h {
		for col := range k * g.w {
			if g.at(col/k, row/k) {
				b.set(x+col, row)
			}
		}
	}
}

// sign is what one cell shows: a full, upper or lower block, or for any of them
// the ASCII sign if there is one. An empty cell gives nothing.
func (b bitmap) sign(x, row int, ascii string) string {
	upper, lower := b.at(x, 2*row), b.at(x, 2*row+1)
	switch {
	case !upper && !lower:
		return ""
	case ascii != "":
		return ascii
	case upper && lower:
		return "█"
	case upper:
		return "▀"
	default:
		return "▄"
	}
}

// onto draws the set dots with the top left corner at the cell x, y.
func (b bitmap) onto(c *canvas, x, y int, ascii string, tone Tone) {
	for row := range (b.h + 1) / 2 {
		for col := range b.w {
			if sign := b.sign(col, row, ascii); sign != "" {
				c.put(x+col, y+row, sign, tone)
			}
		}
	}
}
