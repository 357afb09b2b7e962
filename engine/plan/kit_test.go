package plan_test

import (
	"errors"
	"testing"

	"borewright/engine/length"
	"borewright/engine/plan"
)

// written reads a length that a test states; "" is nothing written.
func written(tb testing.TB, text string) length.Written {
	tb.Helper()
	if text == "" {
		return length.Written{}
	}
	w, err := length.Parse(text, length.NoUnit)
	if err != nil {
		tb.Fatal(err)
	}
	return w
}

// refused checks that an error is of the type E and says what is wanted.
func refused[E error](tb testing.TB, name string, err error, want string) {
	tb.Helper()
	var typed E
	if !errors.As(err, &typed) || err.Error() != want {
		tb.Errorf("%s:\n got %T %v\nwant %s", name, err, err, want)
	}
}

// bores is a plan of bores with levels a and b and two directions.
func bores() plan.Plan {
	return plan.Plan{Families: []plan.Group{{
		Family: plan.Bore, Levels: []plan.Level{{ID: "a"}, {ID: "b"}}, Directions: []string{"across", "along"},
	}}}
}
