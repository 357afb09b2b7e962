package length_test

import (
	"errors"
	"math"
	"math/big"
	"testing"

	. "borewright/engine/length"

	"pgregory.net/rapid"
)

func TestParseDecimal(t *testing.T) {
	table := []struct {
		text string
		want Decimal
		back string
	}{
		{"3.7503", Decimal{37503, 4}, "3.7503"},
		{"3,7503", Decimal{37503, 4}, "3.7503"},
		{"3.7500", Decimal{37500, 4}, "3.7500"},
		{"007", Decimal{7, 0}, "7"},
		{".5", Decimal{5, 1}, "0.5"},
		{"5.", Decimal{5, 0}, "5"},
		{"+3", Decimal{3, 0}, "3"},
		{"2+", Decimal{2, 0}, "2"},
		{"2-", Decimal{-2, 0}, "-2"},
		{"-1.5", Decimal{-15, 1}, "-1.5"},
		{"\u22121.5", Decimal{-15, 1}, "-1.5"},
		{"1.5\u2212", Decimal{-15, 1}, "-1.5"},
		{"-0.0005", Decimal{-5, 4}, "-0.0005"},
		{"-0", Decimal{0, 0}, "0"},
		{"-0.00", Decimal{0, 2}, "0.00"},
		{" 12 ", Decimal{12, 0}, "12"},
		{"999999999999999", Decimal{999999999999999, 0}, "999999999999999"},
		{"0.999999999999999", Decimal{999999999999999, 15}, "0.999999999999999"},
		{"0000000000000000000001.0", Decimal{10, 1}, "1.0"},
	}
	for _, c := range table {
		got, err := ParseDecimal(c.text)
		if err != nil || got != c.want || got.String() != c.back {
			t.Errorf("ParseDecimal(%q) = %+v %q, %v; want %+v %q", c.text, got, got, err, c.want, c.back)
		}
	}
}

func TestParseDecimalRefuses(t *testing.T) {
	table := []struct{ text, reason string }{
		{"", "a number needs a digit"},
		{".", "a number needs a digit"},
		{"-", "a number needs a digit"},
		{"+-", "a number needs a digit"},
		{"-.", "a number needs a digit"},
		{"1.2.3", "a number has one decimal point"},
		{"1,234.5", "a number has one decimal point"},
		{"+2+", "a number has one sign"},
		{"-2\u2212", "a number has one sign"},
		{"--2", "not a decimal number"},
		{"2--", "not a decimal number"},
		{"1e3", "not a decimal number"},
		{"NaN", "not a decimal number"},
		{"inf", "not a decimal number"},
		{"0x10", "not a decimal number"},
		{"1_000", "not a decimal number"},
		{"1 000", "not a decimal number"},
		{"- 2", "not a decimal number"},
		{"٣", "not a decimal number"},
		{"1/2", "not a decimal number"},
		{"\xff", "not a decimal number"},
		{"1234567890123456", "a number has at most 15 digits"},
		{"0.0000000000000001", "a number has at most 15 digits"},
	}
	for _, c := range table {
		got, err := ParseDecimal(c.text)
		refused(t, err, c.text, c.reason)
		if got != (Decimal{}) {
			t.Errorf("ParseDecimal(%q) left %+v", c.text, got)
		}
	}
}

func TestDecimalOf(t *testing.T) {
	table := []struct {
		d    Decimal
		unit Length
		want Length
	}{
		{Decimal{37503, 4}, Inch, 95_257_620_000},
		{Decimal{-15, 1}, 10 * Micrometre, -15 * Micrometre},
		{Decimal{5, 1}, -2 * Micrometre, -Micrometre},
		{Decimal{1, 6}, Inch, Microinch},
		{Decimal{5, 1}, Microinch, 12_700},
		{Decimal{1, 9}, Millimetre, Picometre},
		{Decimal{100, 0}, Metre, 100 * Metre},
		{Decimal{-100, 0}, Metre, -100 * Metre},
		{Decimal{0, 3}, Inch, 0},
	}
	for _, c := range table {
		if got, err := c.d.Of(c.unit); got != c.want || err != nil {
			t.Errorf("%v of %d pm = %d pm, %v; want %d pm", c.d, c.unit, got, err, c.want)
		}
	}
}

func TestDecimalOfRefuses(t *testing.T) {
	table := []struct {
		d      Decimal
		unit   Length
		reason string
	}{
		{Decimal{1, 10}, Millimetre, "finer than a picometre"},
		{Decimal{5, 1}, Picometre, "finer than a picometre"},
		{Decimal{1000000001, 7}, Metre, "longer than 100 m"},
		{Decimal{-100000000000001, 12}, Metre, "longer than 100 m"},
		{Decimal{1000000000000001, 13}, Metre, "longer than 100 m"},
		{Decimal{math.MaxInt64, 0}, math.MaxInt64, "longer than 100 m"},
		{Decimal{math.MinInt64, 0}, math.MinInt64, "longer than 100 m"},
		{Decimal{1, -1}, Metre, "a number has 0 to 18 decimals"},
		{Decimal{1, 19}, Metre, "a number has 0 to 18 decimals"},
	}
	for _, c := range table {
		got, err := c.d.Of(c.unit)
		refused(t, err, c.d.String(), c.reason)
		if got != 0 {
			t.Errorf("%v of %d pm left %d pm", c.d, c.unit, got)
		}
	}
}

func TestDecimalOfIsTheExactProduct(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := Decimal{rapid.Int64Range(-1e15+1, 1e15-1).Draw(t, "coef"), rapid.IntRange(0, 15).Draw(t, "places")}
		unit := rapid.SampledFrom([]Length{Picometre, Inch, Millimetre, Micrometre, Microinch, Metre, -Inch, 12_700}).Draw(t, "unit")
		want := new(big.Rat).SetInt64(d.Coef)
		want.Mul(want, power(-d.Places)).Mul(want, new(big.Rat).SetInt64(int64(unit)))
		long := new(big.Rat).Abs(want).Cmp(new(big.Rat).SetInt64(int64(100*Metre))) > 0
		got, err := d.Of(unit)
		switch {
		case long || !want.IsInt():
			if err == nil {
				t.Fatalf("%v of %d pm was taken as %d pm", d, unit, got)
			}
		case err != nil || int64(got) != want.Num().Int64():
			t.Fatalf("%v of %d pm = %d pm, %v; want %v", d, unit, got, err, want)
		}
	})
}

func TestDecimalPrintsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.StringMatching(`[+-]?[0-9]{0,9}[.,]?[0-9]{0,6}`).Draw(t, "text")
		d, err := ParseDecimal(s)
		if err != nil {
			return
		}
		if back, err := ParseDecimal(d.String()); err != nil || back != d {
			t.Fatalf("%q is %+v, printed %q and read back as %+v, %v", s, d, d, back, err)
		}
	})
}

func TestParseErrorQuotesItsInput(t *testing.T) {
	_, err := ParseDecimal("3..5")
	if got, want := err.Error(), `"3..5": a number has one decimal point`; got != want {
		t.Errorf("error %q, want %q", got, want)
	}
	var p *ParseError
	if !errors.As(err, &p) || p.Input != "3..5" {
		t.Errorf("error is %#v", err)
	}
	long := &ParseError{Input: "µ0123456789012345678901234567890123456789012345", Reason: "too long"}
	if got, want := long.Error(), `"µ012345678901234567890123456789012345678…": too long`; got != want {
		t.Errorf("error %q, want %q", got, want)
	}
}
