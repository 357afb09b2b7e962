package keying

import "borewright/engine/gauge"

// Effect is something the host is to do, in the order given.
type Effect interface{ effect() }

// As says how a reading joins those of its place.
type As string

// How a reading joins those of its place.
const (
	First   As = "first"   // the place has none
	Repeat  As = "repeat"  // it is added to them
	Replace As = "replace" // it stands in their stead
)

// Take is a reading to be recorded at the place, and the place left.
type Take struct {
	Text   string
	Result gauge.Result
	As     As
	// Despite is the reason for which it was held before it was kept as keyed.
	Despite string
	// Cable says that it came in a burst.
	Cable bool
}

// Answer is the answer to a question. The question is closed.
type Answer struct {
	What    string
	Text    string
	Result  gauge.Result
	Despite string
	Cable   bool
}

// AskFor says that the menu began a question, which State.Asking holds.
type AskFor struct{ What string }

// Cancel says that a question was given up.
type Cancel struct{ What string }

// Hold says that what was keyed is held, with the reason to be shown.
type Hold struct{ Result gauge.Result }

// Refuse says that a key was refused, with the reason to be shown.
type Refuse struct{ Reason string }

// Bell rings so many times: two for held or refused.
type Bell struct{ Times int }

// NumLockOff says that the keypad sends navigation keys: "NumLock looks off".
type NumLockOff struct{}

// GoRepeat goes back to the place just taken, to add a repeat there.
type GoRepeat struct{}

// LeaveOut leaves the place out of the plan.
type LeaveOut struct{}

// Forward goes to the next place and Back to the one before.
type (
	Forward struct{}
	Back    struct{}
)

// NextFeature goes to the first place of the next feature.
type NextFeature struct{}

// Withdraw takes the last reading back.
type Withdraw struct{}

func (Take) effect()        {}
func (Answer) effect()      {}
func (AskFor) effect()      {}
func (Cancel) effect()      {}
func (Hold) effect()        {}
func (Refuse) effect()      {}
func (Bell) effect()        {}
func (NumLockOff) effect()  {}
func (GoRepeat) effect()    {}
func (LeaveOut) effect()    {}
func (Forward) effect()     {}
func (Back) effect()        {}
func (NextFeature) effect() {}
func (Withdraw) effect()    {}
