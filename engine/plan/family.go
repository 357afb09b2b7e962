package plan

import (
	"fmt"
	"slices"
	"strings"

	"borewright/engine/length"
)

// Family is one kind of feature, such as "bore". Its zero value is no family.
type Family string

// Shape says which way wear moves a size: it opens a hole and thins a shaft.
type Shape uint8

// The shapes of a feature.
const (
	NoShape Shape = iota
	Hole
	Shaft
)

// Line is the list a summary shows a feature in.
type Line uint8

// The two lines of a summary.
const (
	NoLine Line = iota
	CylinderLine
	CrankLine
)

// String returns the word for one member of the line.
func (l Line) String() string {
	switch l {
	case CylinderLine:
		return "cylinder"
	case CrankLine:
		return "main"
	default:
		return ""
	}
}

// Traits are what holds for every feature of one family. A family is added by
// adding its row to the table in families.go.
type Traits struct {
	Family Family
	// Noun names one feature before its label; "{part}" stands for its part.
	Noun string
	// Plural names the whole family.
	Plural string
	Shape  Shape
	// Line is the summary line the feature belongs to.
	Line Line
	// Labels is the key of Layout.Labels that names the positions.
	Labels string
	// Count is how many positions a layout has.
	Count func(Layout) int
	// Parts are the parts that every position has, front to back as they are
	// read; none when a position is one feature.
	Parts []string
	// Named gives the directions that have a name, by their angle in degrees.
	Named map[int]string
	// Ends name the first and the last level when a plan does not.
	Ends [2]string
	// Usual are the directions proposed for 1 to 4 directions.
	Usual [4][]string
	// Judged is the direction alone that counts for the family's figures, or
	// "" when all do: shells are eccentric by design.
	Judged string
	// Figure names what one reading is, such as "end gap", where the feature is
	// no diameter; its places are points without a direction.
	Figure string
	// Signed says that a reading may be zero or below: see Family.CheckSize.
	Signed bool
	// Loose is the loose part that the feature belongs to: its readings follow
	// that part to where it sits. None for what is cut into block or crank.
	Loose Family
	// Seat is the family whose position a loose part takes up, and Unread says
	// that the family is such a part, with no readings of its own.
	Seat   Family
	Unread bool
}

// Once is the direction of a place that has none.
const Once = "once"

// Families returns the rows of every family that can be read, in the order a
// plan proposes.
func Families() []Traits {
	return slices.DeleteFunc(slices.Clone(families), func(t Traits) bool { return t.Unread })
}

// Traits returns the family's row; ok is false for a family nobody knows.
func (f Family) Traits() (t Traits, ok bool) {
	for i := range families {
		if families[i].Family == f {
			return families[i], true
		}
	}
	return Traits{}, false
}

// known returns the family's row, or a *NameError for a family nobody knows.
func (f Family) known() (Traits, error) {
	t, ok := f.Traits()
	if !ok {
		return t, &NameError{Text: strings.Clone(string(f)), Reason: fmt.Sprintf("no family is called %s", Quote(string(f)))}
	}
	return t, nil
}

// CheckSize says why a length is no size of a feature of the family, or nil: a
// diameter or a wall is above zero, a gap may be zero, and a figure that has a
// sign (Traits.Signed) may be anything. It holds for readings, nominals, limits
// and targets alike. Nothing written passes. The error is a *SizeError.
func (f Family) CheckSize(size length.Written) error {
	t, _ := f.Traits()
	gap := t.Figure != "" && t.Shape == NoShape
	switch {
	case t.Signed, size.IsZero(), size.Length > 0, gap && size.Length == 0:
		return nil
	case gap:
		return &SizeError{Size: size, Reason: "is below zero"}
	default:
		return &SizeError{Size: size, Reason: "is not above zero"}
	}
}

// Noun returns the word for one feature of the family, whichever its part.
func (f Family) Noun() string {
	if t, ok := f.Traits(); ok {
		return strings.TrimSpace(strings.ReplaceAll(t.Noun, "{part}", ""))
	}
	return string(f)
}

// Plural returns the word for all features of the family.
func (f Family) Plural() string {
	if t, ok := f.Traits(); ok {
		return t.Plural
	}
	return string(f)
}

// Shape returns the family's shape.
func (f Family) Shape() Shape {
	t, _ := f.Traits()
	return t.Shape
}

// Line returns the summary line of the family.
func (f Family) Line() Line {
	t, _ := f.Traits()
	return t.Line
}
