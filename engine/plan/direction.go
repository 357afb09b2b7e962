package plan

import (
	"fmt"
	"strconv"
	"strings"
)

// ParseDirection returns the canonical text of a direction of the family: its
// name where the family has one (across, along, vertical, horizontal), else
// whole degrees from 0 to 179. Angles are taken modulo 180°.
func ParseDirection(f Family, text string) (string, error) {
	t, ok := f.Traits()
	if !ok {
		return "", fmt.Errorf("no family is called %q", string(f))
	}
	word := strings.TrimSpace(strings.ToLower(text))
	for _, name := range t.Named {
		if word == name {
			return name, nil
		}
	}
	deg, err := strconv.Atoi(strings.TrimSuffix(word, "°"))
	if err != nil || deg < 0 || deg > 360 {
		return "", fmt.Errorf("direction %q of %s is neither %s nor an angle from 0 to 360", text, t.Plural, t.named())
	}
	if name, ok := t.Named[deg%180]; ok {
		return name, nil
	}
	return strconv.Itoa(deg % 180), nil
}

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
