package length

import "strings"

// Unit is a unit a length is written in. The zero value is NoUnit.
type Unit uint8

// The units that can be written.
const (
	NoUnit Unit = iota // no unit was written or chosen
	In                 // inch
	MM                 // millimetre
	UM                 // micrometre
	UIn                // microinch
)

// units holds, by Unit, what is known of each.
var units = [...]struct {
	name     string
	size     Length
	decimals int
}{
	NoUnit: {},
	In:     {"in", Inch, 4},
	MM:     {"mm", Millimetre, 3},
	UM:     {"µm", Micrometre, 0},
	UIn:    {"µin", Microinch, 0},
}

// String returns "in", "mm", "µm" or "µin", and nothing for NoUnit. The sign
// for micro is U+00B5.
func (u Unit) String() string {
	if int(u) >= len(units) {
		return ""
	}
	return units[u].name
}

// Size returns the length of one of the unit, and 0 for NoUnit.
func (u Unit) Size() Length {
	if int(u) >= len(units) {
		return 0
	}
	return units[u].size
}

// Decimals returns how many decimals the unit is usually shown with: 4 for
// inches, 3 for millimetres, none for micrometres and microinches.
func (u Unit) Decimals() int {
	if int(u) >= len(units) {
		return 0
	}
	return units[u].decimals
}

// ParseUnit reads a unit: in, inch, ", mm, um, µm, uin or µin, in capital or
// small letters, with either of the signs for micro, U+00B5 and U+03BC. It
// takes nothing else: no plurals, no spaces. The error is a *ParseError.
func ParseUnit(s string) (Unit, error) {
	switch lowerASCII(s) {
	case "in", "inch", `"`:
		return In, nil
	case "mm":
		return MM, nil
	case "um", "\u00b5m", "\u03bcm":
		return UM, nil
	case "uin", "\u00b5in", "\u03bcin":
		return UIn, nil
	case "":
		return NoUnit, refuse(s, "no unit given: use in, mm, µm or µin")
	}
	return NoUnit, refuse(s, "not a unit known here: use in, mm, µm or µin")
}

// MarshalText writes the unit as String does.
func (u Unit) MarshalText() ([]byte, error) {
	if int(u) >= len(units) {
		return nil, ErrUnit
	}
	return []byte(u.String()), nil
}

// UnmarshalText reads a unit as ParseUnit does; empty text is NoUnit.
func (u *Unit) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*u = NoUnit
		return nil
	}
	v, err := ParseUnit(string(text))
	if err != nil {
		return err
	}
	*u = v
	return nil
}

// lowerASCII makes the letters A to Z small and leaves all else alone, so that
// no other script's capitals are taken for a unit.
func lowerASCII(s string) string {
	return strings.Map(func(r rune) rune {
		if 'A' <= r && r <= 'Z' {
			return r + 'a' - 'A'
		}
		return r
	}, s)
}
