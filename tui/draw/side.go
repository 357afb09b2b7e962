package draw

import "math"

// side is the picture of a section being laid out: the bore or shaft seen from
// the side, cut in the direction that is meant.
type side struct {
	s          Section
	c          *canvas
	at         area
	names      int // cells for the level names and the pointer before them
	rows       []int
	body, high int     // first row of the walls, and how many
	edge       int     // cells from the left of the walls to the reference line
	reach      float64 // cells that a wall may be moved
	factor     float64
	cut        bool // a wall would have been moved further
	ends       bool // there is room to say which end is which
}

const (
	pointerW = 2 // the pointer and a blank
	hole     = 3 // cells of metal left outside the farthest wall of a hole
	outside  = 3 // cells for the arrows outside a shaft
)

// drawSide draws the picture: a line naming the place, the walls with their
// levels, and a line stating the factor.
func (s Section) drawSide(c *canvas, at area) {
	v := side{s: s, c: c, at: at, body: at.y, high: at.h - 1}
	if !s.Named {
		c.write(at.x, at.y, at.w, s.words(at.w), Title)
		v.body, v.high = at.y+1, at.h-2
	}
	v.layOut()
	v.drawEnds()
	for y := range v.high {
		v.drawWalls(y)
	}
	for i := range s.Levels {
		if i != s.At.Level {
			v.drawLevel(i)
		}
	}
	v.drawLevel(s.At.Level)
	v.drawFooter()
}

// layOut divides the width, places the levels on rows and chooses the factor.
func (v *side) layOut() {
	names := make([]string, 0, len(v.s.Levels))
	for i := range v.s.Levels {
		names = append(names, v.s.levelName(i))
	}
	v.names = pointerW + min(Widest(names), v.at.w/3) + 1
	if v.ends = v.high >= 7; v.ends {
		v.body++
		v.high -= 2
	}
	walls := v.walls()
	v.reach = float64(min(4, max(1, walls/10)))
	v.edge = int(v.reach) + outside
	if v.s.hole() {
		v.edge = int(v.reach) + min(hole, max(2, walls/10))
	}
	v.rows = levelRows(v.s.Levels, v.high)
	largest, _ := v.s.largest()
	v.factor = v.s.Factor
	if !(v.factor > 0) || math.IsInf(v.factor, 0) {
		v.factor = NiceFactor(largest, 2*v.reach/v.diameter())
	}
}

// levelName is the name of a level, with a question mark where what was read
// there is suspect.
func (s Section) levelName(i int) string {
	name := s.Levels[i].Name
	if d, ok := s.dir(i); ok && d.Suspect {
		name += " ?"
	}
	return name
}

func (s Section) hole() bool {
	switch s.Kind {
	case Bore, Bearing, Housing, Eye:
		return true
	default:
		return false
	}
}

// walls is the number of cells from the left end of the left wall to the right
// end of the right one.
func (v *side) walls() int { return v.at.w - v.names }

func (v *side) left() int { return v.at.x + v.names }

func (v *side) diameter() float64 { return float64(v.walls() - 2*v.edge) }

// levelRows spreads levels over n rows by their depth, each on a row of its own
// where there are rows enough. Levels without depths are spread evenly.
func levelRows(levels []Level, n int) []int {
	rows := make([]int, len(levels))
	even := len(levels) > 0 && !(levels[0].Depth < levels[len(levels)-1].Depth) &&
		(len(levels) > 1 || levels[0].Depth == 0)
	for i := range levels {
		depth := levels[i].Depth
		if even {
			depth = (float64(i) + 0.5) / float64(len(levels))
		}
		rows[i] = int(math.Round(min(max(depth, 0), 1) * float64(n-1)))
		if i > 0 && rows[i] <= rows[i-1] {
			rows[i] = rows[i-1] + 1
		}
	}
	last := n
	for i := len(rows) - 1; i >= 0; i-- {
		last = min(last-1, rows[i])
		rows[i] = max(0, last)
	}
	return rows
}

// shift is how far each wall is moved outward on a row, in cells, and whether
// anything is known there. Between two measured levels the wall is drawn
// straight; beyond the last one it goes on as it was.
func (v *side) shift(row int) (cells float64, known bool) {
	above, below := -1, -1
	for i, r := range v.rows {
		if r <= row {
			above = i
		}
		if r >= row && below < 0 {
			below = i
		}
	}
	a, hasA := v.measured(above)
	b, hasB := v.measured(below)
	switch {
	case hasA && hasB && v.rows[above] != v.rows[below]:
		t := float64(row-v.rows[above]) / float64(v.rows[below]-v.rows[above])
		return v.limit(a + (b-a)*t), true
	case hasA && (below < 0 || 2*row <= v.rows[above]+v.rows[below]):
		return v.limit(a), true
	case hasB && (above < 0 || 2*row >= v.rows[above]+v.rows[below]):
		return v.limit(b), true
	}
	return 0, false
}

func (v *side) measured(level int) (deviation float64, ok bool) {
	d, found := v.s.dir(level)
	return d.Deviation, found && d.Measured && !math.IsNaN(d.Deviation)
}

// limit turns a deviation into the cells that each wall moves.
func (v *side) limit(deviation float64) float64 {
	cells := deviation * v.factor * v.diameter() / 2
	if math.Abs(cells) > v.reach+0.01 {
		v.cut = true
	}
	return min(max(cells, -v.reach), v.reach)
}
