package limit

import (
	"gonum.org/v1/gonum/stat/distuv"

	"borewright/engine/length"
)

// Chance returns the probability, 0 to 1, that the true value lies in the
// range when y was measured with a standard uncertainty of u picometres, the
// value being taken as normal about y (JCGM 106:2012, 7.2 to 7.4). On the limit
// of a one-sided range it is 0.5 whatever u. With u 0, or below, it is 1 or 0
// as y is inside. It is 0 for a y that is not measured.
func (r Range) Chance(y length.Exact, u float64) float64 {
	switch {
	case !y.Measured():
		return 0
	case u <= 0 && r.outside(y):
		return 0
	case u <= 0:
		return 1
	}
	below, above := 0.0, 0.0
	if !r.Low.IsZero() {
		below = distuv.UnitNormal.CDF(r.Low.Exact().Sub(y).Float() / u)
	}
	if !r.High.IsZero() {
		above = distuv.UnitNormal.CDF(y.Sub(r.High.Exact()).Float() / u)
	}
	return max(0, 1-below-above)
}
