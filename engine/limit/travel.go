package limit

import (
	"math/bits"

	"borewright/engine/length"
)

// maxPlaces is how many decimals a computed limit is written with at most.
const maxPlaces = 12

// Effective returns the limits with a limit printed per length turned into a
// plain one: value × Travel ÷ Per in 128 bits, rounded half to even to 1 pm,
// in the unit it was written in. "0.0005 in per 1 in" over a travel of 3.5 in
// is 0.00175 in. A slope has no unit, so Per and Travel may have any.
//
// Limits that are already plain come back as they are. Where Per stands
// without a Travel, or either is not above zero, there is nothing to judge by:
// the ranges and the target come back empty. Validate says so beforehand.
func (l Limits) Effective() Limits {
	if l.Per.IsZero() && l.Travel.IsZero() {
		return l
	}
	for _, w := range l.written() {
		*w = scale(*w, l.Travel, l.Per)
	}
	l.Per, l.Travel = length.Written{}, length.Written{}
	return l
}

// Oversize returns the limits of a part made larger by a step: the step is
// added to the new and the wear limits and to the target (TM 9-2815-220-24
// WP 0135 p. 8: an oversize adds exactly itself to all three limits of a
// bore). A step below zero is an undersize.
func (l Limits) Oversize(by length.Written) Limits {
	for _, w := range l.written() {
		*w = shift(*w, by.Length, by)
	}
	return l
}

// Deviation returns the range as a comparator zeroed on a master of this size
// reads it: each limit less the master's size, + larger than the master.
func (r Range) Deviation(master length.Written) Range {
	return Range{
		Low:  shift(r.Low, -master.Length, master),
		High: shift(r.High, -master.Length, master),
	}
}

// written returns every length that the limits set.
func (l *Limits) written() []*length.Written {
	return []*length.Written{&l.New.Low, &l.New.High, &l.Wear.Low, &l.Wear.High, &l.Target}
}

// shift returns w + by in w's unit, with the decimals of both; nothing when
// nothing was written.
func shift(w length.Written, by length.Length, wrote length.Written) length.Written {
	if w.IsZero() {
		return w
	}
	places := w.Places
	if wrote.Unit == w.Unit {
		places = max(places, wrote.Places)
	}
	return rewritten(w.Length+by, w.Unit, places)
}

// scale returns w × travel ÷ per; nothing when it cannot be computed.
func scale(w, travel, per length.Written) length.Written {
	l, ok := mulDiv(w.Length, travel.Length, per.Length)
	if !ok || w.IsZero() {
		return length.Written{}
	}
	return rewritten(l, w.Unit, w.Places)
}

// rewritten writes l in the unit, with the fewest decimals from places up that
// hold it exactly. Where no 12 do it has 3 more than places, and its Length
// stays exact.
func rewritten(l length.Length, u length.Unit, places int) length.Written {
	for p := places; p <= maxPlaces; p++ {
		w := length.Written{Length: l, Unit: u, Places: p}
		if _, err := w.MarshalText(); err == nil {
			return w
		}
	}
	return length.Written{Length: l, Unit: u, Places: min(places+3, maxPlaces)}
}

// mulDiv returns v × by ÷ per in 128 bits, rounded half to even; ok is false
// when by or per is not above zero or the quotient does not fit.
func mulDiv(v, by, per length.Length) (l length.Length, ok bool) {
	if by <= 0 || per <= 0 {
		return 0, false
	}
	size, neg := uint64(v), v < 0
	if neg {
		size = -size
	}
	hi, lo := bits.Mul64(size, uint64(by))
	if hi >= uint64(per) {
		return 0, false
	}
	q, rem := bits.Div64(hi, lo, uint64(per))
	if left := uint64(per) - rem; rem > left || rem == left && q&1 == 1 {
		q++
	}
	if q > 1<<63-1 {
		return 0, false
	}
	if neg {
		return -length.Length(q), true
	}
	return length.Length(q), true
}
