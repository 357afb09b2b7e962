package form

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat/distuv"
)

// RangeFactor returns the mean of the largest less the smallest of n normal
// readings, in standard deviations of one of them: 1.128, 1.693, 2.059, 2.326
// and 2.534 for 2 to 6. A spread of n readings has this noise floor even on a
// part without any form error. ok is false with fewer than two.
//
// Source: the control-chart constant d2 (ASTM MNL 7). It is computed as the
// integral of 1 - Φⁿ - (1 - Φ)ⁿ over all x, Φ being the normal distribution.
func RangeFactor(n int) (d2 float64, ok bool) {
	if n < 2 {
		return 0, false
	}
	const reach, points = 9, 120 // beyond 9 standard deviations nothing is left
	return quad.Fixed(func(x float64) float64 {
		p := distuv.UnitNormal.CDF(x)
		return 1 - math.Pow(p, float64(n)) - math.Pow(1-p, float64(n))
	}, -reach, reach, points, nil, 0), true
}
