package draw

import "math"

// Bar shows a figure between its limits. Low, High and Target are absent when
// nil; all figures are in one unit, whichever it is. A figure exactly on a
// limit is inside.
//
// Read it by shape: "[" and "]" are the limits with the allowed stretch drawn
// double between them, "+" the target, "|" a figure inside; "<" and ">" are a
// figure below the low or above the high limit.
type Bar struct {
	Low, High, Target *float64
	Value             float64
	HasValue          bool
	LowText, HighText string // written beneath the limits
	ASCII             bool
	Palette           *Palette
	Tone              Tone // of the figure; Plain is made Good inside and Bad outside
}

// barLines is the height of a bar: the bar and the words beneath it.
const barLines = 2

// Draw draws the bar in exactly two lines of at most w cells: the bar and the
// limits' texts beneath. Limits that are not numbers, or that cross, leave the
// bar without a figure.
func (b Bar) Draw(w int) []string {
	c := newCanvas(w, barLines)
	at, ok := b.scale(w)
	if !ok {
		c.fill(0, 0, w, b.sign("─", "-"), Frame)
		c.write(0, 1, w, b.LowText+" "+b.HighText, Dim)
		return c.lines(b.Palette)
	}
	b.drawLimits(c, at)
	b.drawValue(c, at)
	b.drawTexts(c, at)
	return c.lines(b.Palette)
}

// barScale holds the cells of the limits; an absent limit lies outside the
// bar.
type barScale struct {
	low, high     int
	origin, cells float64 // figure at cell 0, cells per unit
}

func (s barScale) cell(v float64) int {
	return int(math.Round(min(max((v-s.origin)*s.cells, -1e6), 1e6)))
}

// scale lays the limits an eighth from the ends of w cells. Where one is
// absent, the target takes its place in the scale, or else zero below a high
// limit and twice the low one above it.
func (b Bar) scale(w int) (barScale, bool) {
	low, high, ok := b.ends()
	if !ok || w < 8 {
		return barScale{}, false
	}
	margin := max(2, w/8)
	cells := float64(w-1-2*margin) / (high - low)
	s := barScale{low: -2, high: w + 1, origin: low - float64(margin)/cells, cells: cells}
	if b.Low != nil {
		s.low = margin
	}
	if b.High != nil {
		s.high = w - 1 - margin
	}
	return s, true
}

func (b Bar) ends() (low, high float64, ok bool) {
	switch {
	case b.Low != nil && b.High != nil:
		low, high = *b.Low, *b.High
	case b.High != nil:
		low, high = 0, *b.High
		if b.Target != nil && *b.Target < high {
			low = *b.Target
		}
	case b.Low != nil:
		low, high = *b.Low, 2**b.Low
		if b.Target != nil && *b.Target > low {
			high = *b.Target
		}
	}
	span := high - low
	return low, high, span > 0 && !math.IsInf(span, 0) && !math.IsInf(1/span, 0)
}

func (b Bar) drawLimits(c *canvas, at barScale) {
	c.fill(0, 0, c.w, b.sign("─", "-"), Frame)
	first, last := max(0, at.low), min(c.w-1, at.high)
	c.fill(first, 0, last-first+1, b.sign("═", "="), Frame)
	c.put(at.low, 0, "[", Value)
	c.put(at.high, 0, "]", Value)
	if b.Target != nil && !math.IsNaN(*b.Target) {
		if x := at.cell(*b.Target); x > at.low && x < at.high {
			c.put(x, 0, b.sign("┼", "+"), Frame)
		}
	}
}

// drawValue keeps the figure on its side of the limits, whatever the rounding
// to cells would make of it, and inside the bar.
func (b Bar) drawValue(c *canvas, at barScale) {
	if !b.HasValue || math.IsNaN(b.Value) {
		return
	}
	x, sign, tone := at.cell(b.Value), b.sign("┃", "|"), Good
	switch {
	case b.Low != nil && b.Value < *b.Low:
		x, sign, tone = min(x, at.low-1), "<", Bad
	case b.High != nil && b.Value > *b.High:
		x, sign, tone = max(x, at.high+1), ">", Bad
	default:
		x = min(max(x, at.low+1), at.high-1)
	}
	if b.Tone != Plain {
		tone = b.Tone
	}
	c.put(min(max(x, 0), c.w-1), 0, sign, tone)
}

func (b Bar) drawTexts(c *canvas, at barScale) {
	low, high := b.LowText, b.HighText
	room := c.w
	if b.Low != nil && b.High != nil {
		room = (c.w - 1) / 2
	}
	if b.Low != nil {
		low = Cut(low, room)
		c.write(place(at.low, Width(low), c.w), 1, room, low, Dim)
	}
	if b.High != nil {
		high = Cut(high, room)
		c.write(place(at.high, Width(high), c.w), 1, room, high, Dim)
	}
}

// place centres n cells on x and keeps them within w.
func place(x, n, w int) int { return max(0, min(x-n/2, w-n)) }

func (b Bar) sign(usual, ascii string) string {
	if b.ASCII {
		return ascii
	}
	return usual
}
