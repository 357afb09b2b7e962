package length

import (
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func whole(pattern string) *regexp.Regexp { return regexp.MustCompile(`^(?:` + pattern + `)$`) }

func TestPatternTakes(t *testing.T) {
	stated, bare := whole(Pattern(false)), whole(Pattern(true))
	for _, text := range []string{
		"3.7503 in", "3.7503in", "95,25  mm", "-0.0005 INCH", "2.5\"", "5- µm", "+5 \u03bcm", "−.5 uIn", "3. Mm", "\u00a03 in\u2003",
	} {
		if !stated.MatchString(text) || !bare.MatchString(text) {
			t.Errorf("%q is no match", text)
		}
	}
	if text := "3.7503"; stated.MatchString(text) || !bare.MatchString(text) {
		t.Errorf("%q has no unit", text)
	}
	for _, text := range []string{"", "in", "3.7.5 in", "+3- in", "3 cm", "3 in in", "1e3 mm", "NaN mm", ". in", "3 i n"} {
		if stated.MatchString(text) || bare.MatchString(text) {
			t.Errorf("%q is a match", text)
		}
	}
	if millimetre := whole(UnitPattern(MM)); !millimetre.MatchString("mM") || millimetre.MatchString("in") {
		t.Error("the pattern of mm is not of mm alone")
	}
}

// tooLong reports whether a text was refused for how much it says, not for how
// it is written.
func tooLong(err error) bool {
	return err != nil && (strings.Contains(err.Error(), "longer than 100 m") || strings.Contains(err.Error(), "finer than a picometre"))
}

// TestPatternProperty: a text is a match when and only when it can be read, but
// for its digits.
func TestPatternProperty(t *testing.T) {
	patterns := map[Unit]*regexp.Regexp{NoUnit: whole(Pattern(false)), MM: whole(Pattern(true))}
	unit, number := whole(UnitPattern()), whole(BlankPattern+NumberPattern+BlankPattern)
	part := rapid.SampledFrom([]string{"0", "7", ".", ",", "+", "-", "−", " ", "\u00a0", "i", "N", "in", "mm", "UM", "µm", "\u03bcin", "uin", `"`, "inch", "m", "e"})
	rapid.Check(t, func(t *rapid.T) {
		text := ""
		for _, p := range rapid.SliceOfN(part, 0, 6).Draw(t, "parts") {
			text += p
		}
		for bare, p := range patterns {
			if _, err := Parse(text, bare); !tooLong(err) && (err == nil) != p.MatchString(text) {
				t.Fatalf("%q with unit %q: match is %v, and Parse says %v", text, bare, p.MatchString(text), err)
			}
		}
		if _, err := ParseUnit(text); (err == nil) != unit.MatchString(text) {
			t.Fatalf("%q: match is %v, and ParseUnit says %v", text, unit.MatchString(text), err)
		}
		if _, err := ParseDecimal(text); (err == nil) != number.MatchString(text) {
			t.Fatalf("%q: match is %v, and ParseDecimal says %v", text, number.MatchString(text), err)
		}
	})
}
