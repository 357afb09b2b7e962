package engine

import (
	"borewright/engine/length"
	"borewright/engine/match"
	"borewright/engine/plan"
)

// ShellPlan is which shells are in along a crank, and which of those on hand
// would be best.
type ShellPlan struct {
	// Bearing is the family of the bearings: of the mains or of the rods.
	Bearing plan.Family
	Rows    []ShellRow
	// Now is how good the clearances are as they are, Best how good they could
	// be with what is on hand; Proven says that nothing on hand is better.
	Now, Best match.Score
	Proven    bool
	// Changes bring the best about; none when nothing is gained.
	Changes []Change
	// Missing says in sentences what was left out and why.
	Missing []string
}

// ShellRow is one bearing: the halves that are in and those that are best, each
// with the worst finding of the clearance that they make.
type ShellRow struct {
	At   int
	Name string
	// Upper and Lower are the halves, BestUpper and BestLower the names of the
	// shells that are best for them, "" to leave what is in.
	Upper, Lower         plan.Feature
	BestUpper, BestLower string
	NowFit, BestFit      Finding
	// Shift is by how much the best move the centre line, + towards the upper.
	Shift length.Exact
}

// mayChange reports, by its present finding, whether a bearing's shells may be
// changed.
type mayChange func(f Finding) bool

// Shells finds the best of the shells on hand for every bearing of a family.
func (s *Session) Shells(a *Assessment, bearing plan.Family) ShellPlan {
	return s.shellPlan(a, bearing, func(Finding) bool { return true })
}

// shellPlan is Shells where only those bearings change for whose present
// finding may says so.
func (s *Session) shellPlan(a *Assessment, bearing plan.Family, may mayChange) ShellPlan {
	x := s.newShellChooser(a, bearing, may)
	x.bearings()
	x.choose()
	return x.out
}
