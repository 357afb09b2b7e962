package fit

import (
	"cmp"
	"slices"

	"borewright/engine/length"
)

// Rung is one step of a ladder of sizes that parts are made in: an oversize of
// pistons, an undersize of shells, a thicker washer. By is above zero.
type Rung struct {
	Name string
	By   length.Length
}

// Bored returns the range of a fresh bore on the rung, larger by the oversize.
func (r Rung) Bored(fresh Range) Range { return Range{fresh.Low + r.By, fresh.High + r.By} }

// Ground returns the range of a fresh journal on the rung, smaller by the
// undersize.
func (r Rung) Ground(fresh Range) Range { return Range{fresh.Low - r.By, fresh.High - r.By} }

// Oversize returns the smallest rung on which every bore cleans up, the largest
// place of all of them being this large: even the smallest fresh bore of the
// rung leaves the stock to take there. The worst bore sets the oversize for
// all. ok is false when no rung does, or nothing is measured.
func Oversize(ladder []Rung, fresh Range, largest, stock length.Exact) (r Rung, ok bool) {
	return smallest(ladder, func(r Rung) bool {
		need := largest.Add(stock)
		return need.Measured() && need.CmpLength(r.Bored(fresh).Low) <= 0
	})
}

// Undersize returns the smallest rung on which every journal cleans up, the
// smallest place of all of them being this small: even the largest fresh
// journal of the rung leaves the stock to take there. If one is ground all are.
// ok is false when no rung does, or nothing is measured.
func Undersize(ladder []Rung, fresh Range, least, stock length.Exact) (r Rung, ok bool) {
	return smallest(ladder, func(r Rung) bool {
		leaves := least.Sub(stock)
		return leaves.Measured() && leaves.CmpLength(r.Ground(fresh).High) >= 0
	})
}

func smallest(ladder []Rung, does func(Rung) bool) (Rung, bool) {
	sorted := slices.Clone(ladder)
	slices.SortStableFunc(sorted, func(a, b Rung) int { return cmp.Compare(a.By, b.By) })
	i := slices.IndexFunc(sorted, does)
	if i < 0 {
		return Rung{}, false
	}
	return sorted[i], true
}

// Washers is one or two thicker thrust washers, one a side, and the end play
// that they leave.
type Washers struct {
	Names []string
	Thick length.Length
	Play  length.Exact
}

// WithWashers returns the end play with every washer of the ladder on one side
// and every two of them on both: the play less what they are thicker than those
// in. It is empty when the play is not measured.
func WithWashers(ladder []Rung, play length.Exact) []Washers {
	if !play.Measured() {
		return nil
	}
	var out []Washers
	for i, a := range ladder {
		out = append(out, Washers{[]string{a.Name}, a.By, play.Sub(length.Of(a.By))})
		for _, b := range ladder[i:] {
			out = append(out, Washers{[]string{a.Name, b.Name}, a.By + b.By, play.Sub(length.Of(a.By + b.By))})
		}
	}
	return out
}
