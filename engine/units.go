package engine

import (
	"borewright/engine/length"
	"borewright/engine/record"
)

// RulesIn returns the event that shows the session's figures in a unit and
// leaves how it judges as it is. What was keyed and the limits keep the units
// they were written in.
func (s *Session) RulesIn(u length.Unit) record.Rules {
	r := s.rules
	r.Unit = u
	return r
}

// OtherUnit returns the unit that the figures are not shown in: millimetres in
// an inch session, else inches.
func (s *Session) OtherUnit() length.Unit {
	if s.Unit() == length.In {
		return length.MM
	}
	return length.In
}

// homeUnit returns the unit that the session was set up in, whichever its
// figures are shown in.
func (s *Session) homeUnit() length.Unit {
	if s.details.Unit != length.NoUnit {
		return s.details.Unit
	}
	return length.MM
}

// placesFor returns how many decimals in unit u tell the last digit of what
// was written, or of what was read as a deviation, in another unit.
func placesFor(w length.Written, u length.Unit) int {
	if w.IsZero() || w.Unit == u {
		return 0
	}
	step := w.Unit.Size()
	for range w.Places {
		step /= 10
	}
	places, own := 0, u.Size()
	for own > step && places < u.Decimals()+1 {
		own /= 10
		places++
	}
	return places
}
