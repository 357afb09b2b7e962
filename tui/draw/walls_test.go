package draw

import (
	"strings"
	"testing"
)

func TestPistonsHaveGroovesAboveTheSkirt(t *testing.T) {
	s := Section{Kind: Piston, ASCII: true, At: Place{}, Levels: []Level{
		{Name: "skirt", Depth: 0.8, Dirs: []Dir{{Name: "across", Measured: true}}},
	}}
	lines := s.Draw(34, 14)
	crown, grooves := strings.Count(lines[2], "#"), []int{3, 5}
	for y := 2; y < 12; y++ {
		want := crown
		if y == grooves[0] || y == grooves[1] {
			want -= 2
		}
		if got := strings.Count(lines[y], "#"); got != want {
			t.Errorf("line %d has %d cells of metal, want %d:\n%s", y, got, want, strings.Join(lines, "\n"))
		}
	}
	s.Kind = Journal
	if got := strings.Count(s.Draw(34, 14)[3], "#"); got != crown {
		t.Errorf("a journal has %d cells where a piston has its groove, want %d", got, crown)
	}
}

func TestBetweenMeasuredLevelsWallsRunStraight(t *testing.T) {
	v := side{s: Section{Levels: []Level{
		{Dirs: []Dir{{Measured: true, Deviation: 0.1}}},
		{Dirs: []Dir{{Measured: true, Deviation: -0.1}}},
		{Dirs: []Dir{{}}},
	}}, at: area{w: 40}, rows: []int{2, 6, 10}, reach: 10, factor: 1}
	half := v.diameter() / 2 * 0.1
	for row, want := range map[int]float64{0: half, 2: half, 3: half / 2, 4: 0, 5: -half / 2, 6: -half, 8: -half} {
		if got, known := v.shift(row); !known || got < want-1e-9 || got > want+1e-9 {
			t.Errorf("row %d: moved by %v (known: %v), want %v", row, got, known, want)
		}
	}
	for _, row := range []int{9, 10, 12} {
		if got, known := v.shift(row); known {
			t.Errorf("row %d: moved by %v where nothing is measured", row, got)
		}
	}
}
