package limit

import "cmp"

// Compare orders judgements worst first: negative when a is worse than b.
// Outside comes first, then too close to call, suspect, not measured, inside,
// and last what has no limits. Suspect ranks only what is inside. Among equals
// the one that uses more of its margin is the worse, and one without a rank
// comes after those that have one. What still compares equal keeps its order
// under a stable sort, such as slices.SortStableFunc.
func Compare(a, b Judgement) int {
	if c := cmp.Compare(a.place(), b.place()); c != 0 {
		return c
	}
	return cmp.Compare(b.used(), a.used())
}

// Less reports whether a is worse than b.
func Less(a, b Judgement) bool { return Compare(a, b) < 0 }

// place returns the place of the verdict in the order.
func (j Judgement) place() int {
	switch j.Verdict {
	case Outside:
		return 0
	case TooClose:
		return 1
	case NotMeasured:
		return 3
	case NoLimits:
		return 5
	default:
		if j.Suspect {
			return 2
		}
		return 4
	}
}

// used returns the margin, and less than any margin without a rank.
func (j Judgement) used() float64 {
	if !j.Ranked {
		return -1
	}
	return j.Margin
}
