package doubt

import "borewright/engine/length"

// Groups is what groups of readings say: whether they differ by more than the
// readings of a group do (one-way analysis of variance).
type Groups struct {
	Between, Within Squares
	// F is the one mean square over the other, and P the chance of one so large
	// where the groups do not differ; both 0 where Within leaves nothing.
	F, P float64
}

// Compare returns what groups of readings say. Empty groups say nothing.
func Compare(groups ...[]length.Length) Groups {
	var all []float64
	var g Groups
	var from length.Length
	for _, group := range groups {
		if len(group) == 0 {
			continue
		}
		if len(all) == 0 {
			from, g.Between.DF = group[0], -1
		}
		x := shifted(group, from)
		all = append(all, x...)
		g.Within = g.Within.plus(Squares{sumSquares(x), len(x) - 1})
		g.Between.DF++
	}
	g.Between.SS = max(0, sumSquares(all)-g.Within.SS)
	g.F, g.P, _ = g.Between.ratio(g.Within)
	return g
}
