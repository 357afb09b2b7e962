package length

import (
	"errors"
	"strings"
)

// Written is a length as it was written: the exact length, the unit it was
// written in, and how many decimals were written, being its resolution. The
// zero value means nothing was written.
type Written struct {
	Length Length
	Unit   Unit
	Places int
}

// Parse reads a number, as ParseDecimal does, and a unit, as ParseUnit does,
// with or without spaces between them: "3.7503 in", "95,25mm". A number
// without a unit takes bare; with bare NoUnit it is an error, as is whatever
// is not a whole number of picometres or is beyond ±100 m. The error is a
// *ParseError that quotes s.
func Parse(s string, bare Unit) (Written, error) {
	text := strings.TrimSpace(s)
	end := numberEnd(text)
	unit := bare
	if name := strings.TrimLeft(text[end:], " "); name != "" {
		u, err := ParseUnit(name)
		if err != nil {
			return Written{}, requote(s, err)
		}
		unit = u
	}
	d, err := ParseDecimal(text[:end])
	if err != nil {
		return Written{}, requote(s, err)
	}
	if unit.Size() == 0 {
		return Written{}, refuse(s, "no unit given: use in, mm, µm or µin")
	}
	l, err := d.Of(unit.Size())
	if err != nil {
		return Written{}, requote(s, err)
	}
	return Written{Length: l, Unit: unit, Places: d.Places}, nil
}

// numberEnd returns where the digits, points and signs at the start of s end.
func numberEnd(s string) int {
	for i, r := range s {
		if !strings.ContainsRune("0123456789.,+-"+minus, r) {
			return i
		}
	}
	return len(s)
}

// requote makes err speak of the whole text s.
func requote(s string, err error) error {
	var p *ParseError
	if errors.As(err, &p) {
		return refuse(s, p.Reason)
	}
	return err
}

// String returns the length with its unit and all its decimals: "3.7500 in".
// It is empty when nothing was written.
func (w Written) String() string {
	if w.IsZero() {
		return ""
	}
	return w.Number() + " " + w.Unit.String()
}

// Number returns the length in its unit, without the unit's name: "3.7500".
func (w Written) Number() string {
	return Of(w.Length).Format(w.Unit, w.Places)
}

// IsZero reports whether nothing was written.
func (w Written) IsZero() bool { return w.Unit == NoUnit }

// Exact returns the written length for arithmetic; not measured when nothing
// was written.
func (w Written) Exact() Exact {
	if w.IsZero() {
		return Exact{}
	}
	return Of(w.Length)
}

// MarshalText writes what String does, and nothing when nothing was written.
// It returns ErrUnit for a unit unknown here and ErrInexact when the decimals
// do not hold the length exactly, so that what is kept reads back the same.
func (w Written) MarshalText() ([]byte, error) {
	if w.IsZero() {
		return []byte{}, nil
	}
	if w.Unit.Size() == 0 {
		return nil, ErrUnit
	}
	if w.Places < 0 || w.Places > maxDigits {
		return nil, ErrInexact
	}
	_, rem := wideOf(int64(w.Length)).times(pow10[w.Places]).quo(uint64(w.Unit.Size()))
	if rem != 0 {
		return nil, ErrInexact
	}
	return []byte(w.String()), nil
}

// UnmarshalText reads what MarshalText writes, and anything else Parse reads
// that states its unit. Empty text means nothing was written.
func (w *Written) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*w = Written{}
		return nil
	}
	v, err := Parse(string(text), NoUnit)
	if err != nil {
		return err
	}
	*w = v
	return nil
}
