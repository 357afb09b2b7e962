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

// ParseFeature reads the text form of a feature of a known family. The error is
// a *NameError.
func ParseFeature(text string) (Feature, error) {
	fields := strings.Split(text, "/")
	if len(fields) < 2 || len(fields) > 3 {
		return Feature{}, noFeature(text, " is not written family/position, such as bore/3")
	}
	t, err := Family(fields[0]).known()
	if err != nil {
		return Feature{}, noFeature(text, ": %v", err)
	}
	at, err := strconv.Atoi(fields[1])
	if err != nil || at < 1 || at > 99 || strconv.Itoa(at) != fields[1] {
		return Feature{}, noFeature(text, ": position %s is not a whole number from 1 to 99", Quote(fields[1]))
	}
	f := Feature{Family: t.Family, At: at}
	if len(fields) == 3 {
		f.Part = fields[2]
	}
	switch {
	case f.Part == "" && len(t.Parts) > 0:
		return Feature{}, noFeature(text, ": its part is missing: %s", strings.Join(t.Parts, ", "))
	case len(fields) == 3 && !slices.Contains(t.Parts, f.Part):
		return Feature{}, noFeature(text, ": %s have no part %s", t.Plural, Quote(f.Part))
	}
	return f, nil
}

func noFeature(text, format string, args ...any) error {
	return &NameError{Text: text, Reason: "feature " + Quote(text) + fmt.Sprintf(format, args...)}
}

// FamilyOf returns the family that a text names, alone ("bore") or by one of
// its features ("bore/3"). The error is a *NameError.
func FamilyOf(text string) (Family, error) {
	if !strings.Contains(text, "/") {
		t, err := Family(text).known()
		return t.Family, err
	}
	f, err := ParseFeature(text)
	return f.Family, err
}

// Validate says why this is not a feature of a known family, or nil. The error
// is a *NameError.
func (f Feature) Validate() error {
	_, err := ParseFeature(f.String())
	return err
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
