package setup_test

import (
	"slices"
	"strings"
	"testing"

	"borewright/engine/enginetest"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/setup"
)

func TestFormulasMakeLimits(t *testing.T) {
	for _, c := range []struct {
		of      plan.Family
		on      limit.Characteristic
		nominal string
		text    string
		new     string
		wear    string
		n       int
	}{
		{plan.Bore, limit.Size, "3.7500 in", "new nominal to nominal + 0.0010 in; wear to nominal + 0.001 × nominal", "3.7500 to 3.7510", " to 3.7538", 0},
		{plan.Bore, limit.Clearance, "4.0000 in", "new 0.0005 × nominal to 0.001 × nominal", "0.0020 to 0.0040", " to ", 0},
		{plan.MainJournal, limit.Size, "60.000 mm", "new nominal - 0.025 mm to nominal", "59.975 to 60.000", " to ", 0},
		{plan.Bore, limit.OutOfRound, "80.000 mm", "new to 0.012 mm; wear to 0.063 mm", " to 0.012", " to 0.063", 0},
		// At least 0.0035 in of gap for each inch of bore, as the trade has it.
		{plan.RingGap, limit.EndGap, "4.0000 in", "new from 0.0035 × bore nominal", "0.0140 to ", " to ", 0},
		{plan.Bore, limit.Taper, "4.0000 in", "wear to 0.0005 per 1 of travel", " to ", " to 0.0005", 1},
	} {
		f := setup.Formulas(c.of, c.on)[c.n]
		nominal := enginetest.Written(t, c.nominal)
		l := f.Limits(nominal)
		if got := f.Text(nominal.Unit); got != c.text {
			t.Errorf("%s of %s is written %q, want %q", c.on, c.of, got, c.text)
		}
		if got := l.New.Low.Number() + " to " + l.New.High.Number(); got != c.new {
			t.Errorf("%s of %s, new: %s, want %s", c.on, c.of, got, c.new)
		}
		if got := l.Wear.Low.Number() + " to " + l.Wear.High.Number(); got != c.wear {
			t.Errorf("%s of %s, wear: %s, want %s", c.on, c.of, got, c.wear)
		}
	}
}

// A formula says where it comes from, that the maker's data govern, and makes
// limits that can be given.
func TestEveryFormulaHolds(t *testing.T) {
	n := 0
	for _, family := range plan.Families() {
		for _, on := range limit.Characteristics() {
			for _, f := range setup.Formulas(family.Family, on) {
				n++
				if !strings.HasSuffix(f.Source, "the maker's data govern") || !setup.IsFilledIn(f.Source) {
					t.Errorf("%s of %s comes from %q", on, family.Family, f.Source)
				}
				for _, nominal := range []string{"3.7500 in", "80.000 mm"} {
					l := f.Limits(enginetest.Written(t, nominal))
					if !l.Per.IsZero() {
						l.Travel = l.Per
					}
					if err := l.Validate(); err != nil {
						t.Errorf("%s of %s at %s: %v", on, family.Family, nominal, err)
					}
				}
				if l := f.Limits(length.Written{}); l != (limit.Limits{}) {
					t.Errorf("%s of %s without a nominal: %+v", on, family.Family, l)
				}
			}
		}
	}
	if n < 14 {
		t.Errorf("%d formulas", n)
	}
}

// What a setup proposes is what the formulas make.
func TestAProposalIsAFormula(t *testing.T) {
	d := setup.Presets()[0].Draft()
	f := d.Of(plan.Bore)
	for _, l := range f.Limits {
		made := []limit.Limits{}
		for _, x := range setup.Formulas(plan.Bore, l.On) {
			made = append(made, x.Limits(f.Nominal))
		}
		if !slices.Contains(made, l) {
			t.Errorf("%s is proposed as %+v, and formulas make %+v", l.On, l, made)
		}
	}
}
