package fit

import (
	"strings"

	"borewright/engine/length"
)

// Choice is one of the sizes on offer and what it is for.
type Choice struct {
	Name  string
	Range Range
}

// Fits are the names of the sizes that fit: one, several, or none at all. It is
// nil, not empty, for what is not measured.
type Fits []string

// Selection returns which sizes are for a figure, in the order of the table.
// Ranges of a ladder may overlap or leave gaps, so the answer may be several or
// none; it is never the nearest.
func Selection(choices []Choice, y length.Exact) Fits {
	if !y.Measured() {
		return nil
	}
	out := Fits{}
	for _, c := range choices {
		if c.Range.Contains(y) {
			out = append(out, c.Name)
		}
	}
	return out
}

// String says which sizes fit, such as "standard and first oversize both fit".
func (f Fits) String() string {
	n := len(f)
	switch {
	case f == nil:
		return "not measured"
	case n == 0:
		return "not covered by the table"
	case n == 1:
		return f[0] + " fits"
	case n == 2:
		return f[0] + " and " + f[1] + " both fit"
	}
	return strings.Join(f[:n-1], ", ") + " and " + f[n-1] + " all fit"
}
