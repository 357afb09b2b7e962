package engine

import (
	"fmt"
	"time"

	"borewright/engine/record"
)

// Check says why an event could not be applied next, or nil. The session is
// unchanged.
func (s *Session) Check(b record.Body) error {
	if b.Is() == record.IsDetails && len(s.events) == 0 {
		return nil
	}
	if err := (record.Event{At: time.Unix(0, 0).UTC(), Body: b}).Validate(); err != nil {
		return err
	}
	switch b := b.(type) {
	case record.Reading:
		if err := s.inPlan(b.Place()); err != nil {
			return err
		}
		return s.checkSet(b)
	case record.LeftOut:
		return s.inPlan(b.Place())
	case record.Setting:
		if i, ok := s.Instrument(b.Instrument); ok {
			if err := b.ValidateFor(i); err != nil {
				return err
			}
		}
		return s.try(b)
	case record.Withdrawn:
		return s.CheckWithdraw(b.Event)
	default:
		return s.try(b)
	}
}

// CheckAll says why events could not be applied one after another, or nil. The
// session is unchanged.
func (s *Session) CheckAll(bodies ...record.Body) error {
	if len(bodies) == 1 {
		return s.Check(bodies[0])
	}
	trial, err := Replay(s.events)
	if err != nil {
		return err
	}
	for _, b := range bodies {
		if err := trial.Check(b); err != nil {
			return err
		}
		n := trial.Head().N + 1
		e := record.Sealed{Event: record.Event{N: n, Body: b}, Head: record.Head{N: n}}
		if _, err := trial.Apply(e); err != nil {
			return err
		}
	}
	return nil
}

// try applies an event to a copy of the state.
func (s *Session) try(b record.Body) error {
	next := state{events: s.events}
	for _, e := range s.events {
		if !s.Live(e.N) || e.Is() == record.IsWithdrawn {
			continue
		}
		if err := next.apply(e); err != nil {
			return fmt.Errorf("event %d (%s): %w", e.N, e.Is(), err)
		}
	}
	return next.apply(record.Sealed{Event: record.Event{N: int64(len(s.events)) + 1, Body: b}})
}
