package doubt_test

import (
	"math"
	"strings"
	"testing"

	. "borewright/engine/doubt"
	"borewright/engine/length"
)

// Tenth is 0.0001 in, in picometres.
const tenth = float64(length.Inch) / 10_000

// readings reads lengths, set apart by blanks, in the unit.
func readings(tb testing.TB, u length.Unit, texts string) []length.Length {
	tb.Helper()
	var out []length.Length
	for _, text := range strings.Fields(texts) {
		w, err := length.Parse(text, u)
		if err != nil {
			tb.Fatal(err)
		}
		out = append(out, w.Length)
	}
	return out
}

// near reports whether two numbers agree to so many parts of the larger.
func near(a, b, part float64) bool {
	return math.Abs(a-b) <= part*max(math.Abs(a), math.Abs(b))
}

// whole is a contribution with a sensitivity of 1.
func whole(name string, value, df float64) Contribution {
	return Contribution{Name: name, Value: value, DF: df, Sensitivity: 1}
}

func combined(tb testing.TB, cs ...Contribution) Budget {
	tb.Helper()
	b, err := Combine(cs)
	if err != nil {
		tb.Fatal(err)
	}
	return b
}

func TestBenchOf(t *testing.T) {
	b, ok := BenchOf(readings(t, length.In, "3.7503 3.7504 3.7502 3.7503"))
	if !ok || b.Count != 4 || b.Mean.Format(length.In, 5) != "3.75030" || b.Range.Format(length.In, 4) != "0.0002" {
		t.Errorf("%+v", b)
	}
	if want := tenth * math.Sqrt(2.0/3); !near(b.Repeat.S, want, 1e-14) || b.Repeat.DF != 3 {
		t.Errorf("s %v with %d degrees of freedom, want %v", b.Repeat.S, b.Repeat.DF, want)
	}
	if b, ok := BenchOf(readings(t, length.In, "3.7503")); ok {
		t.Errorf("one reading: %+v", b)
	}
}
