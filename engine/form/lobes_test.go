package form_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	. "borewright/engine/form"
	"borewright/engine/length"
)

// oval returns the diameters of an oval with its long axis at an angle.
func oval(mean length.Length, amplitude, axis float64, angles []int) []length.Exact {
	out := make([]length.Exact, len(angles))
	for i, a := range angles {
		d := amplitude * math.Cos(2*(float64(a)-axis)*math.Pi/180)
		out[i] = length.Of(mean + length.Length(math.Round(d)))
	}
	return out
}

func TestFitLobesFindsAnOval(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		angles := rapid.SampledFrom([][]int{{90, 30, 150}, {0, 45, 90, 135}, {0, 60, 120, 200}, {10, 20, 100}}).Draw(t, "angles")
		amplitude := rapid.Float64Range(1e6, 1e8).Draw(t, "amplitude")
		axis := rapid.Float64Range(0, 179).Draw(t, "axis")
		l := FitLobes(angles, oval(95*length.Millimetre, amplitude, axis, angles))
		if !l.Possible || l.Rank != 3 || l.Freedom != len(angles)-3 || l.Why != "" {
			t.Fatalf("%+v", l)
		}
		// Readings are whole picometres; close directions magnify that.
		if math.Abs(l.OutOfRound()-2*amplitude) > 30 || math.Abs(l.D0-95e9) > 30 || l.Residual > 30 {
			t.Fatalf("amplitude %v: %+v", amplitude, l)
		}
		off := math.Mod(l.WideAt()-axis+270, 180) - 90
		if math.Abs(off) > 0.01 || math.Abs(l.At(axis)-95e9-amplitude) > 30 {
			t.Fatalf("axis %v, found %v", axis, l.WideAt())
		}
	})
}

// Four directions leave one degree of freedom, and it measures what two lobes
// cannot explain: D(45°) + D(135°) against D(0°) + D(90°).
func TestFitLobesResidual(t *testing.T) {
	um := func(n int) length.Exact { return length.Of(length.Length(n) * length.Micrometre) }
	l := FitLobes([]int{0, 45, 90, 135}, []length.Exact{um(10), um(6), um(10), um(6)})
	if l.Freedom != 1 || math.Abs(l.Residual-4e6) > 1 || math.Abs(l.OutOfRound()) > 1 || math.Abs(l.D0-8e6) > 1 {
		t.Errorf("%+v", l)
	}
	if l.Condition > 1.5 {
		t.Errorf("directions spread evenly have condition %v", l.Condition)
	}
	close := FitLobes([]int{0, 2, 4}, []length.Exact{um(10), um(6), um(10)})
	if !close.Possible || close.Freedom != 0 || close.Residual != 0 || close.Condition < 100 {
		t.Errorf("%+v", close)
	}
}

func TestFitLobesNotPossible(t *testing.T) {
	one := length.Of(length.Millimetre)
	for _, c := range []struct {
		angles []int
		values []length.Exact
		rank   int
		why    string
	}{
		{[]int{180, 0, 90, 270}, []length.Exact{one, one, one, one}, 2, "directions 0/90/180/270 are only two modulo 180°; two lobes need three"},
		{[]int{0, 180}, []length.Exact{one, one}, 1, "directions 0/180 are only one modulo 180°; two lobes need three"},
		{[]int{0, 60, 120}, []length.Exact{one, {}, one}, 2, "directions 0/120 are only two modulo 180°; two lobes need three"},
		{[]int{45}, []length.Exact{one}, 1, "direction 45 is only one; two lobes need three"},
		{[]int{0, 60, 120}, []length.Exact{{}, {}, {}}, 0, "no direction is measured; two lobes need three"},
		{[]int{0, 60, 120}, nil, 0, "no direction is measured; two lobes need three"},
	} {
		l := FitLobes(c.angles, c.values)
		if l.Possible || l.Rank != c.rank || l.Why != c.why {
			t.Errorf("%d: %+v", c.angles, l)
		}
	}
}

// Angles are taken modulo 180°.
func TestFitLobesModuloHalfTurn(t *testing.T) {
	values := oval(60*length.Millimetre, 5e6, 20, []int{0, 60, 120, 150})
	a, b := FitLobes([]int{0, 60, 120, 150}, values), FitLobes([]int{-180, 240, 300, 510}, values)
	if a != b {
		t.Errorf("%+v\n%+v", a, b)
	}
}

// An oval lying between two directions at 90° is not seen by them, but is by
// four at 45°.
func TestOvalBetweenDirections(t *testing.T) {
	const a = 10_000_000 // 10 µm
	for _, c := range []struct {
		angles []int
		axis   float64
		want   length.Length
	}{
		{acrossAlong, 0, 2 * a},
		{acrossAlong, 45, 0},
		{[]int{90, 45, 0, 135}, 0, 2 * a},
		{[]int{90, 45, 0, 135}, 45, 2 * a},
	} {
		g := Grid{Angles: c.angles, Values: [][]length.Exact{oval(67*length.Millimetre, a, c.axis, c.angles)}, TwoContact: true}
		if f := Measure(g, 0); f.OutOfRound != length.Of(c.want) {
			t.Errorf("oval at %v° read at %d: %v, want %d", c.axis, c.angles, f.OutOfRound, c.want)
		}
	}
}

// Shares of a true oval that are seen (derivation): two directions at 90° 0 to
// 100 %, three at 60° 75 to 86.6 %, four at 45° 70.7 to 100 %.
func TestSeenShare(t *testing.T) {
	for _, c := range []struct {
		angles    []int
		low, high float64
	}{
		{[]int{0, 90}, 0, 1},
		{[]int{30, 90, 150}, 0.75, 0.8660},
		{[]int{0, 45, 90, 135}, 0.7071, 1},
		{[]int{0, 90, 180, 270}, 0, 1},
		{[]int{0, 180}, 0, 0},
		{[]int{7}, 0, 0},
		{nil, 0, 0},
	} {
		low, high := SeenShare(c.angles)
		if math.Abs(low-c.low) > 5e-5 || math.Abs(high-c.high) > 5e-5 {
			t.Errorf("%d: %.4f to %.4f, want %v to %v", c.angles, low, high, c.low, c.high)
		}
	}
}

// The shares against an oval that is turned all around.
func TestSeenShareAllAround(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		angles := rapid.SliceOfNDistinct(rapid.IntRange(0, 179), 2, 4, rapid.ID).Draw(t, "angles")
		low, high := SeenShare(angles)
		least, most := math.Inf(1), 0.0
		for axis := 0.0; axis < 180; axis += 0.25 {
			small, large := math.Inf(1), math.Inf(-1)
			for _, a := range angles {
				d := math.Cos(2 * (float64(a) - axis) * math.Pi / 180)
				small, large = min(small, d), max(large, d)
			}
			least, most = min(least, (large-small)/2), max(most, (large-small)/2)
		}
		if least < low-1e-12 || least > low+0.005 || most > high+1e-12 || most < high-0.0001 {
			t.Fatalf("%d: %v to %v, all around %v to %v", angles, low, high, least, most)
		}
	})
}

func TestSees(t *testing.T) {
	for _, c := range []struct {
		angles []int
		two    bool
		want   string
	}{
		{[]int{90, 0}, true, "2 directions see 0 to 100 % of a true oval and no odd lobes"},
		{[]int{90, 30, 150}, true, "3 directions see 75 to 87 % of a true oval and no odd lobes"},
		{[]int{90, 45, 0, 135}, true, "4 directions see 71 to 100 % of a true oval and no odd lobes"},
		{[]int{90}, true, "one direction cannot see an oval: out-of-round is not measured"},
		{[]int{90, 0}, false, "a three-contact head cannot see an oval: out-of-round is not measured"},
	} {
		if got := Sees(c.angles, c.two); got != c.want {
			t.Errorf("%d: %s", c.angles, got)
		}
	}
}
