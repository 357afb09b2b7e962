package prep

import (
	"slices"
	"time"

	"borewright/engine/plan"
)

// Fact is something that happened to the prep of a session: one of a list set,
// a tick, or work on metal.
type Fact struct {
	// N is the event that said so.
	N  int64     `json:"n,omitempty"`
	At time.Time `json:"at,omitzero"`
	By string    `json:"by,omitempty"`
	// After is the event that work keyed late really followed, else 0.
	After int64 `json:"after,omitempty"`
	// Set says that List is the list from now on.
	Set  bool  `json:"set,omitempty"`
	List List  `json:"list,omitempty"`
	Tick *Tick `json:"tick,omitempty"`
	Work *Work `json:"work,omitempty"`
}

// Work is work on metal.
type Work struct {
	Did string         `json:"did"`
	On  []plan.Feature `json:"on,omitempty"`
}

// Before reports whether a fact happened before another: work keyed late stands
// right behind the event that it really followed.
func (f Fact) Before(g Fact) bool {
	a, b := f.when(), g.when()
	if a != b {
		return a < b
	}
	return f.After == 0 && g.After > 0 || (f.After > 0) == (g.After > 0) && f.N < g.N
}

func (f Fact) when() int64 {
	if f.After > 0 {
		return f.After
	}
	return f.N
}

// Fold returns the state after facts, whichever order they are given in.
func Fold(facts []Fact) State {
	sorted := slices.Clone(facts)
	slices.SortStableFunc(sorted, func(f, g Fact) int {
		switch {
		case f.Before(g):
			return -1
		case g.Before(f):
			return 1
		default:
			return 0
		}
	})
	s := State{}.clone()
	for _, f := range sorted {
		s.apply(f)
	}
	return s
}
