package gauge

import (
	"fmt"

	"borewright/engine/length"
)

// form is what a keyed number counts.
type form uint8

const (
	inGraduations form = iota // graduations from zero
	inDeviation               // a deviation from zero, in a unit
	inSize                    // a size, in a unit
)

// form returns what a number in this context counts.
func (c Context) form() form {
	if c.Cable {
		switch c.Instrument.Sends {
		case SendsSize:
			return inSize
		case SendsDeviation:
			return inDeviation
		case SendsGraduations:
			return inGraduations
		}
	}
	if c.Instrument.Kind == Comparator {
		return inGraduations
	}
	return inSize
}

// Read says what a keyed text means. It accepts
//
//	comparator       graduations from zero: "3", "-1.5", "2+"; the sign means size
//	direct           a size with its point: "3.7503", "3,7503"; or, once Context.FullSeen,
//	                 the last digits of the size nearest to the nominal: "503"
//	indicator        a figure with its point, or 0
//	any, by cable    what Instrument.Sends says, with or without a unit
//
// and refuses everything else. What it accepts is taken, or held when it looks
// like a slip: see Slip. Only Context.Signed lets a size have a sign.
func Read(keyed string, c Context) Result {
	n, err := c.number(keyed)
	if err != nil {
		return refused(err.Error())
	}
	r := c.mean(n)
	if r.Kind != Taken {
		return r
	}
	return c.look(n, r.Meaning)
}

// mean gives a number its meaning, before any slip is looked for. It holds what
// has more than one.
func (c Context) mean(n number) Result {
	switch f := c.form(); {
	case f == inGraduations && n.unit != length.NoUnit:
		return c.refuse(n, "graduations have no unit")
	case f == inGraduations:
		return c.graduations(n)
	case f == inDeviation:
		return c.deviation(n)
	case n.signed && !c.Signed && !c.plainPlus(n):
		return c.refuse(n, "a size has no sign")
	case n.point || c.Cable:
		return c.size(n)
	case c.Instrument.Kind != Direct || c.Signed:
		if n.dec.Coef != 0 {
			return c.refuse(n, "key it in full, with its point")
		}
		return c.size(n)
	default:
		return c.lastDigits(n)
	}
}

// plainPlus reports whether the sign is only the plus a cable puts before a size.
func (c Context) plainPlus(n number) bool { return c.Cable && n.text[0] == '+' }

func (c Context) refuse(n number, reason string) Result {
	return refused((&TextError{n.text, reason}).Error())
}

// size reads a size in full.
func (c Context) size(n number) Result {
	w, r := c.written(n)
	switch {
	case w.IsZero():
		return r
	case w.Length < 0 && !c.Signed, w.Length == 0 && c.Instrument.Kind != Indicator && !c.Signed:
		return c.refuse(n, "a size is more than zero")
	}
	return taken(Meaning{Size: w, At: w.Length})
}

// deviation reads a deviation in a unit.
func (c Context) deviation(n number) Result {
	w, r := c.written(n)
	if w.IsZero() {
		return r
	}
	return c.deviates(n, w)
}

// written reads a number in the unit sent, else in the instrument's. Without
// either it returns nothing written and a refusal.
func (c Context) written(n number) (length.Written, Result) {
	unit := n.unit
	if unit == length.NoUnit {
		unit = c.Instrument.Unit
	}
	if unit.Size() == 0 {
		return length.Written{}, c.refuse(n, "the instrument has no unit")
	}
	l, err := n.dec.Of(unit.Size())
	if err != nil {
		return length.Written{}, refused(err.Error())
	}
	return length.Written{Length: l, Unit: unit, Places: n.dec.Places}, Result{}
}

// mostPlaces is how many decimals a deviation can be kept with.
const mostPlaces = 15

// graduations reads graduations from zero.
func (c Context) graduations(n number) Result {
	g := c.Instrument.Graduation
	if g.Length <= 0 {
		return c.refuse(n, "the instrument has no graduation to count")
	}
	l, err := n.dec.Of(g.Length)
	if err != nil {
		return refused(err.Error())
	}
	places := g.Places + n.dec.Places
	if places > mostPlaces {
		return c.refuse(n, "far finer than any dial")
	}
	return c.deviates(n, length.Written{Length: l, Unit: g.Unit, Places: places})
}

// longest is the longest length taken.
const longest = 100 * length.Metre

// deviates gives a deviation from zero the size it comes to.
func (c Context) deviates(n number, dev length.Written) Result {
	m := Meaning{Dev: dev, At: dev.Length}
	if c.HasZero {
		m.At += c.Zero
		if abs(m.At) > longest {
			return c.refuse(n, "longer than 100 m, the longest length taken")
		}
		if m.At <= 0 && !c.Signed {
			return c.refuse(n, fmt.Sprintf("from a zero at %s that leaves nothing of the size", c.show(c.Zero)))
		}
	}
	return taken(m)
}

// sized reports whether At is a size, not only a deviation.
func (c Context) sized(m Meaning) bool { return !m.Size.IsZero() || c.HasZero }
