package fit

import (
	"math"

	"borewright/engine/length"
)

// GapChange returns by how much a ring's end gap grows when the mean diameter
// it stands in grows by so much: π times that, rounded half to even to 1 pm,
// since the gap takes up the circumference. TM 5-6115-593-34 p. 1-9 prints it
// rounded to 3 times.
func GapChange(bore length.Exact) length.Exact {
	if !bore.Measured() {
		return length.Exact{}
	}
	return length.Of(length.Length(math.RoundToEven(math.Pi * bore.Float())))
}

// GapAt returns the end gap at the smallest place of a ring's travel from a gap
// measured elsewhere: gap - π(measured - smallest), where measured is the mean
// diameter at the depth the gap was measured at and smallest the smallest mean
// diameter in the travel.
func GapAt(gap, measured, smallest length.Exact) length.Exact {
	return gap.Sub(GapChange(measured.Sub(smallest)))
}
