package engine

import (
	"fmt"
	"slices"

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
	moved := was != none && !was.Same(now)
	var out []record.Body
	if moved {
		out = s.TakeBack(was)
	}
	if now == none {
		return out, nil
	}
	if err := now.Validate(); err != nil {
		return nil, err
	}
	if f, err := plan.ParseFeature(now.Of); err == nil {
		if err := s.layout.Has(f); err != nil {
			return nil, err
		}
	}
	old, have := now.Among(s.limits)
	switch {
	case have && (moved || was == none):
		return nil, &TakenError{now.On, s.nameOf(now.Of)}
	case have && old == now:
		return out, nil
	}
	return append(out, record.Limit{Limits: now}), nil
}

// TakeBack withdraws every live event that set a limit, the newest first.
func (s *Session) TakeBack(l limit.Limits) []record.Body {
	var out []record.Body
	for _, e := range slices.Backward(s.events) {
		if b, is := e.Body.(record.Limit); is && s.Live(e.N) && b.Same(l) {
			out = append(out, record.Withdrawn{Event: e.N})
		}
	}
	return out
}
