package draw

import (
	"math"
	"strconv"
	"strings"
)

// Kind is what sort of feature is drawn in section.
type Kind uint8

// The kinds. A bore, a bearing, a housing and an eye are holes, with the metal
// outside; a journal, a piston and a pin are shafts, with the metal inside. A
// bearing has shells and, like a housing, a parting line; eyes and pins have
// axes of their own. A ring, a gap between two faces and a wall are read at one
// point and have no form.
const (
	Bore Kind = iota
	Journal
	Bearing
	Piston
	Housing
	Eye
	Pin
	Ring
	Gap
	Wall
)

// Section is one feature in section, with the form that was measured drawn
// much too large, by a factor that the drawing states. Beside or below it, where
// there is room, stands a view along the axis that shows the direction of the
// reading. Everything is diametral: each wall is moved by half of the
// difference in diameter.
type Section struct {
	Kind   Kind
	Title  string  // what is measured, such as "bore 3"
	Levels []Level // from the head end or the front
	At     Place   // the place that is meant
	Figure string  // what is read at a point, such as "end gap"; for a ring, a gap and a wall
	Factor float64 // how much too large the form is drawn; 0 lets the drawing choose
	// Named says that the place is named beside the picture, which takes the room
	// of its own line.
	Named bool

	ASCII   bool
	Palette *Palette
}

// Level is one depth of a section.
type Level struct {
	Name  string
	Depth float64 // 0 at the head end or front, 1 at the other end
	Dirs  []Dir
}

// Dir is one direction at one level.
type Dir struct {
	Name string
	// Angle in degrees, clockwise as seen. In a bore or piston, seen from the
	// head end with the front of the engine at the top, 0 is across the
	// crank; in a bearing or journal, seen from the front, 0 is upright.
	Angle float64
	// Deviation is (diameter - reference) / reference, positive for larger;
	// it is used when Measured is set.
	Deviation float64
	Measured  bool
	Suspect   bool   // a question mark stands after the level's name
	Text      string // written at the level where there is room, such as "+0.0003"
}

// Place is an index into the levels and one into that level's directions. A
// level below 0 marks no place; the direction of the first level is drawn then.
type Place struct{ Level, Dir int }

// Nowhere marks no place; the first direction is drawn.
var Nowhere = Place{Level: -1}

// NiceFactor is the largest of 1, 2, 5, 10 ... 2000 that draws a deviation no
// larger than reach, both being fractions of the drawn diameter; 1 when the
// deviation is larger than reach as it is.
func NiceFactor(deviation, reach float64) float64 {
	best := 1.0
	for _, f := range []float64{2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000} {
		if math.Abs(deviation)*f <= reach {
			best = f
		}
	}
	return best
}

// Draw draws the section in exactly h lines of at most w cells. What there is
// no room for is left out, the view along the axis first and then the picture;
// the place that is meant is always named, unless it is Named beside it.
func (s Section) Draw(w, h int) []string {
	c := newCanvas(w, h)
	if s.pointed() {
		s.drawPoint(c)
		return c.lines(s.Palette)
	}
	picture, view := s.arrange(w, h)
	if picture.w > 0 {
		s.drawSide(c, picture)
	} else {
		s.drawWords(c)
	}
	if view.w > 0 {
		s.drawView(c, view)
	}
	return c.lines(s.Palette)
}

// area is a part of a canvas.
type area struct{ x, y, w, h int }

// The least room for the picture and for the view along the axis, in cells.
const (
	pictureW, pictureH = 20, 5
	viewW, viewH       = 13, 7
	partGap            = 2
)

// arrange gives the picture and the view their places: one above the other
// where the room is high, else side by side. Either may have none.
func (s Section) arrange(w, h int) (picture, view area) {
	if w < pictureW || h < pictureH {
		return area{}, area{}
	}
	tries := []func(w, h int) (picture, view area, ok bool){beside, stacked}
	if 2*h >= w {
		tries[0], tries[1] = stacked, beside
	}
	for _, try := range tries {
		if picture, view, ok := try(w, h); ok {
			return picture, view
		}
	}
	return area{0, 0, min(w, widestPicture(h)), h}, area{}
}

func beside(w, h int) (picture, view area, ok bool) {
	size := min(2*h-5, w*2/5) | 1
	left := min(w-size-partGap, widestPicture(h))
	return area{0, 0, left, h}, area{left + partGap, 0, size, h},
		size >= viewW && left >= pictureW+4 && h >= viewH
}

func stacked(w, h int) (picture, view area, ok bool) {
	rows := max(viewH, h*2/5)
	above := h - rows - 1
	return area{0, 0, min(w, widestPicture(above)), above}, area{0, h - rows, w, rows},
		above >= pictureH+2
}

// widestPicture keeps a picture from being drawn much wider than high.
func widestPicture(h int) int { return max(pictureW+8, 3*h+12) }

// dir is the direction of the place at one level: the one of the same name, or
// else of the same index.
func (s Section) dir(level int) (Dir, bool) {
	if level < 0 || level >= len(s.Levels) {
		return Dir{}, false
	}
	dirs := s.Levels[level].Dirs
	if at, ok := s.meant(); ok {
		for _, d := range dirs {
			if d.Name == at.Name {
				return d, true
			}
		}
	}
	if i := max(0, s.At.Dir); i < len(dirs) {
		return dirs[i], true
	}
	return Dir{}, false
}

// meant is the direction that is meant, wherever there is one.
func (s Section) meant() (Dir, bool) {
	level, dir := s.At.Level, max(0, s.At.Dir)
	if level < 0 {
		level = 0
	}
	if level >= len(s.Levels) || dir >= len(s.Levels[level].Dirs) {
		return Dir{}, false
	}
	return s.Levels[level].Dirs[dir], true
}

// words names the feature and the place: "bore 3: middle, across"; where that
// is too long for w cells the place alone.
func (s Section) words(w int) string {
	var place []string
	if l := s.At.Level; l >= 0 && l < len(s.Levels) && s.Levels[l].Name != "" {
		place = append(place, s.Levels[l].Name)
	}
	if d, ok := s.meant(); ok && d.Name != "" {
		place = append(place, d.Name)
	}
	where := strings.Join(place, ", ")
	if s.Title == "" || where == "" {
		return s.Title + where
	}
	if long := s.Title + ": " + where; Width(long) <= w {
		return long
	}
	return where
}

func (s Section) drawWords(c *canvas) {
	for y, line := range Wrap(s.words(c.w*c.h), c.w) {
		c.write(0, y, c.w, line, Marked)
	}
}

func (s Section) sign(usual, ascii string) string {
	if s.ASCII {
		return ascii
	}
	return usual
}

// largest is the largest deviation of all that is measured, so that the factor
// is the same in every direction.
func (s Section) largest() (deviation float64, measured bool) {
	for _, l := range s.Levels {
		for _, d := range l.Dirs {
			if d.Measured && !math.IsNaN(d.Deviation) {
				deviation, measured = max(deviation, math.Abs(d.Deviation)), true
			}
		}
	}
	return deviation, measured
}

func factorText(f float64, times string) string {
	return "form " + times + " " + strconv.FormatFloat(f, 'f', -1, 64)
}
