package gauge

import (
	"fmt"

	"borewright/engine/length"
	"borewright/engine/plan"
)

// doubt is a reading that is looked at for slips.
type doubt struct {
	Context
	n      number
	m      Meaning
	expect expected
	sized  bool
}

// hold is why a reading is held and what was probably meant.
type hold struct {
	slip           Slip
	reason, likely string
}

// checks are looked through in this order, and the first that speaks holds the
// reading: a slip with a cause before one without, far from its neighbours last.
var checks = []func(doubt) (hold, bool){
	doubt.unitSent, doubt.explained, doubt.wrongSide, doubt.outOfRange, doubt.finer, doubt.farOff,
}

// look takes a meaning, or holds it for the slip it looks like.
func (c Context) look(n number, m Meaning) Result {
	d := doubt{Context: c, n: n, m: m, sized: c.sized(m)}
	d.expect = c.expected(d.sized)
	for _, check := range checks {
		if h, held := check(d); held {
			return Result{Kind: Held, Meaning: m, Reason: h.reason, Likely: h.likely, Slip: h.slip}
		}
	}
	return taken(m)
}

// odd reports whether the reading is not where a reading is expected.
func (d doubt) odd() bool { return d.expect.far(d.m.At) || d.unwornHere() }

func (d doubt) unwornHere() bool { return d.sized && d.unworn(d.m.At) }

// likelier reports whether another meaning is where a reading is expected.
func (d doubt) likelier(at length.Length) bool {
	return d.expect.fits(at) && (!d.sized || !d.unworn(at))
}

// twiceAsNear reports whether another meaning lies at least twice as near to
// what is expected. Digits can be turned into much, so what they are turned
// into must be worth it: common practice, no source.
func (d doubt) twiceAsNear(at length.Length) bool {
	return d.expect.off(at).Times(2).Cmp(d.expect.off(d.m.At)) <= 0
}

// name writes a size, or a deviation where the size is not known.
func (d doubt) name(at length.Length) string {
	if d.sized {
		return d.show(at)
	}
	return d.showSigned(at)
}

// distance says how odd the reading is.
func (d doubt) distance() string {
	if d.expect.off(d.m.At).Sign() == 0 {
		return d.sideOfWear()
	}
	return fmt.Sprintf("%s lies %s from %s", d.name(d.m.At), d.showRounded(d.expect.off(d.m.At)), d.expect.by)
}

// unitSent holds what a cable sent in a unit that is not the instrument's.
func (d doubt) unitSent() (hold, bool) {
	if d.n.unit == length.NoUnit || d.n.unit == d.Instrument.Unit {
		return hold{}, false
	}
	return hold{
		WrongUnit,
		fmt.Sprintf("the cable sent %s, but this instrument is set up in %s", inWords[d.n.unit], inWords[d.Instrument.Unit]),
		d.name(d.m.At),
	}, true
}

// fineness reports whether a meaning is finer than can be read.
func (c Context) fineness(m Meaning) bool {
	if !m.Dev.IsZero() {
		return c.Instrument.tooFine(m.Dev.Length)
	}
	return c.Instrument.tooFine(m.Size.Length)
}

// wrongSide holds what wear cannot do.
func (d doubt) wrongSide() (hold, bool) {
	return hold{WrongSide, d.sideOfWear(), ""}, d.unwornHere()
}

func (d doubt) sideOfWear() string {
	switch {
	case !d.unwornHere():
		return ""
	case d.Shape == plan.Shaft:
		return fmt.Sprintf("%s is above the new maximum %s, and wear only makes it smaller", d.show(d.m.At), d.show(*d.High))
	default:
		return fmt.Sprintf("%s is below the new minimum %s, and wear only makes it larger", d.show(d.m.At), d.show(*d.Low))
	}
}

// outOfRange holds what the instrument cannot reach.
func (d doubt) outOfRange() (hold, bool) {
	low, high := d.Instrument.Low, d.Instrument.High
	var ends string
	switch {
	case !d.sized:
		return hold{}, false
	case !low.IsZero() && d.m.At < low.Length:
		ends = "below " + low.String() + ", the smallest"
	case !high.IsZero() && d.m.At > high.Length:
		ends = "above " + high.String() + ", the largest"
	default:
		return hold{}, false
	}
	return hold{OutOfRange, fmt.Sprintf("%s is %s the instrument reads", d.show(d.m.At), ends), ""}, true
}

// finer holds what is finer than the instrument can be read by eye.
func (d doubt) finer() (hold, bool) {
	if d.Cable || !d.fineness(d.m) {
		return hold{}, false
	}
	h := hold{slip: TooFine, reason: fmt.Sprintf("%s is finer than this instrument is read: its step is %s", d.n.text, d.showExact(d.Instrument.Resolution()))}
	if at, err := d.n.dec.Of(d.unit().Size()); err == nil && d.sized && d.m.Size.IsZero() && d.likelier(at) {
		h.likely = d.show(at) + ", the size and not the graduations"
	}
	return h, true
}

// farOff holds what lies far from everything known, for no cause that is known.
func (d doubt) farOff() (hold, bool) {
	if !d.expect.far(d.m.At) {
		return hold{}, false
	}
	return hold{FarOff, d.distance(), ""}, true
}
