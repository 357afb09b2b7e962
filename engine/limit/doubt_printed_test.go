package limit_test

import (
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/length"
	. "borewright/engine/limit"
)

func TestParsePrinted(t *testing.T) {
	for text, want := range map[string]string{
		"5.483 in":               "5.483 in",
		"(13.972 cm)":            "13.972 cm",
		" ( 0.76 mm ) ":          "0.76 mm",
		"0,76mm":                 "0.76 mm",
		"2.75 inches":            "2.75 in",
		`2.75"`:                  "2.75 in",
		"50 um":                  "50 µm",
		"50 µin":                 "50 µin",
		".003 IN":                "0.003 in",
		"-0.5 mm":                "-0.5 mm",
		"0.0005 per inch":        "0.0005 in per in",
		"0.0005 in per in":       "0.0005 in per in",
		"(0.0127 mm per  mm)":    "0.0127 mm per mm",
		"0.0127 mm per inch":     "0.0127 mm per in",
		"0.02 mm per 100 mm":     "0.02 mm per 100 mm",
		"0.02 mm per 10 cm":      "0.02 mm per 100 mm",
		"0.02 per 1 mm":          "0.02 mm per mm",
		"0.0005 in per 2.5 in":   "0.0005 in per 2.5 in",
		"140 cm":                 "140 cm",
		"0.00942 in":             "0.00942 in",
		"0.02 mm per 0.5 cm":     "0.02 mm per 5 mm",
		"1\u00a0mm":              "1 mm",
		"0.000000000000001 inch": "",
	} {
		p, err := ParsePrinted(text)
		if want == "" {
			if err == nil {
				t.Errorf("%q is %s", text, p)
			}
			continue
		}
		if err != nil || p.String() != want {
			t.Errorf("%q is %q, %v; want %q", text, p, err, want)
			continue
		}
		if back, err := ParsePrinted(p.String()); err != nil || back != p {
			t.Errorf("%q reads back as %q: %v", p, back, err)
		}
	}
}

func TestPrintedRefused(t *testing.T) {
	for _, text := range []string{"", "5.483", "in", "5.483 ft", "five in", "5.4.8 in", "1 mm per", "1 mm per 0 mm", "1 mm per -1 mm", "1 mm per x", "per mm", "9999999999 in", "0.005 in, 0.006 in"} {
		p, err := ParsePrinted(text)
		var refused *length.ParseError
		if !errors.As(err, &refused) || refused.Input != text || refused.Reason == "" {
			t.Errorf("%q is %q, %v", text, p, err)
		}
	}
	for _, text := range []string{"5.483 in", "5.483 (13.927 cm)", "5.483 in (13.927)", "(13.927 cm)"} {
		if a, b, err := ParsePair(text); err == nil {
			t.Errorf("%q is %q and %q", text, a, b)
		}
	}
}

func TestPrintedLength(t *testing.T) {
	for text, want := range map[string]length.Length{
		"13.972 cm":        139_720 * length.Micrometre,
		"1 in":             length.Inch,
		"2 µm":             2 * length.Micrometre,
		"3 µin":            3 * length.Microinch,
		"0.0127 mm per mm": 12_700 * length.Nanometre,
	} {
		if p, err := ParsePrinted(text); err != nil || p.Length() != want {
			t.Errorf("%q is %d pm, %v; want %d", text, p.Length(), err, want)
		}
	}
}

// Half the last printed digit of the coarser is still agreement, and one step
// more is not.
func TestPairs(t *testing.T) {
	for _, c := range []struct {
		text string
		want string // the guesses; "agree" for no doubt
	}{
		{"5.483 in (13.927 cm)", "agree"},
		{"5.483 in (13.972 cm)", "13.927 cm (swapped digits)"},
		{"13.972 cm (5.483 in)", "13.927 cm (swapped digits)"},
		{"0.1 in (2.54 mm)", "agree"},
		{"0.10 in (2.667 mm)", "agree"}, // 0.105 in, half of 0.01 in off
		{"0.10 in (2.668 mm)", "2.6068 mm (lost zero), 2.6608 mm (lost zero)"},
		{"1 mm (0.0190 in)", ""}, // too many single digits would do,
		{"1 mm (0.03935 in)", "agree"},
		{"1.531 in (38.90 mm)", "agree"},
		{"0.005 in (0.0005 in)", "0.0005 in (shifted point), 0.005 in (shifted point)"},
		{"5.483 in (13.927 mm)", "0.5483 in (shifted point), 139.27 mm (shifted point)"},
		{"3.7503 mm (95.258 mm)", "3.7503 in (wrong unit)"},
		{"5.483 in (128.23 mm)", "5.0483 in (lost zero)"},
		{"3.7503 in (95.758 mm)", "95.258 mm (one digit wrong)"},
		{"3.750 in (50.80 mm)", ""},
		{"0.0005 in per in (0.0005 mm per mm)", "agree"},
		{"0.0005 in per in (0.05 mm per 100 mm)", "agree"},
		{"0.0005 in per in (0.0127 mm)", "agree"},
		{"0.0005 in per in (0.0127 mm per mm)", "0.0005 mm per mm (slope turned as a length), 0.0127 mm per in (slope turned as a length)"},
		{"0.0005 mm per mm (0.00002 in per in)", "0.00002 mm per mm (slope turned as a length), 0.0005 mm per in (slope turned as a length), 0.00050 in per in (slope turned as a length), 0.00002 in per mm (slope turned as a length)"},
	} {
		a, b, err := ParsePair(c.text)
		if err != nil {
			t.Fatal(err)
		}
		got := "agree"
		if doubts := PairDoubts(a, b); len(doubts) > 0 {
			got = ""
			for _, g := range doubts[0].Likely {
				got += ", " + g.Text + " (" + g.Slip.String() + ")"
			}
			got = strings.TrimPrefix(got, ", ")
		}
		if got != c.want {
			t.Errorf("%s: %q, want %q", c.text, got, c.want)
		}
		if a.Agrees(b) != (c.want == "agree") || b.Agrees(a) != a.Agrees(b) {
			t.Errorf("%s: agrees %v and %v", c.text, a.Agrees(b), b.Agrees(a))
		}
	}
}

// What is converted by whole digits agrees, whichever is the coarser.
func TestAConversionAgrees(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := tenThousandths(rapid.Int64Range(-50_000, 50_000).Draw(t, "ten-thousandths"))
		unit, places := metric(t)
		a, err := ParsePrinted(l.String())
		b, err2 := ParsePrinted(converted(Limits{New: Range{Low: l}}, unit, places)[NewLow])
		if err != nil || err2 != nil || !a.Agrees(b) || !b.Agrees(a) {
			t.Fatalf("%s and %s: %v %v", a, b, err, err2)
		}
	})
}

// Whatever is read prints back the same, and is doubted without a panic.
func FuzzPrinted(f *testing.F) {
	for _, text := range []string{"5.483 in", "(13.972 cm)", "0.0005 per inch", "0.02 mm per 100 mm", "-.5\"", "99999999999999 µin", "0.000000000001 mm", "1 mm per 0.000000001 mm", "(1 in", "100000 mm per 1 µin", "0 per 1,0mm", ""} {
		f.Add(text, "0.003 in")
		f.Add("0.76 mm per mm", text)
	}
	f.Fuzz(func(t *testing.T, a, b string) {
		p, err := ParsePrinted(a)
		if err != nil {
			return
		}
		if back, err := ParsePrinted(p.String()); err != nil || back != p {
			t.Fatalf("%q is %q, which is %q: %v", a, p, back, err)
		}
		q, err := ParsePrinted(b)
		if err != nil {
			return
		}
		if doubts := PairDoubts(p, q); (len(doubts) == 0) != p.Agrees(q) && p.Per.IsZero() {
			t.Fatalf("%q and %q agree %v, and are doubted %v", p, q, p.Agrees(q), doubts)
		}
	})
}
