package limit

import (
	"slices"

	"borewright/engine/length"
)

// Field is one field of a row of limits that holds a length.
type Field string

// The fields.
const (
	NewLow  Field = "new low"
	NewHigh Field = "new high"
	WearLow Field = "wear low"
	// WearHigh is the high wear limit.
	WearHigh Field = "wear high"
	Target   Field = "target"
)

// Fields returns the fields in the order a row shows them.
func Fields() []Field { return []Field{NewLow, NewHigh, WearLow, WearHigh, Target} }

// At returns what is written in a field; zero for nothing written and for a
// field of another name.
func (l Limits) At(f Field) length.Written {
	if i := slices.Index(Fields(), f); i >= 0 {
		return *l.written()[i]
	}
	return length.Written{}
}

// order is where the field stands in its row.
func (f Field) order() int { return slices.Index(Fields(), f) }

// words names the field in a sentence.
func (f Field) words() string {
	switch f {
	case NewLow:
		return "the low new limit"
	case NewHigh:
		return "the high new limit"
	case WearLow:
		return "the low wear limit"
	case WearHigh:
		return "the high wear limit"
	case Target:
		return "the target"
	default:
		return "the figure"
	}
}

// ordered is a pair of fields of which the first is not above the second.
type ordered struct{ low, high Field }

// orders are all such pairs. A wear limit may be the new one itself.
var orders = []ordered{
	{NewLow, NewHigh},
	{WearLow, WearHigh},
	{NewHigh, WearHigh},
	{WearLow, NewLow},
	{NewLow, WearHigh},
	{WearLow, NewHigh},
	{NewLow, Target},
	{Target, NewHigh},
	{WearLow, Target},
	{Target, WearHigh},
}

// neighbours are the pairs that are of one order of magnitude.
var neighbours = []ordered{{NewLow, NewHigh}, {NewHigh, WearHigh}, {WearLow, NewLow}}
