package draw

import "math"

// pointed says that the kind is read at one point and has no form to draw.
func (s Section) pointed() bool { return s.Kind == Ring || s.Kind == Gap || s.Kind == Wall }

// drawPoint draws what is read at one point: a ring with its gap, two faces with
// the room between them, or a wall with what spans it. What is read is marked.
func (s Section) drawPoint(c *canvas) {
	at := area{0, 1, c.w, c.h - 3}
	if !s.Named {
		c.write(0, 0, c.w, s.words(c.w), Title)
		at = area{0, 2, c.w, c.h - 4}
	}
	if names := len(s.Levels); names > 1 {
		at.h -= names + 1
		s.listLevels(c, at.y+at.h+1)
	}
	if at.w < pictureW || at.h < 3 {
		return
	}
	if s.Kind == Ring {
		at.h = min(at.h, (at.w+1)/2)
		s.drawRing(c, at)
	} else {
		at.h = min(at.h, max(5, at.w/3))
		s.drawFaces(c, at)
	}
	c.centre(0, at.y+at.h, c.w, s.Figure, Marked)
}

// listLevels names the levels, the one that is meant with the pointer.
func (s Section) listLevels(c *canvas, y int) {
	for i := range s.Levels {
		tone := Dim
		if i == s.At.Level {
			tone = Marked
			c.write(0, y+i, pointerW, s.sign("►", ">"), Marked)
		}
		c.write(pointerW, y+i, c.w-pointerW, s.levelName(i), tone)
	}
}

// ringOpen is half of the angle, in radians, that a ring is drawn open.
const ringOpen = 0.3

// drawRing draws a ring from above, open at the top, the gap marked.
func (s Section) drawRing(c *canvas, at area) {
	rows := at.h
	w := 2*rows - 1
	x := at.x + (at.w-w)/2
	b := newBitmap(w, 2*rows)
	cx, cy := float64(w-1)/2, float64(2*rows-1)/2
	steps := 8 * (w + 2*rows)
	for i := range steps {
		a := ringOpen + (2*math.Pi-2*ringOpen)*float64(i)/float64(steps-1)
		sin, cos := math.Sincos(a)
		b.set(int(math.Round(cx+cx*sin)), int(math.Round(cy-cy*cos)))
	}
	b.onto(c, x, at.y, s.sign("", "#"), Frame)
	half := max(1, int(cx*math.Sin(ringOpen))-1)
	s.span(c, x+w/2-half, at.y, 2*half+1)
}

// drawFaces draws two faces with room between them, or the wall that is read.
func (s Section) drawFaces(c *canvas, at area) {
	w := min(at.w, 3*at.h+12)
	third, x, y := w/3, at.x+(at.w-w)/2, at.y+at.h/2
	for row := range at.h {
		if s.Kind == Wall {
			c.fill(x+third, at.y+row, w-2*third, s.sign("█", "#"), Frame)
			continue
		}
		c.fill(x, at.y+row, third, s.sign("█", "#"), Frame)
		c.fill(x+w-third, at.y+row, third, s.sign("█", "#"), Frame)
	}
	if s.Kind != Wall {
		s.span(c, x+third, y, w-2*third)
		return
	}
	line := s.sign("━", "-")
	c.fill(x, y, third, line, Marked)
	c.fill(x+w-third, y, third, line, Marked)
	c.put(x+third-1, y, s.sign("►", ">"), Marked)
	c.put(x+w-third, y, s.sign("◄", "<"), Marked)
}

// span draws an arrow both ways over n cells.
func (s Section) span(c *canvas, x, y, n int) {
	c.fill(x, y, n, s.sign("━", "-"), Marked)
	c.put(x, y, s.sign("◄", "<"), Marked)
	c.put(x+n-1, y, s.sign("►", ">"), Marked)
}
