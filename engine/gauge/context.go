package gauge

import (
	"borewright/engine/length"
	"borewright/engine/plan"
)

// Context is what a keyed text is read against. Only Instrument is always
// needed; whatever else is missing, the checks that need it are not made.
type Context struct {
	Instrument Instrument
	// Zero is the size of the master the instrument stands on zero with, and
	// HasZero says that it is known. Without it a deviation means no size:
	// Meaning.At, Neighbours and Like are then deviations from zero.
	Zero    length.Length
	HasZero bool
	// Nominal is the size chosen for the family; Ladder the other sizes parts
	// are sold in, such as the oversizes.
	Nominal length.Written
	Ladder  []length.Length
	// Signed says that the figure itself has a sign, as a deck clearance has.
	Signed bool
	// FullSeen says that a size in full was taken in this set.
	FullSeen bool
	// Cable says that the text came by the instrument's cable, so that it is
	// what Instrument.Sends says.
	Cable bool
	// Neighbours are the feature's other readings at this stage, Like the
	// readings at the same place of its sisters; nearest first. Like counts
	// only where there are no Neighbours.
	Neighbours []length.Exact
	Like       []length.Exact
	// Shape says which way wear goes.
	Shape plan.Shape
	// Low and High are the smallest and the largest size when new; nil is not
	// known.
	Low, High *length.Length
}

// Meaning is what a keyed text means at its border: a size or a deviation from
// zero, never both. The zero value means nothing.
type Meaning struct {
	// Size is a size as keyed, or as its last digits were completed.
	Size length.Written
	// Dev is a deviation from zero, + larger.
	Dev length.Written
	// At is the size it comes to, or the deviation where the master's size is
	// not known.
	At length.Length
}

// IsZero reports whether there is no meaning.
func (m Meaning) IsZero() bool { return m.Size.IsZero() && m.Dev.IsZero() }

// Kind is how a keyed text was answered. The zero value is Refused.
type Kind uint8

// The answers to a keyed text.
const (
	Refused Kind = iota // it is no reading, and nothing was understood
	Held                // it looks like a slip: nothing is taken yet
	Taken               // it is a reading
)

// String returns the word for the answer.
func (k Kind) String() string {
	switch k {
	case Taken:
		return "taken"
	case Held:
		return "held"
	default:
		return "refused"
	}
}

// Result is the answer to a keyed text.
type Result struct {
	Kind    Kind
	Meaning Meaning
	// Reason is one sentence that says why it is not taken.
	Reason string
	// Likely is what was probably meant. It is shown and never taken.
	Likely string
	// Slip is the kind of slip it was held for.
	Slip Slip
}

// CanKeep reports whether a held text has one meaning to be kept as keyed. One
// that ends two sizes alike has none, and is keyed again in full.
func (r Result) CanKeep() bool { return r.Kind == Held && !r.Meaning.IsZero() }

func refused(reason string) Result { return Result{Kind: Refused, Reason: reason} }

func taken(m Meaning) Result { return Result{Kind: Taken, Meaning: m} }
