package engine

import (
	"slices"

	"borewright/engine/match"
	"borewright/engine/plan"
)

// Arrangement is where the loose parts of a kind sit, and where they would sit
// best.
type Arrangement struct {
	// Part is the family of the parts: pistons, rods or shells. Of a shell the
	// two halves stay together.
	Part plan.Family
	// Seats are the positions that are arranged, in their order.
	Seats []Seating
	// Now is how good the arrangement is as it is, Best how good it could be, and
	// Numbered how good with every part at its own number.
	Now, Best, Numbered match.Score
	// Changes bring the best about; none when nothing is gained.
	Changes []Change
	// Missing says in sentences what was left out and why.
	Missing []string
}

// Seating is one position, the part that is there and the one that is best
// there, each with the worst finding of the clearance that they make. A part is
// none where there is none.
type Seating struct {
	At   int
	Name string
	// Seat is the position as what is cut there: a bore, a housing.
	Seat            plan.Feature
	Now, Best       plan.Feature
	NowFit, BestFit Finding
}

// Arranged returns the kinds of parts that a session can arrange: those whose
// clearances are planned.
func (s *Session) Arranged() []plan.Family {
	var out []plan.Family
	for _, k := range arranged {
		if s.planned(k.reads) && s.planned(k.hole) && s.planned(k.shaft) {
			out = append(out, k.part)
		}
	}
	return out
}

// arrangedKind is a kind of parts to arrange.
type arrangedKind struct {
	part plan.Family
	// reads is the family of which a part must be read, hole and shaft those
	// that make the clearance.
	reads, hole, shaft plan.Family
	// pair is what a part makes at a position; ok is false when there is nothing
	// to meet there.
	pair func(s *Session, part, at int) (pair, bool)
}

var arranged = []arrangedKind{
	{plan.Piston, plan.Piston, plan.Bore, plan.Piston, pistonAt},
	{plan.Rod, plan.RodBearing, plan.RodBearing, plan.RodJournal, rodAt},
	{plan.ShellMain, plan.ShellMain, plan.MainHousing, plan.MainJournal, mainShellsAt},
	{plan.ShellRod, plan.ShellRod, plan.RodHousing, plan.RodJournal, rodShellsAt},
}

func pistonAt(_ *Session, part, at int) (pair, bool) {
	return pair{hole: plan.Feature{Family: plan.Bore, At: at}, shaft: plan.Feature{Family: plan.Piston, At: part}, at: []int{at}}, true
}

func rodAt(s *Session, part, at int) (pair, bool) {
	p, _ := s.pairAt(plan.RodBearing, plan.RodJournal, at)
	p.hole = plan.Feature{Family: plan.RodBearing, At: part}
	return p, !p.shaft.IsZero()
}

func mainShellsAt(s *Session, part, at int) (pair, bool) {
	p, ok := s.pairAt(plan.MainBearing, plan.MainJournal, at)
	p.parts = shells{s.FeatureAt(plan.MainHousing, "", at), halfOf(plan.ShellMain, part, plan.Upper), halfOf(plan.ShellMain, part, plan.Lower)}
	return p, ok
}

func rodShellsAt(s *Session, part, at int) (pair, bool) {
	p, ok := s.pairAt(plan.RodBearing, plan.RodJournal, at)
	p.parts = shells{s.FeatureAt(plan.RodHousing, "", at), halfOf(plan.ShellRod, part, plan.Upper), halfOf(plan.ShellRod, part, plan.Lower)}
	return p, ok
}

func halfOf(shell plan.Family, at int, part string) plan.Feature {
	return plan.Feature{Family: shell, At: at, Part: part}
}

// Arrange finds the best positions for the parts of a kind.
func (s *Session) Arrange(a *Assessment, part plan.Family) Arrangement {
	i := slices.IndexFunc(arranged, func(k arrangedKind) bool { return k.part == part })
	if i < 0 {
		return Arrangement{Part: part, Missing: []string{part.Plural() + " are not arranged"}}
	}
	x := &arranger{s: s, a: a, kind: arranged[i]}
	x.out.Part = part
	x.positions()
	x.parts()
	x.costs()
	x.locks()
	x.choose()
	return x.out
}

// choose finds the best and says what it takes.
func (x *arranger) choose() {
	best := x.problem.Best()
	x.out.Now, x.out.Best = x.problem.Score(x.problem.Now), best.Score
	x.out.Numbered = x.problem.Score(x.numbered())
	if !best.Gains(x.out.Now) {
		best.At = x.problem.Now
		x.out.Best = x.out.Now
	}
	for i, at := range x.at {
		there := plan.Feature{Family: x.seat(), At: at}
		seat := Seating{At: at, Name: x.s.Name(there), Seat: there}
		for k, part := range x.part {
			if x.problem.Now[k] == i {
				seat.Now, seat.NowFit = x.feature(part), x.finding[k][i]
			}
			if best.At[k] == i {
				seat.Best, seat.BestFit = x.feature(part), x.finding[k][i]
			}
		}
		x.out.Seats = append(x.out.Seats, seat)
		if !seat.Best.IsZero() && seat.Best != seat.Now {
			x.out.Changes = append(x.out.Changes, x.seatings(seat)...)
		}
	}
}

func (x *arranger) seat() plan.Family {
	t, _ := x.kind.part.Traits()
	return t.Seat
}

// seatings are the changes that put a part to a position, of a shell both
// halves.
func (x *arranger) seatings(seat Seating) []Change {
	at := plan.Feature{Family: x.seat(), At: seat.At}
	if seat.Best.Part == "" {
		return []Change{{Did: Seat, Of: seat.Best, At: at}}
	}
	lower := seat.Best
	lower.Part = plan.Lower
	return []Change{{Did: Seat, Of: seat.Best, At: at}, {Did: Seat, Of: lower, At: at}}
}

// numbered puts every part at its own number, where that is arranged.
func (x *arranger) numbered() []int {
	out := make([]int, len(x.part))
	for i, part := range x.part {
		out[i] = slices.Index(x.at, part)
	}
	return out
}
