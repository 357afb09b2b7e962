package plan

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Feature is one thing that is measured, by position: its text form is
// "bore/3" or "shell-main/2/upper". Positions count from 1. The zero value is
// no feature.
type Feature struct {
	Family Family
	At     int
	Part   string
}

// ParseFeature reads the text form of a feature of a known family.
func ParseFeature(text string) (Feature, error) {
	fields := strings.Split(text, "/")
	if len(fields) < 2 || len(fields) > 3 {
		return Feature{}, fmt.Errorf("feature %q is not written family/position, such as bore/3", text)
	}
	f := Feature{Family: Family(fields[0])}
	if _, ok := f.Family.Traits(); !ok {
		return Feature{}, fmt.Errorf("feature %q: no family is called %q", text, fields[0])
	}
	at, err := strconv.Atoi(fields[1])
	if err != nil || at < 1 || at > 99 || strconv.Itoa(at) != fields[1] {
		return Feature{}, fmt.Errorf("feature %q: position %q is not a whole number from 1 to 99", text, fields[1])
	}
	f.At = at
	if len(fields) == 3 {
		f.Part = fields[2]
	}
	return f, f.checkPart(text)
}

// checkPart holds the part to those that the family has.
func (f Feature) checkPart(text string) error {
	t, _ := f.Family.Traits()
	switch {
	case f.Part == "" && len(t.Parts) > 0:
		return fmt.Errorf("feature %q: its part is missing: %s", text, strings.Join(t.Parts, ", "))
	case f.Part != "" && !slices.Contains(t.Parts, f.Part):
		return fmt.Errorf("feature %q: %s have no part %q", text, t.Plural, f.Part)
	default:
		return nil
	}
}

// String returns the text form.
func (f Feature) String() string {
	s := string(f.Family) + "/" + strconv.Itoa(f.At)
	if f.Part != "" {
		s += "/" + f.Part
	}
	return s
}

// MarshalText writes the text form.
func (f Feature) MarshalText() ([]byte, error) { return []byte(f.String()), nil }

// UnmarshalText reads the text form.
func (f *Feature) UnmarshalText(text []byte) error {
	p, err := ParseFeature(string(text))
	if err != nil {
		return err
	}
	*f = p
	return nil
}

// IsZero reports whether there is no feature.
func (f Feature) IsZero() bool { return f == Feature{} }

// Place is where one reading is taken: a feature, a level's id and a direction
// in its canonical text. The zero value is no place.
type Place struct {
	Of    Feature `json:"of"`
	Level string  `json:"level"`
	Dir   string  `json:"dir"`
}

// IsZero reports whether there is no place.
func (p Place) IsZero() bool { return p == Place{} }
