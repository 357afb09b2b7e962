package record

import (
	"fmt"

	"borewright/engine/limit"
)

// NameOf returns the name under which an event sets something, or "" when it
// sets nothing: of two events of one name the later stands in the stead of the
// earlier.
func NameOf(b Body) string {
	name := func(parts ...any) string { return fmt.Sprint(append([]any{b.Is(), "\x00"}, parts...)...) }
	switch b := b.(type) {
	case Details, Layout, Plan, Rules, Steps:
		return name()
	case Limit:
		return name(limitName(b.Limits))
	case Given:
		return name(b.Name, "\x00", b.Of)
	case Table:
		return name(b.Name, "\x00", b.Of)
	case Instrument:
		return name(b.ID)
	case Setting:
		return name(b.ID)
	case Set:
		return name(b.ID)
	case Fitted:
		return name(b.Part)
	default:
		return ""
	}
}

// limitName is what limit.Limits.Same compares, as one text.
func limitName(l limit.Limits) string {
	return string(l.On) + "\x00" + l.Of + "\x00" + string(l.By)
}
