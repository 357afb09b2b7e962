package limit

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"borewright/engine/length"
)

// Reason is why a limit is doubted.
type Reason uint8

// The reasons.
const (
	NoReason    Reason = iota
	Unreadable         // what is printed beside it is no figure
	Disagree           // two printings of one limit are not one length
	OutOfOrder         // low above high, wear inside new, a target outside
	Implausible        // far from its nominal, or from the limits beside it
	Steep              // per length, and steeper than any limit is
	WrongSide          // a wear limit on the side that wear does not move to
	Tenfold            // the digits of a like limit, and the point elsewhere
	Uneven             // off the equal steps of its ladder
)

var reasonNames = [...]string{
	NoReason: "", Unreadable: "not readable", Disagree: "printings disagree", OutOfOrder: "out of order",
	Implausible: "implausible", Steep: "steep", WrongSide: "wrong side", Tenfold: "tenfold", Uneven: "uneven step",
}

// String returns a short name of the reason, and nothing for none.
func (r Reason) String() string {
	if int(r) < len(reasonNames) {
		return reasonNames[r]
	}
	return ""
}

// Guess is what was likely meant, and by which slip it became what is written.
// It is for showing beside what is written, never for putting in its place.
type Guess struct {
	Slip Slip
	Text string // the value with its unit, and of which printing where there are two
}

// Doubt is one reason to look a limit up again where it was copied from. What
// is doubted may be right all the same: nothing is changed.
type Doubt struct {
	// Row says which of the limits, or which rung of a ladder, from 0.
	Row int
	// Field is the field of the row; "" for a rung and for a pair by itself.
	Field   Field
	Reason  Reason
	Written string // what is written there
	Why     string // one clause that names the values
	// Likely are the values that were likely meant, the likeliest first; none
	// where no single slip explains what is written.
	Likely []Guess
}

// String says the doubt in one sentence.
func (d Doubt) String() string {
	var likely []string
	for _, g := range d.Likely {
		likely = append(likely, fmt.Sprintf("%s (%s)", g.Text, g.Slip))
	}
	if len(likely) == 0 {
		return d.Why
	}
	return d.Why + ": likely " + strings.Join(likely, " or ")
}

// Copied are limits as they were copied from a book, with what helps to doubt
// them.
type Copied struct {
	Limits
	// Also is what the book prints for the same limit elsewhere: its conversion,
	// such as "13.972 cm", or the same figure on another page. A limit per length
	// may say so again: "0.0127 mm per mm".
	Also map[Field]string
	// Nominal is the size that the feature is meant to have; zero when it is not
	// known. It is used for sizes alone.
	Nominal length.Written
}

// Doubts looks for misprints and slips of copying in all limits of a session
// and returns what is doubtful, row by row and field by field. It changes
// nothing. What it looks for:
//
//   - two printings of a limit that differ by more than half the last printed
//     digit of the coarser;
//   - a low limit above its high one, a wear limit inside the new one, a target
//     outside the limits;
//   - a wear limit on the side alone that wear does not move a figure to;
//   - a size further than 1/40 from its nominal, or from the limits beside it,
//     and a gap or form limit more than ten times the one beside it (both
//     common practice, no source);
//   - a slope that was converted like a length, or is too steep for a slope;
//   - the digits of a like limit with the point elsewhere.
//
// A ladder of sizes is looked at by LadderDoubts.
func Doubts(all []Copied) []Doubt {
	var out []Doubt
	for i, c := range all {
		for _, d := range c.rowDoubts() {
			d.Row = i
			out = append(out, d)
		}
	}
	out = append(out, tenfoldDoubts(all)...)
	slices.SortStableFunc(out, func(a, b Doubt) int {
		return cmp.Or(cmp.Compare(a.Row, b.Row), cmp.Compare(a.Field.order(), b.Field.order()))
	})
	return out
}

// Doubts looks for misprints in one row of limits, as the function of that name
// does in all of them. also may be nil.
func (l Limits) Doubts(also map[Field]string) []Doubt {
	return Doubts([]Copied{{Limits: l, Also: also}})
}

// PairDoubts returns what is doubtful in two printings of one figure; nothing
// when they agree.
func PairDoubts(a, b Printed) []Doubt {
	s := sheet{at: map[Field]Printed{"": a}, also: map[Field]Printed{"": b}}
	if a.slopes(b) {
		s.kind = KindForm
	}
	return s.doubts()
}
