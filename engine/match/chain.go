package match

import "slices"

// Option is one thing that a position may get.
type Option struct {
	Cost
	// Uses are the items of the stock that it takes, one of each naming.
	Uses []int
	// Moved says that it changes what is there now.
	Moved bool
}

// Chain is positions in a row, an option for each to choose, what is on hand
// and which neighbours do not go together.
type Chain struct {
	// Options are [position][option].
	Options [][]Option
	// Stock is how many there are of each item.
	Stock []int
	// Apart reports whether option a of a position and option b of the next
	// one are too far apart; nil when no neighbours are.
	Apart func(position, a, b int) bool
}

// Choice is an option for every position and how good that is.
type Choice struct {
	// Of is the option of each position, None where there is nothing for it.
	Of []int
	Score
	// Proven says that no choice is better; without it the search was stopped
	// and there may be one.
	Proven bool
}

// Score returns how good a choice is, and whether the stock suffices for it.
func (c Chain) Score(of []int) (s Score, ok bool) {
	left := slices.Clone(c.Stock)
	before := None
	for position, option := range of {
		if option != None && !take(left, c.Options[position][option].Uses) {
			return Score{}, false
		}
		s = c.add(s, position, before, option)
		before = option
	}
	return s, true
}

// add returns the score with one more position.
func (c Chain) add(s Score, position, before, option int) Score {
	if option == None {
		return s.with(Cost{})
	}
	o := c.Options[position][option]
	s = s.with(o.Cost)
	if o.Moved {
		s.Moved++
	}
	if before != None && c.Apart != nil && c.Apart(position-1, before, option) {
		s.Breaches++
	}
	return s
}

// take takes items from what is left; when one is lacking it takes none.
func take(left, items []int) bool {
	for i, item := range items {
		left[item]--
		if left[item] < 0 {
			give(left, items[:i+1])
			return false
		}
	}
	return true
}

func give(left, items []int) {
	for _, item := range items {
		left[item]++
	}
}

// Best returns the best choice, looking at no more than so many options; some
// choice comes back however few that is. It goes from position to position,
// the cheapest option first, and turns back where even the cheapest of all that
// is still to come would not be better than what was found.
func (c Chain) Best(looks int) Choice {
	s := &search{Chain: c, left: slices.Clone(c.Stock), looks: looks, of: make([]int, len(c.Options))}
	s.order = make([][]int, len(c.Options))
	s.ahead = make([]Score, len(c.Options)+1)
	for p := len(c.Options) - 1; p >= 0; p-- {
		s.order[p] = c.cheapestFirst(p)
		s.ahead[p] = join(s.ahead[p+1], c.cheapest(p))
	}
	s.from(0, None, Score{})
	return Choice{Of: s.best, Score: s.score, Proven: s.looks > 0}
}

// cheapestFirst returns the options of a position in the order of their cost,
// none at the end.
func (c Chain) cheapestFirst(position int) []int {
	var out []int
	for i, o := range c.Options[position] {
		if o.May {
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int {
		return c.add(Score{}, position, None, a).Compare(c.add(Score{}, position, None, b))
	})
	return append(out, None)
}

// cheapest returns a score that no option of a position is better than in
// anything.
func (c Chain) cheapest(position int) Score {
	least := Score{Unfilled: 1}
	for i, o := range c.Options[position] {
		if !o.May {
			continue
		}
		s := c.add(Score{}, position, None, i)
		if least.Unfilled == 1 {
			least = s
			continue
		}
		least.Outside, least.Moved = min(least.Outside, s.Outside), min(least.Moved, s.Moved)
		least.Worst, least.Sum = min(least.Worst, s.Worst), min(least.Sum, s.Sum)
	}
	return least
}

// join returns the score of two parts of a whole.
func join(a, b Score) Score {
	return Score{
		Unfilled: a.Unfilled + b.Unfilled, Outside: a.Outside + b.Outside, Breaches: a.Breaches + b.Breaches,
		Worst: max(a.Worst, b.Worst), Sum: a.Sum + b.Sum, Moved: a.Moved + b.Moved,
	}
}

// search is a search under way.
type search struct {
	Chain
	order [][]int
	ahead []Score // the least that is still to come, from a position on
	left  []int
	looks int
	of    []int
	best  []int
	score Score
}

// from chooses for a position and all behind it.
func (s *search) from(position, before int, so Score) {
	if position == len(s.Options) {
		s.best, s.score = slices.Clone(s.of), so
		return
	}
	for _, option := range s.order[position] {
		if s.looks <= 0 && s.best != nil {
			return
		}
		s.looks--
		s.choose(position, before, option, so)
	}
}

func (s *search) choose(position, before, option int, so Score) {
	var uses []int
	if option != None {
		uses = s.Options[position][option].Uses
	}
	so = s.add(so, position, before, option)
	if s.best != nil && join(so, s.ahead[position+1]).Compare(s.score) >= 0 || !take(s.left, uses) {
		return
	}
	s.of[position] = option
	s.from(position+1, option, so)
	give(s.left, uses)
}
