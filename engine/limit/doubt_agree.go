package limit

import "borewright/engine/length"

// Agrees reports whether two printings are one figure: no further apart than
// half the last printed digit of the coarser. Of slopes that is said of what
// they come to per the same length; where only one says what it is per, the
// other is per that too.
func (p Printed) Agrees(o Printed) bool {
	if p.slopes(o) {
		l, ok := mulDiv(o.Length(), p.Per.Length, o.Per.Length)
		one, ok2 := mulDiv(o.one(), p.Per.Length, o.Per.Length)
		return ok && ok2 && near(p.Length(), l, coarser(p.digit(), digit(one, o.Number.Places)))
	}
	return p.agreesAsLength(o)
}

// agreesAsLength is Agrees without a thought of what the figures are per.
func (p Printed) agreesAsLength(o Printed) bool {
	return near(p.Length(), o.Length(), coarser(p.digit(), o.digit()))
}

// slopes reports whether both say what they are per.
func (p Printed) slopes(o Printed) bool { return !p.Per.IsZero() && !o.Per.IsZero() }

// near reports whether two lengths are no further apart than half a digit.
func near(a, b length.Length, digit length.Exact) bool {
	return length.Of(a).Sub(length.Of(b)).Abs().Times(2).Cmp(digit) <= 0
}

func coarser(a, b length.Exact) length.Exact {
	if a.Cmp(b) < 0 {
		return b
	}
	return a
}

// digit returns what one in the last printed digit is worth.
func (p Printed) digit() length.Exact { return digit(p.one(), p.Number.Places) }

// digit returns the worth of the last of so many decimals of a unit. It is for
// comparing only, which takes it as it is, in lowest terms or not.
func digit(one length.Length, places int) length.Exact {
	count := int64(1)
	for range places {
		count *= 10
	}
	return length.Exact{Sum: one, Count: count}
}

// turned returns the slopes from which p may have come by converting its length
// but not what it is per, or by the reverse; beside is the other printing of it.
func (p Printed) turned(beside Printed) []slipped {
	if !p.slopes(beside) || !p.agreesAsLength(beside) {
		return nil
	}
	var out []slipped
	if l, ok := mulDiv(beside.Length(), p.Per.Length, beside.Per.Length); ok {
		out = append(out, slipped{TurnedSlope, p.retold(l)})
	}
	q := p
	q.Per = beside.Per
	return append(out, slipped{TurnedSlope, q})
}

// untwisted returns the slope that p was before it was made 25.4 times as
// steep.
func (p Printed) untwisted() []slipped {
	if p.Per.IsZero() {
		return nil
	}
	l, ok := mulDiv(p.Length(), length.Millimetre, length.Inch)
	if !ok {
		return nil
	}
	return []slipped{{TurnedSlope, p.retold(l)}}
}

// retold returns the figure as another length in the same unit, with no fewer
// decimals, and one more where none hold it exactly.
func (p Printed) retold(l length.Length) Printed {
	for places := p.Number.Places; places <= maxPlaces; places++ {
		if q := p.retyped(format(l, p.Unit, places)); q.Length() == l {
			return q
		}
	}
	return p.retyped(format(l, p.Unit, p.Number.Places+1))
}
