package engine_test

import (
	"os/exec"
	"strings"
	"testing"

	"borewright/engine/length"
)

// unitsProgram asks the program units, of Debian's package of that name, what a
// length is in another unit.
func unitsProgram(t *testing.T, have, want string) string {
	t.Helper()
	out, err := exec.Command("units", "--terse", "--output-format", "%.12g", have, want).Output()
	if err != nil {
		t.Fatalf("units %q %q: %v", have, want, err)
	}
	return strings.TrimSpace(string(out))
}

// TestUnitsProgram asks an independent program for the inch and for every
// conversion of the table of checks.
func TestUnitsProgram(t *testing.T) {
	t.Parallel()
	if _, err := exec.LookPath("units"); err != nil {
		t.Skip("the program units is not installed")
	}
	if got := unitsProgram(t, "inch", "cm"); got != "2.54" {
		t.Errorf("units has %q cm to the inch, want 2.54", got)
	}
	asked := 0
	for _, r := range checkRows(t) {
		if r.Ask != "convert" {
			continue
		}
		asked++
		from, to := r.Given["length"], r.Given["to"]
		l, err := length.Parse(from, length.NoUnit)
		if err != nil {
			t.Fatal(err)
		}
		unit, err := length.ParseUnit(to)
		if err != nil {
			t.Fatal(err)
		}
		const decimals = 9
		theirs, err := length.RoundDecimal(unitsProgram(t, from, to), decimals)
		if ours := l.Exact().Format(unit, decimals); err != nil || ours != theirs {
			t.Errorf("%s: %s is %s %s, units says %s (%v)", r.ID, from, ours, to, theirs, err)
		}
	}
	if asked == 0 {
		t.Error("the table has nothing to ask units")
	}
}
