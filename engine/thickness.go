package engine

import (
	"borewright/engine/length"
	"borewright/engine/plan"
)

// Thickness returns how thick the half of a shell is that is in: its wall, or
// by how much it is thicker than a standard one, half its undersize. What was
// put in last counts, else what is given, else the wall as read, and a shell of
// which nothing is said is standard; its wall is not measured.
func (s *Session) Thickness(half plan.Feature, wall bool) length.Exact {
	name, didIt := GivenUndersize, did[FitShell]
	if wall {
		name, didIt = GivenWall, did[FitWall]
	}
	if e, ok := s.lastFitted(half, didIt); ok {
		return thick(e, wall)
	}
	if wall {
		m := s.measure(half, new(measurer))
		if m.Figures.Mean.Measured() {
			return m.Figures.Mean
		}
	}
	if e := s.givenLength(name, half); e.Measured() || wall {
		return thick(e, wall)
	}
	return length.Of(0)
}

// thick returns the thickness of a shell of an undersize or a wall.
func thick(e length.Exact, wall bool) length.Exact {
	if wall {
		return e
	}
	return e.Half()
}

// thicknessOf returns the thickness of the shell that a change fits.
func (s *Session) thicknessOf(c Change) length.Exact { return thick(c.Size.Exact(), c.Did == FitWall) }

// lastFitted returns the size that the last work of its kind on a shell gave.
func (s *Session) lastFitted(half plan.Feature, didIt string) (e length.Exact, ok bool) {
	for _, w := range s.works[half] {
		if w.Did != didIt || w.Amount == "" {
			continue
		}
		if x, err := length.Parse(w.Amount, s.Unit()); err == nil {
			e, ok = x.Exact(), true
		}
	}
	return e, ok
}

// UndersizeOf returns the undersize of the half of a shell that is in.
func (s *Session) UndersizeOf(half plan.Feature) length.Exact {
	return s.Thickness(half, false).Times(2)
}
