package draw

import "math"

// wall is where the walls stand on one row, in half cells from either end, and
// whether that is known: where it is not they stand on the reference line.
func (v *side) wall(y int) (edge int, known bool) {
	shift, known := v.shift(y)
	if v.grooved(y) {
		shift -= 1
	}
	half := 2 * (float64(v.edge) - shift)
	if v.s.ASCII {
		half = 2 * math.Round(half/2)
	}
	return int(math.Round(half)), known
}

// grooved says whether a ring groove is drawn on a row: the second and fourth
// of a piston, where they lie well above the first level.
func (v *side) grooved(y int) bool {
	return v.s.Kind == Piston && (y == 1 || y == 3) && len(v.rows) > 0 && y+1 < v.rows[0]
}

// drawWalls draws both walls on one row of the picture: solid where the form
// is known, an open line where it is not.
func (v *side) drawWalls(y int) {
	edge, known := v.wall(y)
	if known {
		v.solid(y, edge)
	} else {
		v.open(y, edge/2)
	}
}

// open draws the reference line of an unmeasured stretch, edge cells from
// both ends.
func (v *side) open(y, edge int) {
	if v.s.hole() {
		edge--
	}
	sign := v.s.sign("┊", ":")
	v.c.put(v.left()+edge, v.body+y, sign, Frame)
	v.c.put(v.left()+v.walls()-1-edge, v.body+y, sign, Frame)
}

// solid draws the metal on one row, outside or inside a line that stands edge
// half cells from both ends.
func (v *side) solid(y, edge int) {
	n := 2 * v.walls()
	for x := range v.walls() {
		first := v.metal(2*x, edge, n)
		second := v.metal(2*x+1, edge, n)
		if sign := v.block(x, first, second); sign != "" {
			v.c.put(v.left()+x, v.body+y, sign, Frame)
		}
	}
}

func (v *side) metal(half, edge, n int) bool {
	inside := half >= edge && half < n-edge
	return inside != v.s.hole()
}

// block is the sign of one cell of metal. A bearing shows its shell solid and
// the housing behind it hatched.
func (v *side) block(x int, first, second bool) string {
	switch {
	case first && second:
		if v.s.Kind == Bearing && (x < v.edge-int(v.reach) || x >= v.walls()-v.edge+int(v.reach)) {
			return v.s.sign("░", "/")
		}
		return v.s.sign("█", "#")
	case first:
		return "▌"
	case second:
		return "▐"
	}
	return ""
}

// drawEnds names both ends, where there are rows for it.
func (v *side) drawEnds() {
	if !v.ends {
		return
	}
	first, last := "front", "rear"
	switch v.s.Kind {
	case Bore:
		first, last = "head end", "crank end"
	case Piston:
		first, last = "crown", "skirt end"
	case Eye, Pin:
		first, last = "", ""
	default:
	}
	v.c.centre(v.left(), v.body-1, v.walls(), first, Dim)
	v.c.centre(v.left(), v.body+v.high, v.walls(), last, Dim)
}

// drawLevel names one level and draws what was read there; at the place that
// is meant also the pointer and the arrows.
func (v *side) drawLevel(i int) {
	if i < 0 || i >= len(v.s.Levels) {
		return
	}
	y := v.body + v.rows[i]
	d, _ := v.s.dir(i)
	tone := Plain
	switch {
	case i == v.s.At.Level:
		tone = Marked
		v.c.write(v.at.x, y, pointerW, v.s.sign("►", ">"), Marked)
		v.drawArrows(v.rows[i])
	case d.Suspect:
		tone = Warn
	}
	x := v.at.x + pointerW
	v.c.fill(x, y, v.names-pointerW, " ", Plain)
	v.c.write(x, y, v.names-pointerW-1, v.s.levelName(i), tone)
	if room := int(v.diameter()-2*v.reach) - 2; d.Text != "" && Width(d.Text)+2 <= room {
		v.c.centre(v.left(), y, v.walls(), " "+d.Text+" ", tone)
	}
}

// drawArrows draws the line that the gauge measures along: outward to the walls
// of a hole, inward from both sides onto a shaft.
func (v *side) drawArrows(row int) {
	line, left, right := v.s.sign("━", "-"), v.s.sign("◄", "<"), v.s.sign("►", ">")
	edge, _ := v.wall(row)
	y, first, last := v.body+row, v.left(), v.left()+v.walls()-1
	if v.s.hole() {
		inner := (edge + 1) / 2
		v.c.fill(first+inner, y, v.walls()-2*inner, line, Marked)
		v.c.put(first+inner, y, left, Marked)
		v.c.put(last-inner, y, right, Marked)
		return
	}
	outer := edge / 2
	v.c.fill(first, y, outer, line, Marked)
	v.c.fill(last-outer+1, y, outer, line, Marked)
	v.c.put(first+outer-1, y, right, Marked)
	v.c.put(last-outer+1, y, left, Marked)
}

// drawFooter states the factor, or that there is no form to draw yet.
func (v *side) drawFooter() {
	text := "nothing measured yet"
	if _, measured := v.s.largest(); measured {
		text = factorText(v.factor, v.s.sign("×", "x")) + " (diametral)"
		if v.cut {
			text += ", cut off"
		}
	}
	v.c.write(v.at.x, v.at.y+v.at.h-1, v.at.w, text, Dim)
}
