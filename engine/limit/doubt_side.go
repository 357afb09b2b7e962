package limit

import (
	"fmt"
	"maps"

	"borewright/engine/length"
	"borewright/engine/plan"
)

// rowDoubts returns what is doubtful in a row by itself. A wear limit that
// likely belongs in the other field is looked at as if it stood there.
func (c Copied) rowDoubts() []Doubt {
	side, from, to := c.sideDoubt()
	misplaced := len(side.Likely) > 0
	if misplaced {
		c = c.moved(from, to)
	}
	sheet, out := newSheet(c)
	out = append(out, sheet.doubts()...)
	for i := range out {
		if misplaced && out[i].Field == to {
			out[i].Field = from
		}
	}
	if side.Reason != NoReason {
		out = append(out, side)
	}
	return out
}

// sideDoubt doubts a wear limit that stands alone on the side that wear does
// not move the figure to, and says in which field it stands and in which it may
// belong. The doubt has no reason when there is none.
func (c Copied) sideDoubt() (d Doubt, from, to Field) {
	from, to, beyond := WearLow, WearHigh, c.New.High
	switch wearsTo(c.Limits) {
	case up:
	case down:
		from, to, beyond = WearHigh, WearLow, c.New.Low
	default:
		return Doubt{}, from, to
	}
	w := c.At(from)
	if w.IsZero() || !c.At(to).IsZero() {
		return Doubt{}, from, to
	}
	d = Doubt{
		Field: from, Reason: WrongSide, Written: w.String(),
		Why: fmt.Sprintf("%s %s is alone, and wear moves this figure the other way", from.words(), w),
	}
	past := w.Length - beyond.Length
	if beyond.IsZero() || past == 0 || past > 0 == (to == WearHigh) {
		d.Likely = []Guess{{Misplaced, fmt.Sprintf("%s as %s", w, to.words())}}
	}
	return d, from, to
}

// moved returns the row with what is in one field in another.
func (c Copied) moved(from, to Field) Copied {
	also := maps.Clone(c.Also)
	if text, ok := also[from]; ok {
		also[to] = text
		delete(also, from)
	}
	c.Also = also
	fields := c.written()
	*fields[to.order()] = *fields[from.order()]
	*fields[from.order()] = length.Written{}
	return c
}

// wearsTo says which way wear moves a figure: up, down, or 0 where that is not
// known.
func wearsTo(l Limits) int {
	switch {
	case l.On == Taper && !l.New.Low.IsZero():
		return 0
	case KindOf(l.On) == KindForm || KindOf(l.On) == KindGap:
		return up
	case shapeOf(l.Of) == plan.Hole:
		return up
	case shapeOf(l.Of) == plan.Shaft:
		return down
	}
	return 0
}
