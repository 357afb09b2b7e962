package draw

import (
	"math"
	"strings"
)

// drawView draws the view along the axis: a circle, what it is turned by, and
// the direction that is meant as a line through the centre.
func (s Section) drawView(c *canvas, at area) {
	d, ok := s.meant()
	s.drawViewTitle(c, at, d.Name)
	rows := min(at.h-2, (at.w+1)/2)
	w := 2*rows - 1
	circle := area{at.x + (at.w-w)/2, at.y + 1, w, rows}
	s.drawAxis(c, circle)
	ring, line := newBitmap(w, 2*rows), newBitmap(w, 2*rows)
	ring.circle()
	if ok {
		line.diameter(s.drawnAngle(d.Angle))
	}
	ring.onto(c, circle.x, circle.y, s.sign("", "#"), Frame)
	line.over(ring)
	line.onto(c, circle.x, circle.y, s.sign("", "*"), Marked)
	c.centre(at.x, circle.y+rows, at.w, s.axisName(at.w), Dim)
}

// drawViewTitle names the direction and where it is seen from, or where there
// is no room the direction alone.
func (s Section) drawViewTitle(c *canvas, at area, direction string) {
	from := "from the front"
	if s.Kind == Bore || s.Kind == Piston {
		from = "from above"
	}
	long := strings.TrimPrefix(direction+", "+from, ", ")
	if Width(long) > at.w && direction != "" {
		long = direction
	}
	c.centre(at.x, at.y, at.w, long, Marked)
}

// circle draws the largest circle into a bitmap.
func (b bitmap) circle() {
	cx, cy := float64(b.w-1)/2, float64(b.h-1)/2
	steps := 8 * (b.w + b.h)
	for i := range steps {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(steps))
		b.set(int(math.Round(cx+cx*cos)), int(math.Round(cy+cy*sin)))
	}
}

// axisName names the line that the view is turned by, in w cells.
func (s Section) axisName(w int) string {
	name, more := "+ crank axis", ""
	switch s.Kind {
	case Bore, Piston:
		name, more = s.sign("┊", ":")+" crank axis", ", front up"
	case Eye, Pin:
		name = "+ axis"
	case Bearing, Housing:
		name = s.sign("┈", "-") + " parting line"
	default:
	}
	if Width(name+more) <= w {
		return name + more
	}
	return name
}

// drawAxis draws the crank axis from front to rear, the parting line across, or
// the end of the axis.
func (s Section) drawAxis(c *canvas, at area) {
	switch s.Kind {
	case Bore, Piston:
		for y := range at.h {
			c.put(at.x+at.w/2, at.y+y, s.sign("┊", ":"), Dim)
		}
	case Bearing, Housing:
		c.fill(at.x, at.y+at.h/2, at.w, s.sign("┈", "-"), Dim)
	default:
		c.put(at.x+at.w/2, at.y+at.h/2, "+", Dim)
	}
}

// drawnAngle is the angle in the picture, clockwise from left to right: but for
// bores and pistons 0 is upright.
func (s Section) drawnAngle(angle float64) float64 {
	if s.Kind == Bore || s.Kind == Piston {
		return angle
	}
	return angle - 90
}

// diameter draws a line through the centre at an angle in degrees.
func (b bitmap) diameter(angle float64) {
	if math.IsNaN(angle) || math.IsInf(angle, 0) {
		return
	}
	sin, cos := math.Sincos(angle * math.Pi / 180)
	cx, cy := float64(b.w-1)/2, float64(b.h-1)/2
	steps := 2 * (b.w + b.h)
	for i := -steps; i <= steps; i++ {
		t := float64(i) / float64(steps)
		b.set(int(math.Round(cx+t*cx*cos)), int(math.Round(cy+t*cy*sin)))
	}
}

// over adds what lies beneath to every cell that b draws in.
func (b bitmap) over(beneath bitmap) {
	for y := 0; y < b.h; y += 2 {
		for x := range b.w {
			if !b.at(x, y) && !b.at(x, y+1) {
				continue
			}
			for _, y := range []int{y, y + 1} {
				if beneath.at(x, y) {
					b.set(x, y)
				}
			}
		}
	}
}
