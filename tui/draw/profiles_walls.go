package draw

import "math"

// profileOn is one profile being drawn on a canvas of its own.
type profileOn struct {
	Profiles
	x     Profile
	c     *canvas
	scale profileScale
	rows  []int // of the levels
}

// What one half cell of a profile is.
const (
	empty = iota
	between
	solid
)

func (p profileOn) draw() {
	for y := range p.c.h {
		if s, known := p.span(y); known {
			p.drawForm(y, s)
		} else {
			p.drawReference(y)
		}
	}
	if at := p.x.At; p.x.Sign != "" && at >= 0 && at < len(p.rows) {
		p.c.put(p.c.w/2, p.rows[at], p.x.Sign, p.x.Tone)
	}
}

// span is the form on one row: all of the levels that share it, else what lies
// straight between the levels above and below, or goes on from the nearer of
// them where the other was not read.
func (p profileOn) span(y int) (Span, bool) {
	above, below := -1, len(p.rows)
	here := Span{}
	for i, row := range p.rows {
		switch s := p.level(i); {
		case row < y:
			above = i
		case row > y:
			below = min(below, i)
		case s.known():
			here = both(here, s)
		}
	}
	if here.known() || p.onLevel(y) {
		return here, here.known()
	}
	a, b := p.level(above), p.level(below)
	switch {
	case a.known() && b.known():
		t := float64(y-p.rows[above]) / float64(p.rows[below]-p.rows[above])
		return Span{a.Least + (b.Least-a.Least)*t, a.Most + (b.Most-a.Most)*t, true}, true
	case a.known() && (below == len(p.rows) || 2*y <= p.rows[above]+p.rows[below]):
		return a, true
	default:
		return b, b.known() && (above < 0 || 2*y >= p.rows[above]+p.rows[below])
	}
}

func (p profileOn) onLevel(y int) bool {
	for _, row := range p.rows {
		if row == y {
			return true
		}
	}
	return false
}

// level is the span of a level, nothing where there is none.
func (p profileOn) level(i int) Span {
	if i < 0 || i >= min(len(p.x.Levels), len(p.rows)) {
		return Span{}
	}
	s := p.x.Levels[i]
	s.Least, s.Most = clamp(s.Least), clamp(s.Most)
	return s
}

// both is what lies within either of two spans.
func both(a, b Span) Span {
	if !a.Measured {
		return b
	}
	return Span{min(a.Least, b.Least), max(a.Most, b.Most), true}
}

// drawForm draws the metal on one row, symmetrical about the axis.
func (p profileOn) drawForm(y int, s Span) {
	outer, inner := p.at(s.Most), p.at(s.Least)
	n := 2 * p.c.w
	for x := range p.c.w {
		var halves [2]int
		for i := range halves {
			from := 2*x + i
			halves[i] = p.what(min(from, n-1-from), outer, inner)
		}
		if sign, tone := p.sign(halves); sign != "" {
			p.c.put(x, y, sign, tone)
		}
	}
}

// at is where the wall of a deviation stands, in whole half cells from either
// end; in whole cells in the ASCII kind.
func (p profileOn) at(deviation float64) int {
	wall := p.scale.wall(deviation)
	if p.ASCII {
		return 2 * int(math.Round(wall/2))
	}
	return int(math.Round(wall))
}

// what is a half cell that lies so far from the nearer end, by where the walls
// of the largest and the smallest diameter stand.
func (p profileOn) what(from, outer, inner int) int {
	hole := Section{Kind: p.Kind}.hole()
	switch {
	case from >= outer && from < inner:
		return between
	case (from < outer) == hole:
		return solid
	default:
		return empty
	}
}

// sign is that of one cell, by its two halves.
func (p profileOn) sign(halves [2]int) (string, Tone) {
	switch {
	case halves[0] == between || halves[1] == between:
		return p.pick("░", "/"), Plain
	case halves[0] == solid && halves[1] == solid:
		return p.pick("█", "#"), Frame
	case halves[0] == solid:
		return "▌", Frame
	case halves[1] == solid:
		return "▐", Frame
	default:
		return "", Plain
	}
}

// drawReference draws where the walls of the reference would stand.
func (p profileOn) drawReference(y int) {
	edge := min(int(math.Round(p.scale.wall(0)/2)), p.c.w/2) - 1
	p.c.put(edge, y, p.pick("┊", ":"), Frame)
	p.c.put(p.c.w-1-edge, y, p.pick("┊", ":"), Frame)
}

func (p profileOn) pick(usual, ascii string) string {
	if p.ASCII {
		return ascii
	}
	return usual
}
