package engine

import (
	"borewright/engine/length"
	"borewright/engine/plan"
)

// sees returns the least difference that the family's gauge can tell: its
// reading step, or when no gauge is chosen the usual last decimal of the unit
// that the session was set up in.
func (s *Session) sees(f plan.Family) length.Length {
	g, _ := s.plan.Group(f)
	i, ok := s.Instrument(g.Instrument)
	if ok {
		return i.Resolution().Round()
	}
	if s.homeUnit() == length.In {
		return length.Inch / 10_000
	}
	return length.Millimetre / 1000
}
