package form_test

import (
	"math"
	"testing"

	. "borewright/engine/form"
	"borewright/engine/length"
)

// ISO 4292 principle: r(φ) = R + a·cos nφ has a two-point variation of 4a for
// even n and none for odd n. R 50 mm, a 0.005 mm, n 2: 99.99 to 100.01 mm.
func TestTwoPoint(t *testing.T) {
	r, a := 50*length.Millimetre, 5*length.Micrometre
	for lobes := 1; lobes <= 12; lobes++ {
		small, large := "100.000000 mm", "100.000000 mm"
		if lobes%2 == 0 {
			small, large = "99.990000 mm", "100.010000 mm"
		}
		gotSmall, gotLarge := TwoPoint(r, a, lobes)
		if gotSmall != at(t, small) || gotLarge != at(t, large) {
			t.Errorf("%d lobes: %s to %s mm, want %s to %s", lobes, gotSmall.Format(length.MM, 6), gotLarge.Format(length.MM, 6), small, large)
		}
	}
	if small, large := TwoPoint(r, a, 0); small.Measured() || large.Measured() {
		t.Error("no lobes have diameters")
	}
}

// A constant-width curve of width s: every diameter s, true radial roundness
// 0.154701 s (derivation).
func TestConstantWidth(t *testing.T) {
	got := ConstantWidthRoundness(100 * length.Millimetre)
	if got.Format(length.MM, 4) != "15.4701" {
		t.Errorf("%s of 100 mm", got.Format(length.MM, 4))
	}
	least, most := math.Inf(1), 0.0
	for i := range 3600 {
		deg := float64(i) / 10
		x, y := onConstantWidth(deg)
		least, most = min(least, math.Hypot(x, y)), max(most, math.Hypot(x, y))
		if w := supportOf(deg) + supportOf(deg+180); math.Abs(w-1) > 1e-12 {
			t.Fatalf("width %v at %v°", w, deg)
		}
	}
	if want := got.Metres() / 0.1; math.Abs(most-least-want) > 1e-6 {
		t.Errorf("the drawn curve is out of round by %v, want %v", most-least, want)
	}
}

// corners are those of a triangle of side 1 about the origin, at 90, 210, 330°.
func corner(i int) (x, y float64) {
	sin, cos := math.Sincos(math.Pi/2 + float64(i)*2*math.Pi/3)
	return cos / math.Sqrt(3), sin / math.Sqrt(3)
}

// supportOf returns how far the curve reaches in a direction.
func supportOf(deg float64) float64 {
	x, y := onConstantWidth(deg)
	sin, cos := math.Sincos(deg * math.Pi / 180)
	return x*cos + y*sin
}

// onConstantWidth returns the point of the curve furthest in a direction: on an
// arc about the opposite corner, or a corner.
func onConstantWidth(deg float64) (x, y float64) {
	sin, cos := math.Sincos(deg * math.Pi / 180)
	best := math.Inf(-1)
	for i := range 3 {
		cx, cy := corner(i)
		for _, p := range [][2]float64{{cx, cy}, {cx + cos, cy + sin}} {
			if reach := p[0]*cos + p[1]*sin; onCurve(p[0], p[1]) && reach > best {
				x, y, best = p[0], p[1], reach
			}
		}
	}
	return x, y
}

// onCurve reports whether a point is no further than 1 from every corner.
func onCurve(x, y float64) bool {
	for i := range 3 {
		cx, cy := corner(i)
		if math.Hypot(x-cx, y-cy) > 1+1e-12 {
			return false
		}
	}
	return true
}

// NIST StRD, Norris: intercept -0.262323073774029, slope 1.00211681802045,
// residual sd 0.884796396144373, R² 0.999993745883712.
func TestFitLine(t *testing.T) {
	l, ok := FitLine(norris())
	if !ok || l.Freedom != 34 {
		t.Fatalf("%+v", l)
	}
	for name, pair := range map[string][2]float64{
		"intercept": {l.Intercept, -0.262323073774029},
		"slope":     {l.Slope, 1.00211681802045},
		"residual":  {l.Residual, 0.884796396144373},
		"R²":        {l.R2, 0.999993745883712},
	} {
		if math.Abs(pair[0]/pair[1]-1) > 1e-12 {
			t.Errorf("%s %v, want %v", name, pair[0], pair[1])
		}
	}
}

func TestFitLineOfFewPoints(t *testing.T) {
	for name, c := range map[string][2][]float64{
		"no points":         {nil, nil},
		"one point":         {{1}, {2}},
		"different lengths": {{1, 2}, {2}},
		"all x equal":       {{0.1, 0.1, 0.1}, {1, 2, 3}},
	} {
		if l, ok := FitLine(c[0], c[1]); ok {
			t.Errorf("%s: %+v", name, l)
		}
	}
	if l, ok := FitLine([]float64{0, 2}, []float64{3, 3}); !ok || l != (Line{Intercept: 3, R2: 1}) {
		t.Errorf("two points at one height: %+v", l)
	}
}

func norris() (x, y []float64) {
	for _, p := range [][2]float64{
		{0.2, 0.1},
		{337.4, 338.8},
		{118.2, 118.1},
		{884.6, 888.0},
		{10.1, 9.2},
		{226.5, 228.1},
		{666.3, 668.5},
		{996.3, 998.5},
		{448.6, 449.1},
		{777.0, 778.9},
		{558.2, 559.2},
		{0.4, 0.3},
		{0.6, 0.1},
		{775.5, 778.1},
		{666.9, 668.8},
		{338.0, 339.3},
		{447.5, 448.9},
		{11.6, 10.8},
		{556.0, 557.7},
		{228.1, 228.3},
		{995.8, 998.0},
		{887.6, 888.8},
		{120.2, 119.6},
		{0.3, 0.3},
		{0.3, 0.6},
		{556.8, 557.6},
		{339.1, 339.3},
		{887.2, 888.0},
		{999.0, 998.5},
		{779.0, 778.9},
		{11.1, 10.2},
		{118.3, 117.6},
		{229.2, 228.9},
		{669.1, 668.4},
		{448.9, 449.2},
		{0.5, 0.2},
	} {
		x, y = append(x, p[0]), append(y, p[1])
	}
	return x, y
}
