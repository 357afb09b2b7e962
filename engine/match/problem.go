package match

import (
	"slices"
	"sort"
)

// None is the position of a part that has none.
const None = -1

// Problem is parts and positions, of which each part takes one and each
// position has one. There may be more of either.
type Problem struct {
	// Costs are [part][position]; every part has all positions.
	Costs [][]Cost
	// Now is where each part is now, None for one that is nowhere. It may be
	// empty.
	Now []int
}

// Result is an arrangement and how good it is.
type Result struct {
	// At is the position of each part, None for one that is put aside.
	At []int
	Score
}

// Only keeps a part to these positions.
func (p *Problem) Only(part int, positions ...int) {
	for at := range p.Costs[part] {
		if !slices.Contains(positions, at) {
			p.Costs[part][at].May = false
		}
	}
}

// Lock keeps a part where it is put, and every other part away from there.
func (p *Problem) Lock(part, position int) {
	p.Only(part, position)
	for other := range p.Costs {
		if other != part {
			p.Costs[other][position].May = false
		}
	}
}

// Score returns how good an arrangement is.
func (p Problem) Score(at []int) Score {
	var s Score
	filled := 0
	for part, position := range at {
		if p.moved(part, position) {
			s.Moved++
		}
		if position == None || !p.Costs[part][position].May {
			continue
		}
		filled++
		s = s.with(p.Costs[part][position])
	}
	s.Unfilled = p.positions() - filled
	return s
}

// Best returns the best arrangement: see Score. What is not allowed is not
// done, a position stays empty instead.
func (p Problem) Best() Result {
	best := p.within(Most)
	// The smallest worst margin with which no more are unfilled or outside.
	margins := p.margins()
	i := sort.Search(len(margins), func(i int) bool {
		s := p.Score(p.within(margins[i]))
		whole := p.Score(best)
		return s.Unfilled == whole.Unfilled && s.Outside == whole.Outside
	})
	if i < len(margins) {
		best = p.within(margins[i])
	}
	return Result{best, p.Score(best)}
}

// within returns the arrangement with the most filled, then the fewest
// outside, the smallest sum and the fewest moved, of those that use no larger
// margin than most.
func (p Problem) within(most Margin) []int {
	n := max(len(p.Costs), p.positions())
	table := make([][]price, n)
	for part := range table {
		table[part] = make([]price, n)
		for at := range table[part] {
			table[part][at] = p.price(part, at, most)
		}
	}
	out := assign(table)[:len(p.Costs)]
	for part, at := range out {
		if at >= p.positions() || !p.allowed(part, at, most) {
			out[part] = None
		}
	}
	return out
}

// price returns what a part at a position adds. A part or position that is
// none, making the numbers of both equal, leaves the other one empty.
func (p Problem) price(part, at int, most Margin) price {
	var out price
	switch {
	case at >= p.positions():
	case part >= len(p.Costs) || !p.allowed(part, at, most):
		out.unfilled = 1
	default:
		c := p.Costs[part][at]
		out.sum = c.Margin
		if c.Outside {
			out.outside = 1
		}
		if p.moved(part, at) {
			out.moved = 1
		}
		return out
	}
	if part < len(p.Costs) && p.moved(part, None) {
		out.moved = 1
	}
	return out
}

func (p Problem) allowed(part, at int, most Margin) bool {
	c := p.Costs[part][at]
	return c.May && c.Margin <= most
}

func (p Problem) moved(part, at int) bool { return len(p.Now) > 0 && p.Now[part] != at }

func (p Problem) positions() int {
	if len(p.Costs) == 0 {
		return 0
	}
	return len(p.Costs[0])
}

// margins returns every margin of the table once, smallest first.
func (p Problem) margins() []Margin {
	var out []Margin
	for _, row := range p.Costs {
		for _, c := range row {
			if c.May {
				out = append(out, c.Margin)
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}
