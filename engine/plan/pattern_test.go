package plan

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func whole(pattern string) *regexp.Regexp { return regexp.MustCompile(`^(?:` + pattern + `)$`) }

// TestFeaturePatternProperty: a text is a match when and only when it names a
// family or a feature.
func TestFeaturePatternProperty(t *testing.T) {
	family, feature := whole(FamilyPattern()), whole(FeaturePattern())
	words := []string{"/", "/", "", "0", "1", "9", "10", "99", "100", "valve", "upper", "lower", "top", "oil", " "}
	for _, f := range families {
		words = append(words, string(f.Family))
		if !family.MatchString(string(f.Family)) {
			t.Errorf("%s is no match", f.Family)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOfN(rapid.SampledFrom(words), 0, 5).Draw(t, "words"), "")
		_, err := ParseFeature(text)
		if (err == nil) != feature.MatchString(text) {
			t.Fatalf("%q: match is %v, and ParseFeature says %v", text, feature.MatchString(text), err)
		}
		if _, ok := Family(text).Traits(); ok != family.MatchString(text) {
			t.Fatalf("%q: match is %v, and it is a family: %v", text, family.MatchString(text), ok)
		}
	})
}

// TestDirectionPatterns tries every angle and name in every family.
func TestDirectionPatterns(t *testing.T) {
	texts := []string{"across", "along", "vertical", "horizontal", "once", "up", "", " 90 ", "090", "+45", "-0", "-1", "45°", " 180°", "45 °", "45°°", "4 5"}
	for deg := range 400 {
		texts = append(texts, strconv.Itoa(deg))
	}
	for _, f := range families {
		canonical, written := whole(f.DirectionPattern()), whole(f.WrittenPattern())
		for _, text := range texts {
			if err := CheckDirection(f.Family, text); (err == nil) != canonical.MatchString(text) {
				t.Errorf("%q of %s: match is %v, and CheckDirection says %v", text, f.Plural, canonical.MatchString(text), err)
			}
			if _, err := ParseDirection(f.Family, text); (err == nil) != written.MatchString(text) {
				t.Errorf("%q of %s: match is %v, and ParseDirection says %v", text, f.Plural, written.MatchString(text), err)
			}
		}
	}
}
