package fit_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	. "borewright/engine/fit"
	"borewright/engine/length"
)

// onHand are sizes as a shop has them: undersizes in inches.
func onHand(t fataler, undersizes ...string) []Shell {
	var out []Shell
	for _, u := range undersizes {
		out = append(out, Undersized(u, at(t, u).Round(), 4))
	}
	return out
}

func pairNames(shells []Shell, pairs []Halves) []string {
	var out []string
	for _, h := range pairs {
		out = append(out, shells[h.Upper].Name+"/"+shells[h.Lower].Name)
	}
	return out
}

func TestPairs(t *testing.T) {
	shells := onHand(t, "0", "0.001", "0.002")
	for _, c := range []struct {
		name string
		mix  Mix
		want []string
	}{
		{"none mixed", Mix{}, []string{"0/0", "0.001/0.001", "0.002/0.002"}},
		{"one step", Mix{Most: Step(shells)}, []string{"0/0", "0.001/0.001", "0.002/0.002", "0/0.001", "0.001/0.002"}},
		{"one step, upper thick", Mix{Most: Step(shells), ThickUpper: true}, []string{"0/0", "0.001/0.001", "0.002/0.002", "0.001/0", "0.002/0.001"}},
		{"two steps", Mix{Most: at(t, "0.002")}, []string{"0/0", "0.001/0.001", "0.002/0.002", "0/0.001", "0/0.002", "0.001/0.002"}},
	} {
		if got := pairNames(shells, Pairs(shells, c.mix)); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

func TestShellsThatServeAsOneHalfOnly(t *testing.T) {
	shells := append(onHand(t, "0", "0.001"), Shell{Name: "no wall", Count: 4})
	shells[0].NotLower, shells[1].NotUpper = true, true
	if got := pairNames(shells, Pairs(shells, Mix{Most: at(t, "0.001")})); !slices.Equal(got, []string{"0/0.001"}) {
		t.Errorf("%v: a shell without a wall, or one as the wrong half", got)
	}
}

func TestOneStep(t *testing.T) {
	if got := in(Step(onHand(t, "0.010", "0", "0.002", "0.010", "0.001"))); got != "0.0010" {
		t.Errorf("one step is %s", got)
	}
	if Step(onHand(t, "0.001", "0.001")).Measured() {
		t.Error("a step between shells that are alike")
	}
}

// Trade press, consistent with TM 9-2815-205-34 p. 3-203: 0.001 undersize shells
// take 0.003 clearance to 0.002; half of the pair takes half of that.
func TestPairChange(t *testing.T) {
	shells := onHand(t, "0", "0.001")
	std := shells[0].Wall
	for name, c := range map[string]struct {
		h             Halves
		change, shift string
	}{
		"both":   {Halves{1, 1}, "-0.0010", "0.00000"},
		"lower":  {Halves{0, 1}, "-0.0005", "+0.00025"},
		"upper":  {Halves{1, 0}, "-0.0005", "-0.00025"},
		"as new": {Halves{0, 0}, "0.0000", "0.00000"},
	} {
		if got := c.h.Change(shells, std, std).FormatSigned(length.In, 4); got != c.change {
			t.Errorf("%s: changes by %s, want %s", name, got, c.change)
		}
		if got := c.h.Shift(shells).FormatSigned(length.In, 5); got != c.shift {
			t.Errorf("%s: shifts by %s, want %s", name, got, c.shift)
		}
	}
}

// A pair by its undersizes and by its measured walls makes the same change and
// shift, and both are those of ShellChange and CentreShift.
func TestUndersizesAndWallsAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := rapid.Int64Range(-50, 400)
		undersizes := []length.Length{
			length.Length(size.Draw(t, "upper")) * length.Inch / 10000, length.Length(size.Draw(t, "lower")) * length.Inch / 10000,
		}
		standard := Range{Low: length.Inch / 8, High: length.Inch / 8}
		var byUndersize, byWall []Shell
		for _, u := range undersizes {
			byUndersize = append(byUndersize, Undersized("", u, 1))
			byWall = append(byWall, Shell{Wall: length.Of(UndersizeWall(standard, u).Low)})
		}
		h := Halves{0, 1}
		zero, wall := length.Of(0), length.Of(standard.Low)
		if a, b := h.Change(byUndersize, zero, zero), h.Change(byWall, wall, wall); a != b || a != ShellChange(undersizes[0], undersizes[1]) {
			t.Fatalf("by undersize %v, by wall %v", a, b)
		}
		if a, b := h.Shift(byUndersize), h.Shift(byWall); a != b || a != CentreShift(undersizes[0], undersizes[1]) {
			t.Fatalf("shift by undersize %v, by wall %v", a, b)
		}
	})
}
