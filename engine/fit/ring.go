package fit

import (
	"math"
	"math/big"

	"borewright/engine/length"
)

// GapChange returns by how much a ring's end gap grows when the mean diameter
// it stands in grows by so much: π times that, rounded half to even to 1 pm,
// since the gap takes up the circumference. TM 5-6115-593-34 p. 1-9 prints it
// rounded to 3 times.
func GapChange(bore length.Exact) length.Exact {
	return rounded(math.Pi*bore.Float(), bore)
}

// rounded returns a figure in picometres rounded half to even, and nothing
// where what it was made of is not measured: the way back from floating point.
func rounded(pm float64, of ...length.Exact) length.Exact {
	for _, e := range of {
		if !e.Measured() {
			return length.Exact{}
		}
	}
	if math.IsNaN(pm) || math.Abs(pm) > math.MaxInt64/2 {
		return length.Exact{}
	}
	return length.Of(length.Length(math.RoundToEven(pm)))
}

// GapAt returns the end gap at the smallest place of a ring's travel from a gap
// measured elsewhere: gap - π(measured - smallest), where measured is the mean
// diameter at the depth the gap was measured at and smallest the smallest mean
// diameter in the travel.
func GapAt(gap, measured, smallest length.Exact) length.Exact {
	return gap.Sub(GapChange(measured.Sub(smallest)))
}

// TargetGap returns the gap that a factor asks for: so much for each per of the
// bore's diameter, such as 0.0035 in for each inch. It is exact to 1 pm, and
// not measured when per is not above zero.
func TargetGap(gap, per length.Length, bore length.Exact) length.Exact {
	return scaled(bore, int64(gap), int64(per))
}

// scaled returns e × by ÷ of, rounded half to even to 1 pm.
func scaled(e length.Exact, by, of int64) length.Exact {
	if !e.Measured() || of <= 0 {
		return length.Exact{}
	}
	num := new(big.Int).Mul(big.NewInt(int64(e.Sum)), big.NewInt(by))
	den := new(big.Int).Mul(big.NewInt(e.Count), big.NewInt(of))
	q, rem := new(big.Int).DivMod(num, den, new(big.Int))
	if half := rem.Lsh(rem, 1).Cmp(den); half > 0 || half == 0 && q.Bit(0) == 1 {
		q.Add(q, big.NewInt(1))
	}
	if !q.IsInt64() {
		return length.Exact{}
	}
	return length.Of(length.Length(q.Int64()))
}

// SideClearance returns what a ring has beside it in its groove: the groove's
// width less the ring's.
func SideClearance(groove, ring length.Exact) length.Exact { return groove.Sub(ring) }

// Heat is how warm a bore and the ring in it become: the rise over where the
// gap was measured in °C, and the expansions in 1e-6 per °C.
type Heat struct {
	Bore                length.Exact
	BoreAlpha, BoreRise float64
	RingAlpha, RingRise float64
}

// round is the circumference of the bore in picometres.
func (h Heat) round() float64 { return math.Pi * h.Bore.Float() }

// HotGap returns the gap when both are warm: gap + πD(αb ΔTb - αr ΔTr), rounded
// half to even to 1 pm.
func (h Heat) HotGap(gap length.Exact) length.Exact {
	grows := h.round() * micro * (h.BoreAlpha*h.BoreRise - h.RingAlpha*h.RingRise)
	return gap.Add(rounded(grows, h.Bore))
}

// ButtsAt returns by how many °C the ring's temperature has risen when its ends
// touch, the bore being as warm as Heat says. ok is false when that is not
// known, or the ring does not expand.
func (h Heat) ButtsAt(gap length.Exact) (rise float64, ok bool) {
	if !gap.Measured() || h.round() <= 0 || !h.Bore.Measured() || h.RingAlpha <= 0 {
		return 0, false
	}
	return (gap.Float()/h.round()/micro + h.BoreAlpha*h.BoreRise) / h.RingAlpha, true
}
