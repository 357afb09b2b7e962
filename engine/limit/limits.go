package limit

import (
	"slices"

	"borewright/engine/length"
	"borewright/engine/plan"
)

// Range is a low limit, a high limit or both, as written. A missing one is zero.
type Range struct {
	Low  length.Written `json:"low,omitzero"`
	High length.Written `json:"high,omitzero"`
}

// IsZero reports whether there is neither limit.
func (r Range) IsZero() bool { return r.Low.IsZero() && r.High.IsZero() }

// The limits a characteristic can be judged by.
const (
	New  = "new"
	Wear = "wear"
)

// Limits are what one characteristic of a family, or of one feature, may be.
// They keep the unit they were written in and where they come from. The zero
// value limits nothing.
type Limits struct {
	On Characteristic `json:"on"`
	// Of is a family ("bore") or one feature ("bore/3"), which goes before its
	// family's. A clearance is named by its hole: "bore" or "main-bearing".
	Of     string         `json:"of"`
	By     Definition     `json:"by,omitempty"`
	New    Range          `json:"new,omitzero"`
	Wear   Range          `json:"wear,omitzero"`
	Target length.Written `json:"target,omitzero"`
	// Per turns a printed limit "per inch of travel" into a limit: the limits
	// are per this length (such as "1 in") and hold for Travel.
	Per    length.Written `json:"per,omitzero"`
	Travel length.Written `json:"travel,omitzero"`
	// JudgeBy is New or Wear; when empty the session says, else new judges where
	// there is one, else wear.
	JudgeBy string `json:"judge,omitempty"`
	Source  string `json:"source,omitempty"`
}

// Find returns the limits of a characteristic that hold for a feature: its own
// where there are some, else its family's; ok is false when there are none.
func Find(all []Limits, on Characteristic, f plan.Feature) (l Limits, ok bool) {
	for _, of := range []string{f.String(), string(f.Family)} {
		i := slices.IndexFunc(all, func(l Limits) bool { return l.On == on && l.Of == of })
		if i >= 0 {
			return all[i], true
		}
	}
	return Limits{}, false
}

// Same reports whether two limits are on the same characteristic of the same
// feature or family by the same definition, so that one of them can stand.
func (l Limits) Same(o Limits) bool { return l.On == o.On && l.Of == o.Of && l.By == o.By }

// Among returns the one of a list that is the Same; ok is false when none is.
func (l Limits) Among(list []Limits) (same Limits, ok bool) {
	i := slices.IndexFunc(list, l.Same)
	if i < 0 {
		return Limits{}, false
	}
	return list[i], true
}

// Definition returns the definition the limits judge by: their own, else the
// session's where the characteristic has it, else the usual one.
func (l Limits) Definition(session Definition) Definition {
	switch {
	case l.By != "":
		return l.By
	case slices.Contains(traits[l.On].by, session):
		return session
	}
	return Usual(l.On)
}

// Signed reports whether a taper is judged with its sign, being limited on the
// low side too (a bore choked on purpose). Without a low side its magnitude is
// judged.
func (l Limits) Signed() bool { return !l.New.Low.IsZero() || !l.Wear.Low.IsZero() }

// JudgedBy returns which limits judge, New or Wear: what the limits say, else
// what the session says, else New where there is one, else Wear. One that is
// asked for and has neither a low nor a high side gives way to the next. It is
// "" when there are no limits.
func (l Limits) JudgedBy(session string) string {
	for _, by := range []string{l.JudgeBy, session, New, Wear} {
		if !l.Range(by).IsZero() {
			return by
		}
	}
	return ""
}

// Range returns the limits called New or Wear; a zero Range for any other name.
func (l Limits) Range(by string) Range {
	switch by {
	case New:
		return l.New
	case Wear:
		return l.Wear
	}
	return Range{}
}
