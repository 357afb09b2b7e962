package form_test

import (
	"testing"

	"pgregory.net/rapid"

	. "borewright/engine/form"
	"borewright/engine/length"
)

// lengthwise is a feature read in one direction, in micrometres over 67 mm.
func lengthwise(microns ...int) Grid {
	g := Grid{Angles: []int{90}, LevelNames: []string{"top"}}
	for _, n := range microns {
		g.Values = append(g.Values, []length.Exact{length.Of(67*length.Millimetre + length.Length(n)*length.Micrometre)})
	}
	return g
}

func TestShape(t *testing.T) {
	for _, c := range []struct {
		want string
		by   int
		um   []int
	}{
		{"shape not measured", -1, []int{5}},
		{"straight", 2, []int{0, 2}},
		{"straight", 2, []int{1, 2, 0, 1}},
		{"tapered, wider at top", 3, []int{3, 0}},
		{"tapered, wider at last level", 3, []int{0, 3}},
		{"tapered, wider at top", 20, []int{20, 10, 0}},
		{"tapered, wider at last level", 20, []int{0, 5, 14, 20}},
		{"tapered, wider at top", 10, []int{10, 10, 0}},
		{"barrel, wider in the middle", 9, []int{0, 10, 1}},
		{"barrel, wider in the middle", 10, []int{0, 10, 9, 0}},
		{"waisted, narrower in the middle", 9, []int{10, 0, 9}},
		{"waisted, narrower in the middle", 10, []int{10, 0, 5, 10}},
		{"bell-mouthed at top", 9, []int{10, 1, 0}},
		{"bell-mouthed at top", 3, []int{5, 2, 0}},
		{"tapered, wider at top", 3, []int{10, 8, 7}},
		{"bell-mouthed at top", 8, []int{10, 2, 1, 0}},
		{"bell-mouthed at last level", 40, []int{0, 5, 10, 50}},
		{"bell-mouthed at both ends", 9, []int{10, 0, 1, 12}},
		{"uneven along its depth", 10, []int{5, 10, 0, 5}},
		{"uneven along its depth", 4, []int{0, 4, 2}},
	} {
		got := Measure(lengthwise(c.um...), 2*length.Micrometre).Shape
		if got.String() != c.want {
			t.Errorf("%d: %s, want %s", c.um, got, c.want)
		}
		if by := length.Of(length.Length(c.by) * length.Micrometre); c.by >= 0 && got.By != by {
			t.Errorf("%d: by %s µm, want %d", c.um, got.By.Format(length.UM, 1), c.by)
		}
	}
}

// A difference makes a shape only when it exceeds what the gauge can tell.
func TestShapeNeedsADifference(t *testing.T) {
	g := lengthwise(10, 5, 0)
	for see, want := range map[length.Length]Profile{
		0: Tapered, 9 * length.Micrometre: Tapered, 10*length.Micrometre - 1: Tapered,
		10 * length.Micrometre: Straight, length.Millimetre: Straight,
	} {
		if got := Measure(g, see).Shape.Profile; got != want {
			t.Errorf("seeing %d pm: %d, want %d", see, got, want)
		}
	}
}

// An oval that is the same at every level is no taper, though its directions
// were not all read everywhere.
func TestOvalIsNoTaper(t *testing.T) {
	g := oneBore(t)
	g.Values = rows(t, "mm", []string{"67.030", "67.000"}, []string{"67.030", ""}, []string{"67.030", "67.000"})
	if got := Measure(g, length.Micrometre).Shape; got.Profile != Straight {
		t.Error(got)
	}
}

// A larger reading step never finds a shape where a smaller one found none.
func TestSeeingLessFindsNoMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		um := rapid.SliceOfN(rapid.IntRange(0, 30), 2, 6).Draw(t, "µm")
		see := rapid.IntRange(0, 30).Draw(t, "see")
		more := see + rapid.IntRange(0, 30).Draw(t, "more")
		fine := Measure(lengthwise(um...), length.Length(see)*length.Micrometre).Shape
		coarse := Measure(lengthwise(um...), length.Length(more)*length.Micrometre).Shape
		if fine.Profile == Straight && coarse.Profile != Straight {
			t.Fatalf("%d: straight seeing %d µm, %v seeing %d", um, see, coarse, more)
		}
		if fine.Profile == NoProfile || fine.First && fine.Last && fine.Profile != BellMouthed {
			t.Fatalf("%d: %+v", um, fine)
		}
	})
}
