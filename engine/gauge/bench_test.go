package gauge_test

import (
	"testing"

	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/plan"
)

// written reads a length that a test states.
func written(tb testing.TB, text string) length.Written {
	tb.Helper()
	w, err := length.Parse(text, length.NoUnit)
	if err != nil {
		tb.Fatal(err)
	}
	return w
}

// sizes reads lengths in a unit.
func sizes(tb testing.TB, unit string, texts ...string) []length.Exact {
	tb.Helper()
	var out []length.Exact
	for _, t := range texts {
		out = append(out, written(tb, t+" "+unit).Exact())
	}
	return out
}

// at returns the length of a text, to be pointed at.
func at(tb testing.TB, text string) *length.Length {
	tb.Helper()
	l := written(tb, text).Length
	return &l
}

// dial is a comparator in 0.0001 in, zeroed on a ring of 3.7500 in, in a bore
// of that nominal.
func dial(tb testing.TB) gauge.Context {
	tb.Helper()
	return gauge.Context{
		Instrument: gauge.Instrument{
			ID: "d1", Name: "dial bore gauge", Kind: gauge.Comparator, Contacts: 2, Unit: length.In,
			Graduation: written(tb, "0.0001 in"), Turn: written(tb, "0.020 in"),
		},
		Zero: written(tb, "3.7500 in").Length, HasZero: true,
		Nominal: written(tb, "3.7500 in"), Shape: plan.Hole,
	}
}

// inch is a direct micrometer in 0.0001 in, a size in full already read.
func inch(tb testing.TB) gauge.Context {
	tb.Helper()
	return micrometer(tb, "m1", length.In, "0.0001 in", "3.7500 in")
}

// metric is a direct micrometer in 0.001 mm, a size in full already read.
func metric(tb testing.TB) gauge.Context {
	tb.Helper()
	return micrometer(tb, "m2", length.MM, "0.001 mm", "67.000 mm")
}

func micrometer(tb testing.TB, id string, unit length.Unit, graduation, nominal string) gauge.Context {
	tb.Helper()
	return gauge.Context{
		Instrument: gauge.Instrument{
			ID: id, Name: "bore micrometer", Kind: gauge.Direct, Contacts: 2, Unit: unit,
			Graduation: written(tb, graduation),
		},
		Nominal: written(tb, nominal), Shape: plan.Hole, FullSeen: true,
	}
}
