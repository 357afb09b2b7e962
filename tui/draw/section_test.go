package draw

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/muesli/termenv"
	"pgregory.net/rapid"
)

// example is a section with two levels measured across, one along, and the
// place that is meant in the middle.
func example(kind Kind) Section {
	first, second, titles := "across", "along", []string{"bore 3", "", "", "piston 3"}
	if kind == Journal || kind == Bearing {
		first, second, titles = "vertical", "at 60", []string{"", "main journal 2", "main 2 bearing"}
	}
	level := func(name string, depth float64, a, b Dir) Level {
		a.Name, b.Name, b.Angle = first, second, 90
		if second == "at 60" {
			b.Angle = 60
		}
		return Level{Name: name, Depth: depth, Dirs: []Dir{a, b}}
	}
	return Section{Kind: kind, Title: titles[kind], At: Place{Level: 1}, Levels: []Level{
		level("top", 0.1, Dir{Deviation: 0.00025, Measured: true, Text: "+0.0010"}, Dir{Deviation: 0.0001, Measured: true, Suspect: true, Text: "+0.0004"}),
		level("middle", 0.5, Dir{Deviation: 0.00008, Measured: true, Text: "+0.0003"}, Dir{}),
		level("bottom", 0.9, Dir{}, Dir{}),
	}}
}

func TestSectionDrawings(t *testing.T) {
	for kind, name := range []string{"bore", "journal", "bearing", "piston"} {
		var lines []string
		for _, size := range []struct{ w, h int }{{34, 14}, {46, 11}, {32, 20}, {24, 5}, {18, 4}} {
			for _, at := range []Place{{1, 0}, {0, 1}} {
				s := example(Kind(kind))
				s.At = at
				usual := s.Draw(size.w, size.h)
				s.ASCII = true
				lines = append(lines, fmt.Sprintf("%d x %d", size.w, size.h))
				lines = append(lines, Beside(4, usual, s.Draw(size.w, size.h))...)
			}
		}
		golden(t, name, lines)
	}
}

// What is read at one point, and the holes and shafts that are no part of the
// bores and the crank, in the two sizes that the measure screen has for them.
func TestOtherDrawings(t *testing.T) {
	var lines []string
	for i, name := range []string{"housing", "eye", "pin", "ring", "gap", "wall"} {
		kind := Housing + Kind(i)
		for _, size := range []struct{ w, h int }{{26, 20}, {56, 30}} {
			s := example(Bearing)
			s.Kind, s.Title, s.Figure = kind, name, "end gap"
			if s.pointed() {
				s.Levels = s.Levels[:1]
				s.At.Level = 0
			}
			usual := s.Draw(size.w, size.h)
			s.ASCII = true
			ascii := s.Draw(size.w, size.h)
			if kind >= Ring && !strings.Contains(strings.Join(ascii, "\n"), "<-") && kind != Wall {
				t.Errorf("a %s of %d x %d has no arrow:\n%s", name, size.w, size.h, strings.Join(ascii, "\n"))
			}
			lines = append(lines, fmt.Sprintf("%s %d x %d", name, size.w, size.h))
			lines = append(lines, Beside(4, usual, ascii)...)
		}
	}
	golden(t, "others", lines)
}

// anySection makes sections with names, depths and figures of every sort.
func anySection() *rapid.Generator[Section] {
	number := rapid.OneOf(rapid.Float64Range(-0.01, 0.01), rapid.Float64Range(0, 1),
		rapid.SampledFrom([]float64{0, 1, -1, math.NaN(), math.Inf(1), math.Inf(-1), 1e300}))
	name := rapid.OneOf(rapid.StringMatching(`[a-z ]{0,12}`), rapid.SampledFrom([]string{"top", "middle", "日本語", "é́"}))
	return rapid.Custom(func(t *rapid.T) Section {
		s := Section{
			Kind: Kind(rapid.IntRange(0, 9).Draw(t, "kind")), Title: name.Draw(t, "title"),
			At:     Place{rapid.IntRange(-1, 5).Draw(t, "at level"), rapid.IntRange(-1, 4).Draw(t, "at dir")},
			Factor: rapid.SampledFrom([]float64{0, 1, 500, 1e6, math.NaN(), math.Inf(1)}).Draw(t, "factor"),
			ASCII:  ascii(t),
		}
		for range rapid.IntRange(0, 8).Draw(t, "levels") {
			l := Level{Name: name.Draw(t, "level"), Depth: number.Draw(t, "depth")}
			for range rapid.IntRange(0, 4).Draw(t, "dirs") {
				l.Dirs = append(l.Dirs, Dir{
					Name: name.Draw(t, "dir"), Angle: 180 * number.Draw(t, "angle"), Deviation: number.Draw(t, "deviation"),
					Measured: rapid.Bool().Draw(t, "measured"), Suspect: rapid.Bool().Draw(t, "suspect"), Text: name.Draw(t, "text"),
				})
			}
			s.Levels = append(s.Levels, l)
		}
		return s
	})
}

func TestSectionFitsEverySize(t *testing.T) {
	p := NewPalette(true, termenv.TrueColor)
	rapid.Check(t, func(t *rapid.T) {
		s := anySection().Draw(t, "section")
		w, h := rapid.IntRange(-1, 120).Draw(t, "w"), rapid.IntRange(-1, 50).Draw(t, "h")
		plain := s.Draw(w, h)
		fits(t, plain, w, h)
		s.Palette = &p
		coloured := s.Draw(w, h)
		fits(t, coloured, w, h)
		for y := range coloured {
			if got := ansi.Strip(coloured[y]); got != plain[y] {
				t.Errorf("colour changes line %d: %q, want %q", y, got, plain[y])
			}
		}
	})
}

func TestASCIISectionsAreOneCellEverywhere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := example(Kind(rapid.IntRange(0, 3).Draw(t, "kind")))
		s.ASCII = true
		s.At = Place{rapid.IntRange(0, 2).Draw(t, "level"), rapid.IntRange(0, 1).Draw(t, "dir")}
		oneCellEverywhere(t, s.Draw(rapid.IntRange(0, 120).Draw(t, "w"), rapid.IntRange(0, 50).Draw(t, "h")))
	})
}

func TestSectionAlwaysNamesThePlace(t *testing.T) {
	for _, size := range []struct{ w, h int }{{22, 1}, {22, 3}, {24, 5}, {30, 9}, {34, 14}, {80, 30}} {
		s := example(Bore)
		s.At = Place{Level: 2, Dir: 1}
		drawn := strings.Join(s.Draw(size.w, size.h), "\n")
		if !strings.Contains(drawn, "bore 3: bottom, along") {
			t.Errorf("%v does not name the place:\n%s", size, drawn)
		}
	}
}

func TestLongTitlesGiveWayToThePlace(t *testing.T) {
	s := example(Bore)
	s.Title = "bore 3, left bank, after honing"
	for w, want := range map[int]string{34: "middle, across  ", 90: s.Title + ": middle, across"} {
		if got := s.Draw(w, 14)[0]; !strings.HasPrefix(got, want) {
			t.Errorf("%d cells: %q, want %q", w, got, want)
		}
	}
}

// Where the place is named beside the picture, the picture does not name it again
// and has the row: nothing but the name is lost.
func TestNamedBesideThePictureHasTheRow(t *testing.T) {
	for _, kind := range []Kind{Bore, Journal} {
		s := example(kind)
		s.Title = "no. 3"
		for _, size := range []struct{ w, h int }{{26, 20}, {46, 11}, {80, 30}} {
			with := strings.Join(s.Draw(size.w, size.h), "\n")
			s.Named = true
			without := strings.Join(s.Draw(size.w, size.h), "\n")
			s.Named = false
			if !strings.Contains(with, s.Title) || strings.Contains(without, s.Title) {
				t.Errorf("%v at %v, named beside:\n%s", kind, size, without)
			}
			if first, _, _ := strings.Cut(without, "\n"); strings.TrimSpace(first) == "" {
				t.Errorf("%v at %v leaves its first row empty:\n%s", kind, size, without)
			}
		}
	}
}

func TestSuspectIsAlwaysMarked(t *testing.T) {
	for _, size := range []struct{ w, h int }{{22, 5}, {24, 7}, {34, 14}, {46, 11}, {80, 30}} {
		for _, at := range []int{0, 1} {
			s := example(Journal)
			s.At = Place{at, 1}
			if drawn := strings.Join(s.Draw(size.w, size.h), "\n"); strings.Count(drawn, "top ?") != 1 {
				t.Errorf("%v, at %d:\n%s", size, at, drawn)
			}
		}
	}
}

func TestSectionPointsAtThePlace(t *testing.T) {
	for kind := range Piston + 1 {
		for level := range 3 {
			s := example(kind)
			s.At.Level, s.ASCII = level, true
			for y, line := range s.Draw(34, 14)[:13] {
				row := strings.Contains(line, "  "+s.Levels[level].Name) || strings.HasPrefix(line, "> "+s.Levels[level].Name)
				if arrows := strings.Contains(line, "--"); y > 0 && (row != strings.HasPrefix(line, "> ") || row != arrows) {
					t.Errorf("kind %d, level %d: pointer or arrows wrong in line %d: %q", kind, level, y, line)
				}
			}
		}
	}
}

// metal counts the cells of metal on the row of a level.
func metal(t *testing.T, lines []string, level string) int {
	t.Helper()
	for _, line := range lines[1:] {
		if strings.Contains(line, level) {
			return strings.Count(line, "#")
		}
	}
	t.Fatalf("no row for %q in %q", level, lines)
	return 0
}

func TestLargerMovesTheWallsOutward(t *testing.T) {
	for kind, grows := range map[Kind]bool{Bore: false, Bearing: false, Journal: true, Piston: true} {
		s := example(kind)
		s.ASCII, s.At, s.Factor = true, Nowhere, 500
		for i := range s.Levels {
			s.Levels[i].Dirs[0] = Dir{Name: s.Levels[i].Dirs[0].Name, Measured: true, Deviation: 0.0004 * float64(1-i)}
		}
		lines := s.Draw(40, 12)
		top, middle, bottom := metal(t, lines, "top"), metal(t, lines, "middle"), metal(t, lines, "bottom")
		if ok := top > middle && middle > bottom; ok != grows || top == middle || middle == bottom {
			t.Errorf("kind %d: %d, %d, %d cells of metal from large to small:\n%s", kind, top, middle, bottom, strings.Join(lines, "\n"))
		}
	}
}

func TestUnmeasuredIsEmpty(t *testing.T) {
	for kind := range Piston + 1 {
		s := example(kind)
		s.ASCII, s.At = true, Nowhere
		if n := metal(t, s.Draw(34, 14), "bottom"); n != 0 {
			t.Errorf("kind %d: an unmeasured level shows %d cells of metal", kind, n)
		}
		for i := range s.Levels {
			s.Levels[i].Dirs = nil
		}
		lines := s.Draw(34, 14)
		if drawn := strings.Join(lines, "\n"); strings.Contains(drawn, "#") || !strings.Contains(drawn, "nothing measured yet") {
			t.Errorf("kind %d, nothing measured:\n%s", kind, drawn)
		}
	}
}

func TestFactorIsStated(t *testing.T) {
	tests := []struct {
		deviation, factor float64
		want              string
	}{
		{0.0001, 0, "form x 2000 (diametral)"},
		{0.0005, 0, "form x 500 (diametral)"},
		{-0.0007, 0, "form x 200 (diametral)"},
		{0, 0, "form x 2000 (diametral)"},
		{0.0001, 50, "form x 50 (diametral)"},
		{0.01, 500, "form x 500 (diametral), cut off"},
		{5, 0, "form x 1 (diametral), cut off"},
	}
	for _, tt := range tests {
		s := example(Bore)
		s.ASCII, s.Factor = true, tt.factor
		for i := range s.Levels {
			s.Levels[i].Dirs = []Dir{{Name: "across", Measured: true, Deviation: tt.deviation}}
		}
		if lines := s.Draw(40, 12); !strings.Contains(strings.Join(lines, "\n"), tt.want+" ") {
			t.Errorf("deviation %v, factor %v: %q does not state %q", tt.deviation, tt.factor, lines, tt.want)
		}
	}
}

func TestNiceFactor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		deviation, reach := rapid.Float64Range(1e-7, 1).Draw(t, "deviation"), rapid.Float64Range(0.01, 0.5).Draw(t, "reach")
		f := NiceFactor(deviation, reach)
		if f != 1 && deviation*f > reach {
			t.Errorf("%v × %v passes %v", deviation, f, reach)
		}
		if next := f * 2.5; f < 2000 && deviation*next <= reach {
			t.Errorf("%v × %v would still fit into %v", deviation, next, reach)
		}
	})
}

func TestLevelRows(t *testing.T) {
	tests := []struct {
		depths []float64
		n      int
		want   []int
	}{
		{[]float64{0, 0.5, 1}, 9, []int{0, 4, 8}},
		{[]float64{0, 0, 0}, 9, []int{1, 4, 7}},
		{[]float64{0.5, 0.51, 0.52}, 9, []int{4, 5, 6}},
		{[]float64{0.98, 0.99, 1}, 9, []int{6, 7, 8}},
		{[]float64{0.7}, 11, []int{7}},
		{[]float64{0}, 11, []int{5}},
		{[]float64{0, 0.3, 0.6, 1}, 3, []int{0, 0, 1, 2}},
		{[]float64{-4, 9}, 5, []int{0, 4}},
		{nil, 5, []int{}},
	}
	for _, tt := range tests {
		levels := make([]Level, len(tt.depths))
		for i, d := range tt.depths {
			levels[i].Depth = d
		}
		if got := levelRows(levels, tt.n); !slices.Equal(got, tt.want) {
			t.Errorf("depths %v on %d rows: %v, want %v", tt.depths, tt.n, got, tt.want)
		}
	}
}
