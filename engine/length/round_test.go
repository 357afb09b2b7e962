package length_test

import (
	"math/big"
	"testing"

	. "borewright/engine/length"

	"pgregory.net/rapid"
)

// CHECKS U3: NIST SP 811 (2008) B.7.1, and the cases around it.
func TestRoundSignificant(t *testing.T) {
	table := []struct {
		text   string
		digits int
		want   string
	}{
		{"6.9749515", 3, "6.97"},
		{"6.9749515", 2, "7.0"},
		{"6.9749515", 5, "6.9750"},
		{"6.9749515", 7, "6.974952"},
		{"6.9749505", 7, "6.974950"},
		{"-6.9749515", 3, "-6.97"},
		{"9.96", 2, "10"},
		{"9.996", 3, "10.0"},
		{"99.96", 3, "100"},
		{"1225", 2, "1200"},
		{"999", 2, "1000"},
		{"0.05", 2, "0.050"},
		{"0.0996", 2, "0.10"},
		{"0.000000000000001", 15, "0.00000000000000100000000000000"},
		{"0.000", 3, "0.00"},
		{"-0", 1, "0"},
		{"3,5", 1, "4"},
	}
	for _, c := range table {
		if got, err := RoundSignificant(c.text, c.digits); got != c.want || err != nil {
			t.Errorf("%s to %d digits is %q, %v; want %q", c.text, c.digits, got, err, c.want)
		}
	}
}

// CHECKS U5: ISO 80000-1 Annex B.
func TestRoundStep(t *testing.T) {
	table := []struct{ text, step, want string }{
		{"12.223", "0.1", "12.2"},
		{"12.251", "0.1", "12.3"},
		{"12.275", "0.1", "12.3"},
		{"12.25", "0.1", "12.2"},
		{"12.35", "0.1", "12.4"},
		{"1225.0", "10", "1220"},
		{"1235.0", "10", "1240"},
		{"-12.35", "0.1", "-12.4"},
		{"-0.04", "0.1", "0.0"},
		{"3.75025", "0.0005", "3.7500"},
		{"3.75075", "0.0005", "3.7510"},
		{"3.75026", "0.0005", "3.7505"},
		{"7", "0.25", "7.00"},
		{"999999999999999", "0.000000000000007", "999999999999998.999999999999998"},
	}
	for _, c := range table {
		if got, err := RoundStep(c.text, c.step); got != c.want || err != nil {
			t.Errorf("%s by %s is %q, %v; want %q", c.text, c.step, got, err, c.want)
		}
	}
}

// CHECKS U4: some of NIST PS 20-20 (2020) Table 3, inches to whole millimetres;
// 7.5 in is 190.5 mm, the tie.
func TestInchesToWholeMillimetres(t *testing.T) {
	table := map[string]string{
		"0.3125": "8", "0.625": "16", "1.5": "38", "2.5": "64", "3.5": "89",
		"7.25": "184", "7.5": "190", "9.25": "235", "13.25": "337", "15.5": "394",
	}
	for inch, mm := range table {
		w, err := Parse(inch, In)
		if err != nil {
			t.Fatal(err)
		}
		if got := w.Exact().Format(MM, 0); got != mm {
			t.Errorf("%s in is %s mm, want %s mm", inch, got, mm)
		}
		exact := w.Exact().Format(MM, 6)
		if got, err := RoundDecimal(exact, 0); got != mm || err != nil {
			t.Errorf("%s in = %s mm rounds to %s mm, %v; want %s mm", inch, exact, got, err, mm)
		}
	}
}

func TestRoundDecimal(t *testing.T) {
	table := []struct {
		text   string
		places int
		want   string
	}{
		{"2.675", 2, "2.68"},
		{"2.665", 2, "2.66"},
		{"-2.665", 2, "-2.66"},
		{"0.5", 0, "0"},
		{"-0.5", 0, "0"},
		{"1.5", 0, "2"},
		{"1", 3, "1.000"},
		{"1225.0", -1, "1220"},
		{"49", -2, "0"},
		{"51", -2, "100"},
		{"7", -18, "0"},
		{".5", 18, "0.500000000000000000"},
	}
	for _, c := range table {
		if got, err := RoundDecimal(c.text, c.places); got != c.want || err != nil {
			t.Errorf("%s to %d decimals is %q, %v; want %q", c.text, c.places, got, err, c.want)
		}
	}
}

func TestRoundingRefuses(t *testing.T) {
	decimal := func(s string, n int) error { _, err := RoundDecimal(s, n); return err }
	digits := func(s string, n int) error { _, err := RoundSignificant(s, n); return err }
	step := func(s, by string) error { _, err := RoundStep(s, by); return err }
	table := []struct {
		err           error
		input, reason string
	}{
		{decimal("x", 2), "x", "not a decimal number"},
		{decimal("1", 19), "1", "numbers are rounded to -18 to 18 decimals"},
		{decimal("1", -19), "1", "numbers are rounded to -18 to 18 decimals"},
		{digits("", 2), "", "a number needs a digit"},
		{digits("1", 0), "1", "numbers are rounded to 1 to 15 digits"},
		{digits("1", 16), "1", "numbers are rounded to 1 to 15 digits"},
		{step("1.2.3", "1"), "1.2.3", "a number has one decimal point"},
		{step("1", "one"), "one", "not a decimal number"},
		{step("1", "0.00"), "0.00", "a step to round to is more than zero"},
		{step("1", "-0.1"), "-0.1", "a step to round to is more than zero"},
	}
	for _, c := range table {
		refused(t, c.err, c.input, c.reason)
	}
}

func TestRoundStepAgreesWithFractions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := Decimal{rapid.Int64Range(-1e6, 1e6).Draw(t, "coef"), rapid.IntRange(0, 6).Draw(t, "places")}
		step := Decimal{rapid.Int64Range(1, 50).Draw(t, "step"), rapid.IntRange(0, 6).Draw(t, "step places")}
		got, err := RoundStep(d.String(), step.String())
		if err != nil {
			t.Fatal(err)
		}
		by, _ := new(big.Rat).SetString(step.String())
		r, _ := new(big.Rat).SetString(d.String())
		want := new(big.Rat).SetInt(halfEven(r.Quo(r, by)))
		if text := want.Mul(want, by).FloatString(step.Places); got != text {
			t.Fatalf("%v by %v is %q, want %q", d, step, got, text)
		}
	})
}

// A length and its own decimal text round alike.
func TestFormatAgreesWithRoundDecimal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := Of(Length(rapid.Int64Range(-1e14, 1e14).Draw(t, "length")))
		places := rapid.IntRange(0, 9).Draw(t, "places")
		text := e.Format(MM, 9)
		if got, err := RoundDecimal(text, places); err != nil || got != e.Format(MM, places) {
			t.Fatalf("%s mm to %d decimals is %q, %v; Format says %q", text, places, got, err, e.Format(MM, places))
		}
	})
}
