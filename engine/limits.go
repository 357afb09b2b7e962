package engine

import (
	"fmt"

	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// TakenError says that limits cannot be given, because there are some of the
// same name already.
type TakenError struct {
	On limit.Characteristic
	// Of names the feature or the family as a sentence does.
	Of string
}

// Error returns the sentence.
func (e *TakenError) Error() string {
	return fmt.Sprintf("there is a limit on %s of %s by this definition already: change that one", e.On, e.Of)
}

// ChangeLimit returns the events that put limits in the stead of others: was is
// what stands now, zero for nothing; now is what shall, zero to take the limit
// away. Limits go by what they limit, of what and by which definition; where
// that changes, what stood is taken back. A limit is taken back by withdrawing
// every event that set it, so that the log can bring it back. None are returned
// when nothing changes. The error is a *limit.InvalidError, a *TakenError, or
// says that the layout has no such feature.
func (s *Session) ChangeLimit(was, now limit.Limits) ([]record.Body, error) {
	none := limit.Limits{}
	moved := was != none && !sameLimit(was, now)
	var out []record.Body
	if moved {
		out = s.takeBack(was)
	}
	if now == none {
		return out, nil
	}
	if err := now.Validate(); err != nil {
		return nil, err
	}
	if f, err := plan.ParseFeature(now.Of); err == nil {
		if err := inLayout(s.layout, f); err != nil {
			return nil, err
		}
	}
	old, have := find(s.limits, func(l limit.Limits) bool { return sameLimit(l, now) })
	switch {
	case have && (moved || was == none):
		return nil, &TakenError{now.On, s.nameOf(now.Of)}
	case have && old == now:
		return out, nil
	}
	return append(out, record.Limit{Limits: now}), nil
}

// classSource is where limits come from that a tolerance class gave.
const classSource = "ISO 286-1:2010, "

// ByClass returns the limits of size that a tolerance class gives a family, and
// where they come from: "60 H6", or "H6" alone for the nominal size given. The
// error is a *limit.ClassError, also for a hole's class on a shaft.
func ByClass(text string, f plan.Family, nominal length.Written) (r limit.Range, source string, err error) {
	c, err := limit.ParseClass(text)
	if err != nil {
		return r, "", err
	}
	if c.Nominal.IsZero() {
		c.Nominal = nominal
	}
	if shape := f.Shape(); shape != plan.NoShape && c.Shape() != shape {
		words := map[plan.Shape]string{plan.Hole: "holes", plan.Shaft: "shafts"}
		return r, "", &limit.ClassError{Text: text, Reason: fmt.Sprintf("it is a class for %s, and %s are %s", words[c.Shape()], f.Plural(), words[shape])}
	}
	if r, err = c.Range(length.Written{}); err != nil {
		return r, "", err
	}
	return r, classSource + c.String(), nil
}
