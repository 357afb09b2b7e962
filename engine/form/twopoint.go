package form

import (
	"math"

	"borewright/engine/length"
)

// TwoPoint returns the smallest and the largest diameter that two opposite
// contacts find on the lobed section r(φ) = radius + amplitude·cos(lobes·φ),
// each rounded half to even to 1 pm. The two differ by 4 amplitudes where the
// number of lobes is even, though the section is out of round by 2 radially,
// and not at all where it is odd.
//
// Source: the principle of two-point measurement of ISO 4292; evaluated here as
// r(φ) + r(φ + π) all around. Fewer lobes than one are not measured.
func TwoPoint(radius, amplitude length.Length, lobes int) (smallest, largest length.Exact) {
	if lobes < 1 {
		return length.Exact{}, length.Exact{}
	}
	const perLobe = 32
	a, low, high := length.Of(amplitude).Float(), math.Inf(1), math.Inf(-1)
	for i := range perLobe * lobes {
		turn := 2 * math.Pi * float64(i) / perLobe // lobes·φ
		d := a * (math.Cos(turn) + math.Cos(turn+float64(lobes)*math.Pi))
		low, high = min(low, d), max(high, d)
	}
	round := length.Of(radius).Times(2)
	return round.Add(rounded(low)), round.Add(rounded(high))
}

// ConstantWidthRoundness returns the true radial roundness of the
// three-cornered curve of constant width, which two contacts find perfectly
// round: every diameter of it is the width. It is 2/√3 - 1, that is 0.154701,
// of the width, rounded half to even to 1 pm.
//
// Derivation: the curve is three arcs about the corners of an equilateral
// triangle whose side is the width w. Its corners are w/√3 from the centre, the
// middles of its arcs w - w/√3; roundness is the difference of the two.
func ConstantWidthRoundness(width length.Length) length.Exact {
	w := length.Of(width).Float()
	corner := w / math.Sqrt(3)
	arc := w - corner
	return rounded(corner - arc)
}
