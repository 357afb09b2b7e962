package fit_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	. "borewright/engine/fit"
	"borewright/engine/length"
)

// Trade press: at least 0.0035 for each inch of bore, 0.014 of 4 in.
func TestTargetGap(t *testing.T) {
	if got := in(TargetGap(at(t, "0.0035").Round(), length.Inch, at(t, "4"))); got != "0.0140" {
		t.Errorf("target gap %s", got)
	}
	if TargetGap(at(t, "0.0035").Round(), 0, at(t, "4")).Measured() || TargetGap(1, 1, at(t, "")).Measured() {
		t.Error("a gap for each nothing, or of a bore that was not read")
	}
}

// It rounds half to even, and a mean of readings keeps its fraction until then.
func TestTargetGapIsExact(t *testing.T) {
	for _, c := range []struct {
		bore length.Exact
		want length.Length
	}{{length.Exact{Sum: 1, Count: 2}, 0}, {length.Exact{Sum: 3, Count: 2}, 2}, {length.Exact{Sum: -1, Count: 2}, 0}, {length.Exact{Sum: 7, Count: 3}, 2}} {
		if got := TargetGap(5, 5, c.bore); got != length.Of(c.want) {
			t.Errorf("%v scaled by one is %v", c.bore, got)
		}
	}
}

// A steel ring (11.5e-6: Swyt, J. Res. NIST 99 (1994) 31) in a cast-iron bore
// (11.4e-6: Callister, Table B.6), worked by hand: π·4 in·(11.4·100 - 11.5·150)
// millionths = -0.0073513 in.
func TestHotGap(t *testing.T) {
	h := Heat{Bore: at(t, "4"), BoreAlpha: 11.4, BoreRise: 100, RingAlpha: 11.5, RingRise: 150}
	if got := h.HotGap(at(t, "0.014")).Format(length.In, 7); got != "0.0066487" {
		t.Errorf("hot gap %s", got)
	}
	rise, ok := h.ButtsAt(at(t, "0.014"))
	if !ok || math.Abs(rise-196.00736) > 0.0001 {
		t.Errorf("butts at a rise of %g", rise)
	}
	if cold := (Heat{Bore: at(t, "4")}).HotGap(at(t, "0.014")); in(cold) != "0.0140" {
		t.Errorf("cold it is %s", in(cold))
	}
	for name, h := range map[string]Heat{"no bore": {RingAlpha: 11}, "no expansion": {Bore: at(t, "4")}} {
		if _, ok := h.ButtsAt(at(t, "0.014")); ok {
			t.Error(name + ": it butts")
		}
	}
}

// At the rise at which it butts the hot gap is zero.
func TestButtsWhereTheHotGapIsZero(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		h := Heat{
			Bore: length.Of(length.Length(draw("bore", 3e10, 2e11))), BoreAlpha: draw("alpha", 0, 25), BoreRise: draw("rise", 0, 200),
			RingAlpha: draw("ring", 5, 25),
		}
		gap := length.Of(length.Length(draw("gap", 0, 1e9)))
		h.RingRise, _ = h.ButtsAt(gap)
		if left := h.HotGap(gap).Float(); math.Abs(left) > 2 {
			t.Fatalf("%g pm are left", left)
		}
	})
}

func TestSideClearance(t *testing.T) {
	if got := in(SideClearance(at(t, "0.0640"), at(t, "0.0620"))); got != "0.0020" {
		t.Errorf("side clearance %s", got)
	}
	if got := in(RodSide(at(t, "1.9400"), at(t, "0.9600"), at(t, "0.9610"))); got != "0.0190" {
		t.Errorf("two rods on one journal leave %s", got)
	}
	if RodSide(at(t, "1.94"), at(t, "0.96"), at(t, "")).Measured() {
		t.Error("a rod that was not measured leaves something")
	}
}

func TestMeansBetweenLevels(t *testing.T) {
	m := MeansOf(levels(t, []string{"0.5", "", "2.5", "4.5"})[0],
		levels(t, []string{"3.7504", "3.7506"}, []string{"3.7500"}, []string{"3.7501"}, []string{"3.7503", ""}))
	for depth, want := range map[string]string{
		"0.5": "3.75050", "0.1": "3.75050", "1.5": "3.75030", "2.5": "3.75010", "3.0": "3.75015", "4.5": "3.75030", "9": "3.75030", "": "",
	} {
		if got := m.At(at(t, depth)).Format(length.In, 5); got != want {
			t.Errorf("at %q it is %s, want %s", depth, got, want)
		}
	}
	for _, c := range []struct{ from, to, want string }{
		{"0.5", "4.5", "3.75010"}, {"", "", "3.75010"}, {"0.5", "1.5", "3.75030"}, {"3.5", "", "3.75020"}, {"", "1", "3.75040"},
	} {
		if got := m.Smallest(at(t, c.from), at(t, c.to)).Format(length.In, 5); got != c.want {
			t.Errorf("from %q to %q the smallest is %s, want %s", c.from, c.to, got, c.want)
		}
	}
	if (Means{}).Smallest(at(t, "1"), at(t, "2")).Measured() || (Means{}).At(at(t, "1")).Measured() {
		t.Error("a mean of no level")
	}
}
