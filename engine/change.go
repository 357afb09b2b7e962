package engine

import (
	"fmt"

	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// What a Change does, in the words in which it is recorded as intended.
const (
	Hone     = "hone to"   // a bore to a size
	Grind    = "grind to"  // a journal to a size
	File     = "file to"   // a ring's end gap
	Bring    = "bring to"  // an end play, a protrusion, a deck clearance
	FitShell = "fit shell" // a half of this undersize
	FitWall  = "fit wall"  // a half of this wall
	Seat     = "seat"      // a loose part at a position
)

// did are the words in which the work is recorded that carries a change out.
var did = map[string]string{
	Hone: "honed", Grind: "ground", File: "filed", Bring: "adjusted", FitShell: "shell changed", FitWall: "shell by wall",
}

// Change is one thing that may be done: what a remedy asks for, what is tried,
// or what was decided.
type Change struct {
	// Did is one of the words above.
	Did string
	// Of is what is changed: a bore, a journal, a gap, the half of a shell, or
	// the loose part that is put somewhere.
	Of plan.Feature
	// Size is what it is made to; a shell's undersize or wall.
	Size length.Written
	// At is the position of a loose part.
	At plan.Feature
}

// Action returns the change as it is recorded as intended.
func (c Change) Action() record.Action {
	if c.Did == Seat {
		return record.Action{Did: c.Did, To: []plan.Feature{c.Of, c.At}}
	}
	return record.Action{Did: c.Did, To: []plan.Feature{c.Of}, Amount: c.Size.String()}
}

// ChangeOf returns the change that an action means; ok is false for an action
// that is none of them.
func ChangeOf(a record.Action) (c Change, ok bool) {
	c.Did = a.Did
	if a.Did == Seat {
		if len(a.To) != 2 {
			return Change{}, false
		}
		c.Of, c.At = a.To[0], a.To[1]
		return c, true
	}
	if _, known := did[a.Did]; !known || len(a.To) != 1 {
		return Change{}, false
	}
	w, err := length.Parse(a.Amount, length.NoUnit)
	c.Of, c.Size = a.To[0], w
	return c, err == nil
}

// Tell says a change in words, such as "hone bore 2 to 3.7511 in".
func (s *Session) Tell(c Change) string {
	switch c.Did {
	case Seat:
		return fmt.Sprintf("put %s at %s", s.Name(c.Of), s.Name(c.At))
	case FitShell:
		return fmt.Sprintf("fit %s of %s", s.Name(c.Of), undersizeWord(c.Size))
	case FitWall:
		return fmt.Sprintf("fit %s with a wall of %s", s.Name(c.Of), c.Size)
	case Hone, Grind, File, Bring:
		verb := map[string]string{Hone: "hone", Grind: "grind", File: "file", Bring: "bring"}[c.Did]
		return fmt.Sprintf("%s %s to %s", verb, s.Name(c.Of), c.Size)
	default:
		return c.Did + " " + s.Name(c.Of)
	}
}

// undersizeWord says an undersize, which may be none or extra clearance.
func undersizeWord(w length.Written) string {
	switch {
	case w.Length == 0:
		return "standard size"
	case w.Length < 0:
		return "extra clearance " + w.Exact().Neg().Format(w.Unit, w.Places) + " " + w.Unit.String()
	default:
		return w.String() + " undersize"
	}
}

// Written writes a length, rounded half to even to 1 pm, with as few decimals
// as hold it exactly in the session's unit, else in millimetres.
func (s *Session) Written(e length.Exact) length.Written {
	l, u := e.Round(), s.Unit()
	for places := u.Decimals(); places <= mostPlaces; places++ {
		w := length.Written{Length: l, Unit: u, Places: places}
		if _, err := w.MarshalText(); err == nil {
			return w
		}
	}
	return length.Written{Length: l, Unit: length.MM, Places: mmPlaces}
}

// mostPlaces is how many decimals a size is written with at most before it is
// written in millimetres, of which mmPlaces decimals are whole picometres.
const mostPlaces, mmPlaces = 9, 9
