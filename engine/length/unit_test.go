package length_test

import (
	"encoding/json"
	"errors"
	"testing"

	. "borewright/engine/length"
)

// CHECKS U1: 24 FR 5348 (1959), NIST SP 811 (2008) App. B.
func TestInchIs25400Micrometres(t *testing.T) {
	if Inch != 25_400_000_000*Picometre {
		t.Errorf("1 in = %d pm", Inch)
	}
	if got := Of(Inch).Format(MM, 12); got != "25.400000000000" {
		t.Errorf("1 in = %s mm", got)
	}
	if Inch*10 != 254*Millimetre || Microinch*1_000_000 != Inch || Metre != 1000*Millimetre || Micrometre != 1000*Nanometre {
		t.Error("the units do not agree")
	}
}

func TestParseUnit(t *testing.T) {
	spellings := map[Unit][]string{
		In:  {"in", "inch", `"`, "IN", "Inch", "iNcH"},
		MM:  {"mm", "MM", "Mm"},
		UM:  {"um", "UM", "\u00b5m", "\u03bcm", "\u00b5M"},
		UIn: {"uin", "UIN", "\u00b5in", "\u03bcin", "\u03bcIN"},
	}
	for want, texts := range spellings {
		for _, s := range texts {
			if got, err := ParseUnit(s); got != want || err != nil {
				t.Errorf("ParseUnit(%q) = %v, %v; want %v", s, got, err, want)
			}
		}
	}
}

func TestParseUnitTakesNothingElse(t *testing.T) {
	for _, s := range []string{
		"", " ", "in ", " mm", "inches", "m", "cm", "km", "thou", "mil", "µ", "''", "\u2033",
		"\u039cm", "ın", "i n", "mm2", "\xffmm", "\uff4d\uff4d",
	} {
		u, err := ParseUnit(s)
		var p *ParseError
		if !errors.As(err, &p) || p.Input != s || u != NoUnit {
			t.Errorf("ParseUnit(%q) = %v, %v", s, u, err)
		}
	}
}

func TestUnitSpeaksItsName(t *testing.T) {
	table := []struct {
		u        Unit
		name     string
		size     Length
		decimals int
	}{
		{NoUnit, "", 0, 0},
		{In, "in", Inch, 4},
		{MM, "mm", Millimetre, 3},
		{UM, "\u00b5m", Micrometre, 0},
		{UIn, "\u00b5in", Microinch, 0},
		{Unit(200), "", 0, 0},
	}
	for _, c := range table {
		if c.u.String() != c.name || c.u.Size() != c.size || c.u.Decimals() != c.decimals {
			t.Errorf("unit %d is %q, %d pm, %d decimals", c.u, c.u, c.u.Size(), c.u.Decimals())
		}
	}
}

func TestUnitInJSON(t *testing.T) {
	for _, u := range []Unit{NoUnit, In, MM, UM, UIn} {
		text, err := json.Marshal(u)
		if err != nil {
			t.Fatal(err)
		}
		back := Unit(77)
		if err := json.Unmarshal(text, &back); err != nil || back != u {
			t.Errorf("%v came back from %s as %v, %v", u, text, back, err)
		}
	}
	if _, err := json.Marshal(Unit(9)); !errors.Is(err, ErrUnit) {
		t.Errorf("unit 9 was written: %v", err)
	}
	u := MM
	if err := json.Unmarshal([]byte(`"furlong"`), &u); err == nil || u != MM {
		t.Errorf("a bad unit gave %v, %v", u, err)
	}
}
