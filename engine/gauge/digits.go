package gauge

import (
	"fmt"

	"borewright/engine/length"
)

// Last digits. Fewer than span 0.1 in or 1 mm are refused: three at 0.0001 in
// or 0.001 mm. Never fewer than two, and never more than three before the point.
const (
	leastSpanInch = length.Inch / 10
	leastSpanMM   = length.Millimetre
	fewestDigits  = 2
	mostBefore    = 3
)

// How far from a size on the ladder its own parts may still lie: one step of
// the usual ladder. Common practice, no source.
const (
	ladderReachInch = length.Inch / 100
	ladderReachMM   = length.Millimetre / 4
)

// lastDigits completes the last digits of a size to the size nearest to the
// nominal that ends so.
func (c Context) lastDigits(n number) Result {
	places := c.Instrument.Places()
	one, err := length.Decimal{Coef: 1, Places: places}.Of(c.Instrument.Unit.Size())
	switch {
	case err != nil || one <= 0:
		return c.refuse(n, "the instrument has no unit")
	case c.Nominal.Length <= 0:
		return c.refuse(n, "no nominal is chosen for it; key the size in full, with its point")
	case !c.FullSeen:
		return c.refuse(n, "the first size of a set is keyed in full, with its point")
	case n.digits > places+mostBefore:
		return c.refuse(n, "more digits than a size has; was the point left out?")
	}
	if least := c.leastDigits(one); n.digits < least {
		return c.refuse(n, fmt.Sprintf("too few last digits; key %d or more, or the size in full", least))
	}
	e := ending{end: length.Length(n.dec.Coef) * one, span: one}
	for range n.digits {
		e.span *= 10
	}
	return c.complete(n, e, places)
}

// leastDigits returns how many last digits are needed at least.
func (c Context) leastDigits(one length.Length) int {
	span := leastSpanMM
	if c.Instrument.Unit == length.In {
		span = leastSpanInch
	}
	digits := 0
	for ; one < span; one *= 10 {
		digits++
	}
	return max(digits, fewestDigits)
}

// complete chooses the size with the ending, or holds what it cannot choose.
func (c Context) complete(n number, e ending, places int) Result {
	at, second := e.nearest(c.Nominal.Length)
	if second != 0 {
		return Result{
			Kind: Held, Slip: Ambiguous, Likely: c.either(second, at),
			Reason: fmt.Sprintf("%s ends two sizes as near to the nominal %s; key it in full", n.text, c.show(c.Nominal.Length)),
		}
	}
	m := Meaning{Size: length.Written{Length: at, Unit: c.Instrument.Unit, Places: places}, At: at}
	if other := c.onLadder(e, at); other != 0 {
		return Result{
			Kind: Held, Slip: Ambiguous, Meaning: m, Likely: c.either(at, other),
			Reason: fmt.Sprintf("%s ends a size near the nominal %s and another on the size ladder; key it in full", n.text, c.show(c.Nominal.Length)),
		}
	}
	return taken(m)
}

func (c Context) either(a, b length.Length) string {
	return c.show(min(a, b)) + " or " + c.show(max(a, b))
}

// onLadder returns a size with the ending, other than at, that belongs to a
// size of the ladder; 0 when there is none.
func (c Context) onLadder(e ending, at length.Length) length.Length {
	reach := c.inUnit(ladderReachInch, ladderReachMM)
	for _, step := range c.Ladder {
		near, second := e.nearest(step)
		for _, size := range []length.Length{near, second} {
			if size > 0 && size != at && abs(size-step) <= reach {
				return size
			}
		}
	}
	return 0
}

// ending is the set of sizes end + k × span.
type ending struct {
	end, span length.Length
}

// nearest returns the size above zero with the ending that lies nearest to a
// size, and another one as near when there is one, else 0.
func (e ending) nearest(to length.Length) (size, second length.Length) {
	steps := (to - e.end) / e.span
	if to < e.end {
		steps--
	}
	below := e.end + steps*e.span
	above := below + e.span
	switch {
	case below <= 0:
		return above, 0
	case to-below == above-to:
		return above, below
	case to-below < above-to:
		return below, 0
	default:
		return above, 0
	}
}

// inUnit picks the figure for the instrument's unit.
func (c Context) inUnit(inch, mm length.Length) length.Length {
	if c.Instrument.Unit == length.In {
		return inch
	}
	return mm
}

func abs(l length.Length) length.Length {
	if l < 0 {
		return -l
	}
	return l
}
