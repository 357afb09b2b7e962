package match

import (
	"cmp"
	"math"
)

// Margin is a share of the margin used, in billionths: 0 at the target, 1e9 on
// a limit. It lies between 0 and Most.
type Margin int64

// The margin on a limit, and the largest there is.
const (
	OnLimit Margin = 1_000_000_000
	Most           = 1_000_000 * OnLimit
)

// MarginOf returns a share as a margin, rounded to the nearest billionth; what
// is no number is Most.
func MarginOf(share float64) Margin {
	switch {
	case math.IsNaN(share) || share >= float64(Most/OnLimit):
		return Most
	case share <= 0:
		return 0
	}
	return Margin(math.Round(share * float64(OnLimit)))
}

// Share returns the margin as a share, 1 on a limit.
func (m Margin) Share() float64 { return float64(m) / float64(OnLimit) }

// Cost is what it means to put one part into one position.
type Cost struct {
	// May says that it goes there at all.
	May bool
	// Outside says that it would be outside its limits.
	Outside bool
	// Margin is the share of the margin it would use.
	Margin Margin
}

// Score is how good a whole arrangement is. The zero value is that of nothing
// to arrange; no score is better.
type Score struct {
	// Unfilled is how many positions have nothing.
	Unfilled int
	// Outside is how many are outside their limits.
	Outside int
	// Breaches is how many neighbours are too far apart, of a Chain.
	Breaches int
	// Worst is the largest margin used, Sum what all use together.
	Worst, Sum Margin
	// Moved is how many are not as they are now.
	Moved int
}

// Compare returns -1 when s is better than o, 0 when they are equal and 1 when
// it is worse.
func (s Score) Compare(o Score) int {
	return cmp.Or(
		cmp.Compare(s.Unfilled, o.Unfilled),
		cmp.Compare(s.Outside, o.Outside),
		cmp.Compare(s.Breaches, o.Breaches),
		cmp.Compare(s.Worst, o.Worst),
		cmp.Compare(s.Sum, o.Sum),
		cmp.Compare(s.Moved, o.Moved),
	)
}

// Gains reports whether s is better than o in more than how many are moved.
func (s Score) Gains(o Score) bool {
	s.Moved, o.Moved = 0, 0
	return s.Compare(o) < 0
}

// Same reports whether s and o differ in no more than how many are moved.
func (s Score) Same(o Score) bool { return !s.Gains(o) && !o.Gains(s) }

// with returns the score with one more position that costs this.
func (s Score) with(c Cost) Score {
	if !c.May {
		s.Unfilled++
		return s
	}
	if c.Outside {
		s.Outside++
	}
	s.Worst, s.Sum = max(s.Worst, c.Margin), s.Sum+c.Margin
	return s
}
