package gauge

import (
	"borewright/engine/length"
	"borewright/engine/plan"
)

// How far from what is expected a reading may lie. All of it is common
// practice, no source, and diametral.
//
// Beside readings: a worn feature seldom changes by more than this between two
// of its places. Of the nominal, or of the new sizes: few are worn by more
// before they are cut oversize.
const (
	besideInch  = 6 * length.Inch / 1000
	besideMM    = 15 * length.Millimetre / 100
	nominalInch = 10 * length.Inch / 1000
	nominalMM   = 25 * length.Millimetre / 100
)

// expected is where a reading is looked for.
type expected struct {
	spans []span        // any of them will do
	near  length.Length // how far from a span still is near
	by    string        // what the spans are, as a sentence says it
	read  bool          // the spans are readings
}

// span is a low and a high end.
type span struct{ low, high length.Exact }

// expected returns where a reading with the meaning's border is looked for:
// beside the feature's own readings, else beside its sisters', else where the
// nominal and the new sizes lie. There may be nothing to go by.
func (c Context) expected(sized bool) expected {
	e := expected{near: c.inUnit(besideInch, besideMM), read: true}
	if e.spans = points(c.Neighbours); len(e.spans) > 0 {
		e.by = "the nearest reading beside it"
		return e
	}
	if e.spans = points(c.Like); len(e.spans) > 0 {
		e.by = "the same place of the others"
		return e
	}
	if !sized {
		return expected{}
	}
	e = expected{spans: c.newSpan(), near: c.inUnit(nominalInch, nominalMM), by: "the size it has when new"}
	if !c.Nominal.IsZero() {
		e.by += " (" + c.Nominal.String() + ")"
	}
	return e
}

func points(readings []length.Exact) []span {
	var out []span
	for _, r := range readings {
		if r.Measured() {
			out = append(out, span{r, r})
		}
	}
	return out
}

// newSpan reaches from the smallest to the largest of nominal and new sizes.
func (c Context) newSpan() []span {
	var at []length.Exact
	if c.Nominal.Length > 0 {
		at = append(at, length.Of(c.Nominal.Length))
	}
	for _, l := range []*length.Length{c.Low, c.High} {
		if l != nil {
			at = append(at, length.Of(*l))
		}
	}
	if len(at) == 0 {
		return nil
	}
	return []span{{length.Min(at...), length.Max(at...)}}
}

// off returns how far l lies from the nearest span: 0 inside one, not measured
// when there is none.
func (e expected) off(l length.Length) length.Exact {
	var all []length.Exact
	for _, s := range e.spans {
		at := length.Of(l)
		all = append(all, length.Max(s.low.Sub(at), at.Sub(s.high), length.Of(0)))
	}
	return length.Min(all...)
}

// fits reports whether l lies near a span.
func (e expected) fits(l length.Length) bool {
	off := e.off(l)
	return off.Measured() && off.CmpLength(e.near) <= 0
}

// far reports whether there is something to go by and l lies near none of it.
func (e expected) far(l length.Length) bool {
	off := e.off(l)
	return off.Measured() && off.CmpLength(e.near) > 0
}

// unworn reports whether a size lies on the side that wear cannot reach: a hole
// below its new minimum, a shaft above its new maximum.
func (c Context) unworn(size length.Length) bool {
	switch c.Shape {
	case plan.Hole:
		return c.Low != nil && size < *c.Low
	case plan.Shaft:
		return c.High != nil && size > *c.High
	default:
		return false
	}
}
