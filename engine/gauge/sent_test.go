package gauge_test

import (
	"errors"
	"strings"
	"testing"
	"unicode/utf8"

	"borewright/engine/gauge"
	"borewright/engine/length"
)

func TestSent(t *testing.T) {
	for line, want := range map[string]string{
		"3.7503": "3.7503", "+3.7503": "+3.7503", "-0.0012": "-0.0012", "12": "12", "2+": "2+", ".5": ".5", "95,258": "95,258",
		"  3.7503  ": "3.7503", "\t3.7503": "3.7503", "+   0.012": "+0.012", "- 1.5": "-1.5", "\u2212 1.5": "\u22121.5",
		"3.7503in": "3.7503 in", "3.7503 in": "3.7503 in", `3.7503"`: "3.7503 in", "3.7503 INCH": "3.7503 in",
		"+00095.258 mm": "+00095.258 mm", "-  2.5  um": "-2.5 µm", "-2.5 \u03bcm": "-2.5 µm", "95.258\u00a0mm": "95.258 mm",
		strings.Repeat("0", 18) + "3.7503": strings.Repeat("0", 18) + "3.7503",
	} {
		if got, err := gauge.Sent(line); err != nil || got != want {
			t.Errorf("Sent(%q) = %q, %v, want %q", line, got, err, want)
		}
	}
}

func TestSentRefusesWhatIsNoValue(t *testing.T) {
	for line, want := range map[string]error{
		"": gauge.ErrNoNumber, "   ": gauge.ErrNoNumber, "+": gauge.ErrNoNumber, ".": gauge.ErrNoNumber, "mm": gauge.ErrNoNumber,
		"ERR 5": gauge.ErrNoNumber, "E-3": gauge.ErrNoNumber, "1e3": gauge.ErrNoNumber, "01A+3.7503": gauge.ErrNoNumber,
		"3.75 03": gauge.ErrNoNumber, "3.75.03": gauge.ErrNoNumber, "+-3": gauge.ErrNoNumber, "3.75 mm 2": gauge.ErrNoNumber,
		"3.7\x0003": gauge.ErrNoNumber, "\x003.7503": gauge.ErrNoNumber, "3.7503\x1b[A": gauge.ErrNoNumber, "3.75\t03": gauge.ErrNoNumber,
		"3.7503\u0085": gauge.ErrNoNumber, "3.7503*": gauge.ErrNoNumber, "/3": gauge.ErrNoNumber, "NaN": gauge.ErrNoNumber,
		"1\u0661": gauge.ErrNoNumber, "95.2 cm": gauge.ErrSentUnit, "3.7503 inches": gauge.ErrSentUnit, "21 kg": gauge.ErrSentUnit, "-  3 cm": gauge.ErrSentUnit,
		strings.Repeat("0", 19) + "3.7503":    gauge.ErrTooLong,
		strings.Repeat("0", 17) + "3.7503 mm": gauge.ErrTooLong,
	} {
		if got, err := gauge.Sent(line); !errors.Is(err, want) || got != "" {
			t.Errorf("Sent(%q) = %q, %v, want %v", line, got, err, want)
		}
	}
}

// A value that a line gave is read as the cable's, whatever it counts, and
// giving it again changes nothing.
func FuzzSent(f *testing.F) {
	for _, line := range []string{"", "+ 3.7503 in", "-0.5", "12 \u03bcm", "01A+12", "3.\x007", "999999999999999.9", "\u2212,5\"", "2+ mm"} {
		f.Add(line)
	}
	f.Fuzz(func(t *testing.T, line string) {
		text, err := gauge.Sent(line)
		if err != nil {
			if text != "" {
				t.Errorf("Sent(%q) refuses and gives %q", line, text)
			}
			return
		}
		if again, err := gauge.Sent(text); err != nil || again != text {
			t.Errorf("Sent(%q) = %q, then %q, %v", line, text, again, err)
		}
		if utf8.RuneCountInString(text) > gauge.Longest {
			t.Errorf("Sent(%q) is %q, longer than any reading", line, text)
		}
		number, _, _ := strings.Cut(text, " ")
		if _, err := length.ParseDecimal(number); err != nil {
			t.Errorf("Sent(%q) is %q: %v", line, text, err)
		}
		if digitsOf(text) != digitsOf(line) {
			t.Errorf("Sent(%q) is %q: other digits", line, text)
		}
	})
}

// digitsOf returns the digits of a text.
func digitsOf(text string) string {
	return strings.Map(func(r rune) rune {
		if r < '0' || r > '9' {
			return -1
		}
		return r
	}, text)
}
