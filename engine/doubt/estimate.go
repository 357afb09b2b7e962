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
// readings of one place, with what was known of it before.
func Pool(past Estimate, groups ...[]length.Length) Estimate {
	p := NewPooling(past)
	for _, g := range groups {
		p.Add(g)
	}
	return p.Estimate()
}

// Pooling is a repeatability that one group of repeats after another is added to.
type Pooling struct {
	sum  Squares
	room []float64
}

// NewPooling begins with what was known before.
func NewPooling(past Estimate) *Pooling {
	df := max(past.DF, 0)
	return &Pooling{sum: Squares{past.S * past.S * float64(df), df}}
}

// Add adds the readings of one place. A group of one says nothing. The squares are
// of what the readings of a group differ by, which is exact, so that large sizes
// lose no digit.
func (p *Pooling) Add(group []length.Length) {
	if len(group) < 2 {
		return
	}
	p.room = appendShifted(p.room[:0], group, group[0])
	p.sum.DF += len(group) - 1
	p.sum.SS += sumSquares(p.room)
}

// Estimate returns the repeatability so far.
func (p *Pooling) Estimate() Estimate {
	if p.sum.DF == 0 {
		return Estimate{}
	}
	return Estimate{S: math.Sqrt(p.sum.SS / float64(p.sum.DF)), DF: p.sum.DF}
}
