package keying

import "borewright/engine/gauge"

// Situation is a row of the table: where the machine is. The zero value is
// Empty.
type Situation uint8

// The situations. A State is Empty, Typing, Held or Menu; with nothing keyed,
// Where says which of Empty, Revisit, Repeating and Asked it is.
const (
	Empty     Situation = iota // nothing is keyed, and the place has no reading
	Typing                     // a number is being keyed
	Held                       // what was keyed is held for a reason
	Menu                       // the menu is open
	Revisit                    // nothing is keyed, and the place has a reading
	Repeating                  // nothing is keyed, and what is keyed next is added
	Asked                      // nothing is keyed of the answer to a question
	situations
)

var situationNames = [situations]string{
	Empty: "empty", Typing: "typing", Held: "held", Menu: "menu",
	Revisit: "revisit", Repeating: "repeating", Asked: "asked",
}

// String returns the situation's name.
func (s Situation) String() string {
	if s < situations {
		return situationNames[s]
	}
	return ""
}

// State is where the keying stands. The zero value has nothing keyed.
type State struct {
	// At is Empty, Typing, Held or Menu.
	At Situation
	// Text is what is keyed so far, as keyed.
	Text string
	// Repeat says that the next number is added to the place's readings.
	Repeat bool
	// Held is why Text is held, and Cable that it came by a cable.
	Held  gauge.Result
	Cable bool
	// Asking is the question that is being answered; none when What is empty.
	Asking Asking
	// Arrived is what came while it could not be taken. It is only shown.
	Arrived string
	// Quick says that the menu was opened from within a burst.
	Quick bool
	// Dropped says that a character was refused where this text stands, so that
	// a burst that ends now is not whole.
	Dropped bool
}

// Asking is a question that is answered with a number.
type Asking struct {
	// What says what is asked: one of the Ask names, or the host's own.
	What string
	// Title is the question in plain words.
	Title string
	// Signed says that the answer may have a sign.
	Signed bool
	// Options are the choices that the numbers from 1 stand for; may be empty.
	Options []string
}

// What the menu asks for.
const (
	AskZero        = "zero check"
	AskGauge       = "gauge"
	AskTemperature = "temperature"
	AskGoTo        = "go to"
	AskWork        = "work done here"
)

// View is what the host knows at the moment of a token.
type View struct {
	// HasReading says that the place has a reading already: Reading, as text.
	HasReading bool
	Reading    string
	// Signed says that a reading may have a sign here.
	Signed bool
	// JustTaken says that there is a place just taken, to be repeated.
	JustTaken bool
	// Read says what a text means: as a reading, or as the answer to
	// State.Asking. Cable says that it came in a burst. Without Read no reading
	// is taken, and answers are passed on unread.
	Read func(text string, cable bool) gauge.Result
	// Off gives, for the menu's items that are off, why.
	Off map[Item]string
}

// Ask returns the state with a question asked and nothing keyed. The host asks
// the next of several questions with it, or puts its own words to the one that
// the menu began.
func Ask(s State, a Asking) State {
	return State{Repeat: s.Repeat, Asking: a}
}

// Where returns the row of the table that the state is in.
func Where(s State, v View) Situation {
	switch {
	case s.At != Empty:
		return s.At
	case s.asked():
		return Asked
	case s.Repeat:
		return Repeating
	case v.HasReading:
		return Revisit
	default:
		return Empty
	}
}

func (s State) asked() bool { return s.Asking.What != "" }

// signed reports whether what is keyed now may have a sign.
func (s State) signed(v View) bool {
	if s.asked() {
		return s.Asking.Signed
	}
	return v.Signed
}

// cleared returns the state with nothing keyed, at the same place and question.
func (s State) cleared() State {
	return State{Repeat: s.Repeat, Asking: s.Asking}
}
