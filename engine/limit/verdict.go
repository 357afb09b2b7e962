package limit

import "borewright/engine/length"

// Verdict is whether a figure keeps to its limits. The zero value is
// NotMeasured.
type Verdict uint8

// The verdicts.
const (
	NotMeasured Verdict = iota
	InsideNew           // inside the new limits
	InsideWear          // inside the wear limits; not, or not known to be, inside new ones
	Outside             // outside the limits that judge
	TooClose            // nearer to a limit than the doubt, where the session guards its limits
	NoLimits            // measured, but there is nothing to judge it by
)

// String returns the verdict in words.
func (v Verdict) String() string {
	switch v {
	case InsideNew:
		return "inside"
	case InsideWear:
		return "inside, wear only"
	case Outside:
		return "outside"
	case TooClose:
		return "too close to call"
	case NoLimits:
		return "no limits"
	default:
		return "not measured"
	}
}

// Inside reports whether the verdict is InsideNew or InsideWear.
func (v Verdict) Inside() bool { return v == InsideNew || v == InsideWear }

// outside reports whether y is above the high limit or below the low one.
// Exactly on a limit is inside.
func (r Range) outside(y length.Exact) bool {
	return !r.High.IsZero() && y.CmpLength(r.High.Length) > 0 ||
		!r.Low.IsZero() && y.CmpLength(r.Low.Length) < 0
}

// widened returns the range with u added on the outside of each limit, or
// taken off it when u is below zero.
func (r Range) widened(u length.Length) Range {
	if !r.Low.IsZero() {
		r.Low.Length -= u
	}
	if !r.High.IsZero() {
		r.High.Length += u
	}
	return r
}

// clearlyInside and clearlyOutside are the decision rule of ISO 14253-1 and
// JCGM 106 with a guard band u: inside if low + u <= y <= high - u, outside if
// y < low - u or y > high + u. Between the two it is too close to call.
func (r Range) clearlyInside(y length.Exact, u length.Length) bool {
	return !r.widened(-u).outside(y)
}

func (r Range) clearlyOutside(y length.Exact, u length.Length) bool {
	return r.widened(u).outside(y)
}
