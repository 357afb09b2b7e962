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
	family, rest, ok := strings.Cut(text, "/")
	position, part, parted := strings.Cut(rest, "/")
	if !ok || strings.Contains(part, "/") {
		return Feature{}, noFeature(text, " is not written family/position, such as bore/3")
	}
	t, err := Family(family).known()
	if err != nil {
		return Feature{}, noFeature(text, ": %v", err)
	}
	at, err := strconv.Atoi(position)
	if err != nil || at < 1 || at > 99 || strconv.Itoa(at) != position {
		return Feature{}, noFeature(text, ": position %s is not a whole number from 1 to 99", Quote(position))
	}
	f := Feature{Family: t.Family, At: at}
	if i := slices.Index(t.Parts, part); i >= 0 {
		f.Part = t.Parts[i] // the table's own text
	}
	switch {
	case part == "" && len(t.Parts) > 0:
		return Feature{}, noFeature(text, ": its part is missing: %s", strings.Join(t.Parts, ", "))
	case parted && f.Part == "":
		return Feature{}, noFeature(text, ": %s have no part %s", t.Plural, Quote(part))
	}
	return f, nil
}

// noFeature is the error of reading a text. It has a copy of it, so that who reads
// a good one makes no garbage.
func noFeature(text, format string, args ...any) error {
	return &NameError{Text: strings.Clone(text), Reason: "feature " + Quote(text) + fmt.Sprintf(format, args...)}
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
