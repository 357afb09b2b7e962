package engine

import (
	"borewright/engine/length"
	"borewright/engine/limit"
)

// LimitText returns a limit as it was written, with its unit, and what that is
// in the unit asked for when it was written in another. NoUnit leaves the unit
// away.
func LimitText(w length.Written, u length.Unit) string {
	switch u {
	case length.NoUnit:
		return w.Number()
	case w.Unit:
		return w.String()
	default:
		return limitNumber(w, u) + " " + u.String() + " (" + w.String() + ")"
	}
}

// bothText returns a range with both ends as LimitText does one, the units said
// once: "3.7500 to 3.7510 in", "95.2500 to 95.2754 mm (3.7500 to 3.7510 in)".
func bothText(r limit.Range, u length.Unit) string {
	written := r.Low.Number() + " to " + r.High.String()
	switch {
	case r.Low.Unit != r.High.Unit:
		return LimitText(r.Low, u) + " to " + LimitText(r.High, u)
	case r.High.Unit == u:
		return written
	default:
		return limitNumber(r.Low, u) + " to " + limitNumber(r.High, u) + " " + u.String() + " (" + written + ")"
	}
}

// limitNumber writes a limit in a unit: as it stands in its own, with one
// decimal more than usual in another.
func limitNumber(w length.Written, u length.Unit) string {
	if w.Unit == u {
		return w.Number()
	}
	return w.Exact().Format(u, u.Decimals()+1)
}
