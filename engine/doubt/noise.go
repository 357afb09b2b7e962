package doubt

import (
	"math"
	"sync"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat/distuv"
)

// Beyond reach standard deviations nothing is left of a normal distribution;
// points are those of the quadrature, and planePoints those of each of its axes
// in a plane.
const reach, points, planePoints = 9, 120, 60

// RangeFactor returns the mean of the largest less the smallest of n normal
// readings, in standard deviations of one of them: 1.128, 1.693, 2.059, 2.326
// and 2.534 for 2 to 6. ok is false with fewer than two.
//
// Source: the control-chart constant d2 (ASTM MNL 7). It is computed as the
// integral of 1 - Φⁿ - (1 - Φ)ⁿ over all x, Φ being the normal distribution.
func RangeFactor(n int) (d2 float64, ok bool) {
	if n < 2 {
		return 0, false
	}
	if known, ok := rangeFactors.Load(n); ok {
		return known.(float64), true
	}
	d2 = meanRangeOf(n)
	rangeFactors.Store(n, d2)
	return d2, true
}

// rangeFactors holds what was integrated, by n: to integrate anew was 6% of a full
// assessment.
var rangeFactors sync.Map

func meanRangeOf(n int) float64 {
	return quad.Fixed(func(x float64) float64 {
		p := distuv.UnitNormal.CDF(x)
		return 1 - math.Pow(p, float64(n)) - math.Pow(1-p, float64(n))
	}, -reach, reach, points, nil, 0)
}

// NoiseFloor returns the spread that n readings of repeatability s have on the
// average even where nothing differs, in the unit of s. A spread, out-of-round
// or overall, that is no larger is not seen. ok is false with fewer than two.
func NoiseFloor(n int, s float64) (floor float64, ok bool) {
	d2, ok := RangeFactor(n)
	return d2 * s, ok
}

// rangeSquare returns the mean of the square of that range.
//
// Derivation: R is the integral over x of whether the smallest is below x and
// the largest above, so R² is twice that integral over x < y of whether the
// smallest is below x and the largest above y, whose chance is
// 1 - Φ(y)ⁿ - (1 - Φ(x))ⁿ + (Φ(y) - Φ(x))ⁿ.
func rangeSquare(n int) float64 {
	power := func(p float64) float64 { return math.Pow(p, float64(n)) }
	return 2 * quad.Fixed(func(x float64) float64 {
		px := distuv.UnitNormal.CDF(x)
		return quad.Fixed(func(y float64) float64 {
			py := distuv.UnitNormal.CDF(y)
			return 1 - power(py) - power(1-px) + power(max(0, py-px))
		}, x, reach, planePoints, nil, 0)
	}, -reach, reach, planePoints, nil, 0)
}

// DeviationFactor returns what the range of n readings is multiplied with to
// have their standard deviation when there is only this one range: 0.7071,
// 0.5231, 0.4467 and 0.3146 for 2, 3, 4 and 10. It is the K2 and K3 of a study
// by average and range. ok is false with fewer than two.
//
// Source: 1/d2* for one sample (AIAG MSA manual, appendix C, from memory),
// computed as one over the root of the mean square of the range.
func DeviationFactor(n int) (k float64, ok bool) {
	if n < 2 {
		return 0, false
	}
	return 1 / math.Sqrt(rangeSquare(n)), true
}

// MeanRangeFactor returns what the mean of many ranges of n readings is
// multiplied with to have their standard deviation: 0.8862 and 0.5908 for 2 and
// 3. It is the K1 of a study by average and range, 1/d2. ok is false with fewer
// than two.
func MeanRangeFactor(n int) (k float64, ok bool) {
	d2, ok := RangeFactor(n)
	if !ok {
		return 0, false
	}
	return 1 / d2, true
}
