package plan

import (
	"fmt"
	"strconv"
	"strings"
)

// ParseDirection returns the canonical text of a direction of the family: its
// name where the family has one (across, along, vertical, horizontal), else
// whole degrees from 0 to 179. Angles are taken modulo 180°. The error is a
// *NameError.
func ParseDirection(f Family, text string) (string, error) {
	t, err := f.known()
	if err != nil {
		return "", err
	}
	word := strings.TrimSpace(strings.ToLower(text))
	for _, name := range t.Named {
		if word == name {
			return name, nil
		}
	}
	deg, err := strconv.Atoi(strings.TrimSuffix(word, "°"))
	if err != nil || deg < 0 || deg > 360 {
		reason := fmt.Sprintf("direction %s of %s is neither %s nor an angle from 0 to 360", Quote(text), t.Plural, t.named())
		return "", &NameError{Text: text, Reason: reason}
	}
	if name, ok := t.Named[deg%180]; ok {
		return name, nil
	}
	if t.Figure != "" {
		return "", &NameError{Text: text, Reason: fmt.Sprintf("%s has no direction %s: it is written %q", t.Plural, Quote(text), Once)}
	}
	return strconv.Itoa(deg % 180), nil
}

// CheckDirection says why a text is not the canonical text of a direction of
// the family, or nil. The error is a *NameError.
func CheckDirection(f Family, dir string) error {
	canonical, err := ParseDirection(f, dir)
	if err == nil && canonical != dir {
		return &NameError{Text: dir, Reason: fmt.Sprintf("direction %s of %s is written %q", Quote(dir), f.Plural(), canonical)}
	}
	return err
}

// named returns the names of the family's directions, for a sentence.
func (t Traits) named() string {
	var names []string
	for _, deg := range []int{90, 0} {
		if n, ok := t.Named[deg]; ok {
			names = append(names, n)
		}
	}
	return strings.Join(names, ", ")
}

// Angle returns the angle of a canonical direction of the family in degrees,
// 0 to 179; ok is false when the direction is not one.
func Angle(f Family, dir string) (deg int, ok bool) {
	t, _ := f.Traits()
	for deg, name := range t.Named {
		if dir == name {
			return deg, true
		}
	}
	deg, err := strconv.Atoi(dir)
	return deg, err == nil && deg >= 0 && deg < 180
}
