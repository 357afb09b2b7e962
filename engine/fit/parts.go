package fit

import "borewright/engine/length"

// Range is what a part may measure, from Low to High, both included.
type Range struct{ Low, High length.Length }

// Contains reports whether a figure is in the range, exactly on an end too; a
// figure not measured is in none.
func (r Range) Contains(y length.Exact) bool {
	return y.Measured() && y.CmpLength(r.Low) >= 0 && y.CmpLength(r.High) <= 0
}

// Clearances returns the clearance that any hole and any shaft of two ranges
// make, diametral: smallest hole less largest shaft to largest hole less
// smallest shaft.
func Clearances(hole, shaft Range) Range {
	return Range{Low: hole.Low - shaft.High, High: hole.High - shaft.Low}
}

// Installed returns the diameter that a housing bore and two walls of one range
// make: the bore less two walls (TM 9-2815-202-34, wear table of the big end).
func Installed(housing, wall Range) Range {
	return Range{Low: housing.Low - 2*wall.High, High: housing.High - 2*wall.Low}
}

// JournalFor returns the journal that keeps a clearance in any housing and with
// any walls of the ranges: its largest is the smallest installed diameter less
// the least clearance, its smallest the largest less the most. ok is false when
// the ranges leave no such journal.
func JournalFor(housing, wall, clearance Range) (journal Range, ok bool) {
	in := Installed(housing, wall)
	journal = Range{Low: in.High - clearance.High, High: in.Low - clearance.Low}
	return journal, journal.Low <= journal.High
}

// FromParts returns the clearance that measured parts make, diametral: housing
// bore less upper wall less lower wall less journal.
func FromParts(housing, upper, lower, journal length.Exact) length.Exact {
	return housing.Sub(upper).Sub(lower).Sub(journal)
}

// UndersizeWall returns the wall of a shell for a journal ground undersize: each
// of the two walls is thicker by half the undersize (TM 9-2815-205-34 p. 3-203),
// rounded half to even to 1 pm. An undersize below zero is extra clearance.
func UndersizeWall(standard Range, undersize length.Length) Range {
	half := length.Of(undersize).Half().Round()
	return Range{Low: standard.Low + half, High: standard.High + half}
}

// ShellChange returns by how much the clearance changes when shells of these
// undersizes replace standard ones on the same journal: -(upper + lower)/2, each
// wall being thicker by half its undersize.
func ShellChange(upper, lower length.Length) length.Exact {
	return length.Of(upper).Add(length.Of(lower)).Half().Neg()
}

// CentreShift returns by how much two halves of different undersizes move the
// centre line, + towards the upper half: (lower - upper)/4. The same arrangement
// belongs along the whole crank.
func CentreShift(upper, lower length.Length) length.Exact {
	return length.Of(lower).Sub(length.Of(upper)).Half().Half()
}
