package fit

import (
	"slices"

	"borewright/engine/length"
)

// Hone says what it takes to hone a bore to a size. Honing takes stock all
// round: what differs is how much there is to take at each level, so the advice
// is where to dwell, never in which direction. Everything is diametral.
type Hone struct {
	Target length.Exact
	// Stock is what there is to take at each level: the target less the
	// smallest reading there. It is not measured where nothing was read.
	Stock []length.Exact
	// Least is the smallest target that is possible: the largest reading and
	// the finish allowance.
	Least length.Exact
	// Possible says that the target is at least that.
	Possible bool
	// Dwell are the levels where more than the least is to be taken, the one
	// with most first.
	Dwell []int
}

// HoneTo says what it takes to hone a bore, as read at [level][direction], to a
// target. The allowance is what finishing takes off the largest place at least.
// Without readings nothing is possible.
func HoneTo(bore [][]length.Exact, target, allowance length.Exact) Hone {
	h := Hone{Target: target, Least: length.Max(slices.Concat(bore...)...).Add(allowance)}
	for _, row := range bore {
		h.Stock = append(h.Stock, target.Sub(length.Min(row...)))
	}
	h.Possible = target.Measured() && h.Least.Measured() && target.Cmp(h.Least) >= 0
	for i := range h.Stock {
		if h.Extra(i).Sign() > 0 {
			h.Dwell = append(h.Dwell, i)
		}
	}
	slices.SortStableFunc(h.Dwell, func(a, b int) int { return h.Stock[b].Cmp(h.Stock[a]) })
	return h
}

// Extra returns how much more there is to take at a level than where least is.
func (h Hone) Extra(level int) length.Exact {
	return h.Stock[level].Sub(length.Min(h.Stock...))
}

// RoundUp returns the smallest whole number of steps that is at least e, and e
// itself without a step.
func RoundUp(e length.Exact, step length.Length) length.Exact {
	if !e.Measured() || step <= 0 {
		return e
	}
	l := e.Round()
	if length.Of(l).Cmp(e) < 0 {
		l++
	}
	if over := l % step; over > 0 {
		l += step - over
	} else {
		l -= over
	}
	return length.Of(l)
}
