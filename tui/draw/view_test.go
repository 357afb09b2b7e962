package draw

import (
	"strings"
	"testing"
)

// drawnLine gives the cells of the direction line, as seen in the view alone.
func drawnLine(kind Kind, angle float64) (across, up int) {
	s := Section{Kind: kind, ASCII: true, Levels: []Level{{Dirs: []Dir{{Name: "this way", Angle: angle}}}}}
	c := newCanvas(23, 13)
	s.drawView(c, area{0, 0, 23, 13})
	columns := map[int]bool{}
	for _, line := range c.lines(nil) {
		if strings.Contains(line, "*") {
			up++
		}
		for x, sign := range line {
			if sign == '*' {
				columns[x] = true
			}
		}
	}
	return len(columns), up
}

func TestDirectionLine(t *testing.T) {
	tests := []struct {
		kind       Kind
		angle      float64
		across, up int
	}{
		{Bore, 0, 21, 1},
		{Bore, 180, 21, 1},
		{Bore, 90, 1, 11},
		{Piston, 0, 21, 1},
		{Bearing, 0, 1, 11},
		{Bearing, 90, 21, 1},
		{Journal, 0, 1, 11},
	}
	for _, tt := range tests {
		if across, up := drawnLine(tt.kind, tt.angle); across != tt.across || up != tt.up {
			t.Errorf("kind %d, %v°: the line is %d cells wide and %d high, want %d and %d", tt.kind, tt.angle, across, up, tt.across, tt.up)
		}
	}
}

func TestAnglesTurnClockwise(t *testing.T) {
	for kind, angle := range map[Kind]float64{Bore: 45, Journal: 135} {
		s := Section{Kind: kind, ASCII: true, Levels: []Level{{Dirs: []Dir{{Angle: angle}}}}}
		c := newCanvas(23, 13)
		s.drawView(c, area{0, 0, 23, 13})
		lines := c.lines(nil)
		if first, last := strings.Index(lines[3], "*"), strings.Index(lines[9], "*"); first < 0 || last <= first {
			t.Errorf("kind %d at %v° should fall to the right:\n%s", kind, angle, strings.Join(lines, "\n"))
		}
	}
}

func TestViewNamesWhatItIsTurnedBy(t *testing.T) {
	for kind, want := range map[Kind][]string{
		Bore: {"from above", ": crank axis, front up"}, Piston: {"from above", "crank axis"},
		Bearing: {"from the front", "- parting line"}, Journal: {"from the front", "+ crank axis"},
	} {
		s := example(kind)
		s.ASCII = true
		drawn := strings.Join(s.Draw(90, 16), "\n")
		for _, words := range want {
			if !strings.Contains(drawn, words) {
				t.Errorf("kind %d: %q is missing in\n%s", kind, words, drawn)
			}
		}
	}
}
