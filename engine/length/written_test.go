package length_test

import (
	"encoding/json"
	"errors"
	"testing"

	. "borewright/engine/length"

	"pgregory.net/rapid"
)

func TestParse(t *testing.T) {
	table := []struct {
		text string
		bare Unit
		want Written
		back string
	}{
		{"3.7503 in", NoUnit, Written{95_257_620_000, In, 4}, "3.7503 in"},
		{"3.7503", In, Written{95_257_620_000, In, 4}, "3.7503 in"},
		{`3.7500"`, MM, Written{95_250_000_000, In, 4}, "3.7500 in"},
		{"95,25mm", In, Written{95_250_000_000, MM, 2}, "95.25 mm"},
		{"-0.0005 inch", NoUnit, Written{-12_700_000, In, 4}, "-0.0005 in"},
		{"0.0005-  IN", NoUnit, Written{-12_700_000, In, 4}, "-0.0005 in"},
		{"12 um", NoUnit, Written{12_000_000, UM, 0}, "12 \u00b5m"},
		{"50\u03bcin", NoUnit, Written{1_270_000, UIn, 0}, "50 \u00b5in"},
		{" 7 ", UM, Written{7_000_000, UM, 0}, "7 \u00b5m"},
		{".0001", In, Written{2_540_000, In, 4}, "0.0001 in"},
		{"0.000 mm", NoUnit, Written{0, MM, 3}, "0.000 mm"},
		{"100000 mm", NoUnit, Written{100 * Metre, MM, 0}, "100000 mm"},
		{"0.500000000000000 mm", NoUnit, Written{500 * Micrometre, MM, 15}, "0.500000000000000 mm"},
		{".123456789 mm", NoUnit, Written{123_456_789, MM, 9}, "0.123456789 mm"},
	}
	for _, c := range table {
		got, err := Parse(c.text, c.bare)
		if err != nil || got != c.want || got.String() != c.back {
			t.Errorf("Parse(%q, %v) = %+v %q, %v; want %+v %q", c.text, c.bare, got, got, err, c.want, c.back)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	table := []struct {
		text   string
		bare   Unit
		reason string
	}{
		{"3.7503", NoUnit, "no unit given"},
		{"3.7503", Unit(99), "no unit given"},
		{"in", In, "a number needs a digit"},
		{"", In, "a number needs a digit"},
		{"3.75 furlong", In, "not a unit known here"},
		{"3.75 in in", In, "not a unit known here"},
		{"3 3/4 in", In, "not a unit known here"},
		{"3.75e0 in", In, "not a unit known here"},
		{"3.75\u00a0in", In, "not a unit known here"},
		{"3..75 in", In, "a number has one decimal point"},
		{"+3+ in", In, "a number has one sign"},
		{"0.00000000001 in", In, "finer than a picometre"},
		{"3937.1 in", In, "longer than 100 m"},
		{"-100000.000000001 mm", In, "longer than 100 m"},
		{"10000.0000000001 mm", In, "finer than a picometre"},
	}
	for _, c := range table {
		got, err := Parse(c.text, c.bare)
		refused(t, err, c.text, c.reason)
		var p *ParseError
		if !errors.As(err, &p) || p.Input != c.text {
			t.Errorf("Parse(%q): the error quotes %#v", c.text, err)
		}
		if !got.IsZero() {
			t.Errorf("Parse(%q) left %+v", c.text, got)
		}
	}
}

func TestWrittenZeroValue(t *testing.T) {
	var w Written
	if !w.IsZero() || w.String() != "" || w.Number() != "" || w.Exact().Measured() {
		t.Errorf("nothing written shows as %q, %q, %+v", w, w.Number(), w.Exact())
	}
	zero, err := Parse("0.000 mm", NoUnit)
	if err != nil || zero.IsZero() || zero.Exact() != Of(0) {
		t.Errorf("a length of zero is %+v, %v", zero, err)
	}
}

func TestWrittenInJSON(t *testing.T) {
	type limits struct{ Low, High Written }
	in := limits{Low: Written{95_250_000_000, In, 4}}
	text, err := json.Marshal(in)
	if err != nil || string(text) != `{"Low":"3.7500 in","High":""}` {
		t.Fatalf("written as %s, %v", text, err)
	}
	out := limits{High: in.Low}
	if err := json.Unmarshal(text, &out); err != nil || out != in {
		t.Errorf("read back as %+v, %v", out, err)
	}
	for _, bad := range []string{`"3.7500"`, `"3.75 yd"`, `"in"`, `3.75`} {
		w := in.Low
		if err := json.Unmarshal([]byte(bad), &w); err == nil || w != in.Low {
			t.Errorf("%s was read as %+v, %v", bad, w, err)
		}
	}
}

func TestWrittenIsNotMarshalledInexactly(t *testing.T) {
	table := []struct {
		w    Written
		want error
	}{
		{Written{Length: 1, Unit: In, Places: 4}, ErrInexact},
		{Written{Length: Millimetre + 1, Unit: MM, Places: 8}, ErrInexact},
		{Written{Length: Millimetre, Unit: MM, Places: -1}, ErrInexact},
		{Written{Length: Millimetre, Unit: MM, Places: 16}, ErrInexact},
		{Written{Length: Millimetre, Unit: Unit(9)}, ErrUnit},
	}
	for _, c := range table {
		if text, err := c.w.MarshalText(); !errors.Is(err, c.want) {
			t.Errorf("%+v was written as %q, %v; want %v", c.w, text, err, c.want)
		}
	}
}

func TestWrittenPrintsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.StringMatching(`[+-]?[0-9]{1,5}[.,]?[0-9]{0,9}[+-]? ?(in|mm|um|µin|")?`).Draw(t, "text")
		w, err := Parse(s, unitGen.Draw(t, "bare"))
		if err != nil {
			return
		}
		if back, err := Parse(w.String(), NoUnit); err != nil || back != w {
			t.Fatalf("%q is %+v, printed %q and read back as %+v, %v", s, w, w, back, err)
		}
		text, err := w.MarshalText()
		var back Written
		if err != nil || back.UnmarshalText(text) != nil || back != w {
			t.Fatalf("%+v was kept as %q, %v and came back as %+v", w, text, err, back)
		}
	})
}
