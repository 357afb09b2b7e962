package engine

import (
	"borewright/engine/length"
)

// Eccentricity is how much larger a bearing is along its parting line than
// square to it, as the mean over the levels where both were read. Shells are
// made so: it is a figure, never an out-of-round verdict. It is not measured
// for other families.
func (m Measured) Eccentricity() length.Exact {
	t, _ := m.Of.Family.Traits()
	if t.Judged == "" {
		return length.Exact{}
	}
	square, parting := -1, -1
	for i, deg := range m.Grid.Angles {
		switch deg {
		case 90:
			square = i
		case 0:
			parting = i
		}
	}
	if square < 0 || parting < 0 {
		return length.Exact{}
	}
	var es []length.Exact
	for _, row := range m.Grid.Values {
		es = append(es, row[parting].Sub(row[square]))
	}
	return length.MeanOf(es...)
}
