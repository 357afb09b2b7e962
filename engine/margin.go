package engine

import (
	"math"
	"strconv"

	"borewright/engine/limit"
)

// VerdictText is a verdict in words, with the mark of what rests on a doubtful
// setting.
func VerdictText(j limit.Judgement) string {
	if j.Suspect {
		return j.Verdict.String() + ", suspect"
	}
	return j.Verdict.String()
}

// MarginText writes a margin used with two decimals. One that is above 1 never
// shows as 1.00, nor one below as 1.00: it rounds away from the limit.
func MarginText(m float64) string {
	r := math.Round(m*100) / 100
	switch {
	case m > 1 && r <= 1:
		r = 1.01
	case m < 1 && r >= 1:
		r = 0.99
	}
	return strconv.FormatFloat(r, 'f', 2, 64)
}
