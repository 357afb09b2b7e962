package length_test

import (
	"strings"
	"testing"

	. "borewright/engine/length"
)

// FuzzParse holds that what parses prints back the same, and that what does
// not says why, once and on one line.
func FuzzParse(f *testing.F) {
	for _, s := range []string{
		"3.7503 in", "-0.0005 in", "95,25mm", "2+", "1.5\u2212", ".5\"", "5.", "\u03bcin", "7 \u00b5m",
		"100000 mm", "100000.000000001 mm", "0.500000000000000 mm", "1e3", "", "+", "\xff", "3.75 in\n",
	} {
		f.Add(s, uint8(In))
		f.Add(s, uint8(NoUnit))
	}
	f.Fuzz(func(t *testing.T, s string, bare uint8) {
		w, err := Parse(s, Unit(bare))
		if err != nil {
			if !w.IsZero() || strings.ContainsAny(err.Error(), "\n\r\x1b") {
				t.Fatalf("Parse(%q) left %+v and says %q", s, w, err)
			}
			return
		}
		printed := w.String()
		back, err := Parse(printed, NoUnit)
		if err != nil || back != w {
			t.Fatalf("%q is %+v, printed %q and read back as %+v, %v", s, w, printed, back, err)
		}
		if again := back.String(); again != printed {
			t.Fatalf("%q printed %q and then %q", s, printed, again)
		}
		if w.Length > 100*Metre || w.Length < -100*Metre {
			t.Fatalf("%q is %d pm", s, w.Length)
		}
	})
}

// FuzzParseDecimal holds the same of bare numbers, and that rounding a number
// to its own decimals prints it.
func FuzzParseDecimal(f *testing.F) {
	for _, s := range []string{"3.7503", "-,5", "2+", "000", "-0.000", "999999999999999", "--1", "1.2.3"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		d, err := ParseDecimal(s)
		if err != nil {
			return
		}
		if back, err := ParseDecimal(d.String()); err != nil || back != d {
			t.Fatalf("%q is %+v, printed %q and read back as %+v, %v", s, d, d, back, err)
		}
		if same, err := RoundDecimal(s, d.Places); err != nil || same != d.String() {
			t.Fatalf("%q to its own %d decimals is %q, %v; want %q", s, d.Places, same, err, d)
		}
	})
}
