package doubt

import (
	"math"
	"slices"
)

// Figure is a sum of readings with weights, as every figure of a feature is: a
// size, a mean, a taper, an out-of-round, a clearance. The zero value is of no
// readings.
type Figure struct {
	terms []term
	over  float64 // weights are divided by this; 0 for no terms
}

// term is one reading, which is not changed, with its weight.
type term struct {
	reading *Reading
	weight  float64
}

// Of returns the figure that is the reading itself.
func Of(r Reading) Figure { return Figure{[]term{{&r, 1}}, 1} }

// Mean returns the mean of readings, each counting once.
func Mean(rs ...Reading) Figure {
	f := Figure{over: float64(len(rs))}
	for i := range rs {
		f.terms = append(f.terms, term{&rs[i], 1})
	}
	return f
}

// Weighted returns Σ weights[i]·rs[i] / over. Weights that are whole numbers,
// and cancel, cancel exactly. It is of no readings where over is 0 or there is
// not one weight for each.
func Weighted(rs []Reading, weights []float64, over float64) Figure {
	if len(rs) != len(weights) || over == 0 {
		return Figure{}
	}
	f := Figure{over: over}
	for i := range rs {
		f.terms = append(f.terms, term{&rs[i], weights[i]})
	}
	return f
}

// SlopeTaper returns the figure of what the least-squares line through readings
// at these depths, in picometres, has between the first depth and the last: the
// first end less the last, + larger at the head end or front. It is of no
// readings where the first and the last depth are one.
func SlopeTaper(rs []Reading, depths []float64) Figure {
	if len(depths) < 2 || depths[0] == depths[len(depths)-1] {
		return Figure{}
	}
	n, sum, squares := float64(len(depths)), 0.0, 0.0
	for _, d := range depths {
		sum += d - depths[0]
	}
	weights := make([]float64, len(depths))
	for i, d := range depths {
		weights[i] = n*(d-depths[0]) - sum
		squares += weights[i] * weights[i]
	}
	return Weighted(rs, weights, squares/n/(depths[0]-depths[len(depths)-1]))
}

// Less returns f - g.
func (f Figure) Less(g Figure) Figure { return f.plus(g, -1) }

// Plus returns f + g.
func (f Figure) Plus(g Figure) Figure { return f.plus(g, 1) }

// Times returns f so many times; by must not be 0.
func (f Figure) Times(by float64) Figure {
	f.over /= by
	return f
}

func (f Figure) plus(g Figure, sign float64) Figure {
	out := Figure{terms: make([]term, 0, len(f.terms)+len(g.terms))}
	out.add(f, 1)
	out.add(g, sign)
	return out
}

// add adds sign·g in place. It brings both over one number, so that whole weights
// stay whole.
func (f *Figure) add(g Figure, sign float64) {
	switch {
	case g.over == 0:
		return
	case f.over == 0:
		f.over = g.over
	case f.over != g.over:
		sign *= f.over
		for i := range f.terms {
			f.terms[i].weight *= g.over
		}
		f.over *= g.over
	}
	for _, t := range g.terms {
		f.terms = append(f.terms, term{t.reading, sign * t.weight})
	}
}

// Places returns how many places the figure rests on: those whose readings do
// not cancel.
func (f Figure) Places() int {
	weights := map[string]float64{}
	for _, t := range f.terms {
		weights[t.reading.Key] += t.weight
	}
	n := 0
	for _, w := range weights {
		if w != 0 {
			n++
		}
	}
	return n
}

// Budget adds up why the figure may be wrong. The error is a *BadContribution.
func (f Figure) Budget() (Budget, error) { return f.repeated(0) }

// repeated returns the budget when every place has been read more times.
func (f Figure) repeated(more int) (Budget, error) {
	var room [few]Contribution
	cs := f.withRoom(room[:0])
	for _, t := range f.terms {
		r := *t.reading
		r.Count = max(r.Count, 1) + more
		cs = r.contribute(cs, t.weight)
	}
	return f.combined(cs)
}

// unrepeated returns the budget of what no repeating makes smaller.
func (f Figure) unrepeated() (Budget, error) {
	var room [few]Contribution
	cs := f.withRoom(room[:0])
	for _, t := range f.terms {
		r := *t.reading
		r.Repeat = Estimate{}
		cs = r.contribute(cs, t.weight)
	}
	return f.combined(cs)
}

// few is how many contributions, sources and lines are added up on the stack: most
// figures have no more. In lists they were a fourteenth of what a full assessment allocated.
const few = 16

// withRoom makes room for every contribution in an empty list.
func (f Figure) withRoom(cs []Contribution) []Contribution {
	n := len(f.terms)
	for _, t := range f.terms {
		n += len(t.reading.Common)
	}
	return slices.Grow(cs, n)
}

func (f Figure) combined(cs []Contribution) (Budget, error) {
	for _, c := range cs {
		if err := c.Validate(); err != nil {
			return Budget{}, err
		}
	}
	return combine(cs, math.Abs(f.over)), nil
}

// contribute adds to a list all that may be wrong with a reading, as it moves a
// figure that it is in with a weight.
func (r *Reading) contribute(cs []Contribution, weight float64) []Contribution {
	had := len(cs)
	cs = append(append(cs, r.own()), r.Common...)
	for i := range cs[had:] {
		cs[had+i].Sensitivity *= weight
	}
	return cs
}
