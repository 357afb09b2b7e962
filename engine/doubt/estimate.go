package doubt

import (
	"math"

	"borewright/engine/length"
)

// Estimate is a repeatability: the standard deviation of one reading, in
// picometres, and its degrees of freedom. The zero value is none.
type Estimate struct {
	S  float64
	DF int
}

// Known reports whether there is an estimate.
func (e Estimate) Known() bool { return e.DF > 0 }

// Length returns the standard deviation rounded half to even to 1 pm.
func (e Estimate) Length() length.Length { return length.Length(math.RoundToEven(e.S)) }

// Pool returns the repeatability of a gauge from groups of repeats, each the
// readings of one place, with what was known of it before. A group of one says
// nothing. The squares are of what the readings of a group differ by, which is
// exact, so that large sizes lose no digit.
func Pool(past Estimate, groups ...[]length.Length) Estimate {
	df := max(past.DF, 0)
	squares := past.S * past.S * float64(df)
	for _, g := range groups {
		if len(g) > 1 {
			df += len(g) - 1
			squares += sumSquares(shifted(g, g[0]))
		}
	}
	if df == 0 {
		return Estimate{}
	}
	return Estimate{S: math.Sqrt(squares / float64(df)), DF: df}
}
