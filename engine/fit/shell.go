package fit

import (
	"slices"

	"borewright/engine/length"
)

// Shell is one size of bearing shell on hand.
type Shell struct {
	Name string
	// Wall is the wall as measured or printed, or by how much it is thicker
	// than a standard one, half its undersize: the same of all that are chosen
	// among. Not measured is a shell that cannot be chosen.
	Wall length.Exact
	// NotUpper and NotLower say that it does not serve as that half.
	NotUpper, NotLower bool
	// Count is how many halves there are.
	Count int
}

// Undersized returns a shell of an undersize, its wall being half of it thicker
// than that of a standard one. Below zero it gives extra clearance.
func Undersized(name string, undersize length.Length, count int) Shell {
	return Shell{Name: name, Wall: length.Of(undersize).Half(), Count: count}
}

// Mix says which halves of different walls go together.
type Mix struct {
	// Most is by how much the undersizes of the two may differ at most, twice
	// the difference of their walls. Zero mixes none.
	Most length.Exact
	// ThickUpper says that of two that differ the upper is the thicker one. It
	// is the same along the whole crank.
	ThickUpper bool
}

// Step returns the smallest difference between the undersizes of two shells of
// different walls: one step. It is not measured when all are alike.
func Step(shells []Shell) length.Exact {
	var least length.Exact
	for i, a := range shells {
		for _, b := range shells[:i] {
			if d := a.Wall.Sub(b.Wall).Abs().Times(2); d.Sign() > 0 {
				least = length.Min(least, d)
			}
		}
	}
	return least
}

// Halves are an upper and a lower shell, by their index among those on hand.
type Halves struct{ Upper, Lower int }

// Pairs returns every upper and lower that go together, those of one size
// first, in the order of the shells.
func Pairs(shells []Shell, mix Mix) []Halves {
	var out []Halves
	for u, upper := range shells {
		for l, lower := range shells {
			apart := upper.Wall.Sub(lower.Wall)
			if !apart.Measured() || upper.NotUpper || lower.NotLower {
				continue
			}
			thick := apart.Sign() > 0
			mixed := apart.Sign() != 0
			if mixed && (thick != mix.ThickUpper || !mix.Most.Measured() || apart.Abs().Times(2).Cmp(mix.Most) > 0) {
				continue
			}
			out = append(out, Halves{u, l})
		}
	}
	slices.SortStableFunc(out, func(a, b Halves) int {
		switch x, y := a.Mixed(shells), b.Mixed(shells); {
		case x == y:
			return 0
		case y:
			return -1
		}
		return 1
	})
	return out
}

// Mixed reports whether the two have different walls.
func (h Halves) Mixed(shells []Shell) bool {
	return shells[h.Upper].Wall.Cmp(shells[h.Lower].Wall) != 0
}

// Change returns by how much the clearance grows when these halves take the
// place of two walls: the two walls taken out less the two put in.
func (h Halves) Change(shells []Shell, upper, lower length.Exact) length.Exact {
	return upper.Add(lower).Sub(shells[h.Upper].Wall).Sub(shells[h.Lower].Wall)
}

// Shift returns by how much the halves move the centre line, + towards the
// upper one: half the difference of their walls.
func (h Halves) Shift(shells []Shell) length.Exact {
	return shells[h.Lower].Wall.Sub(shells[h.Upper].Wall).Half()
}
