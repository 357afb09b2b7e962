package engine

import (
	"errors"
	"fmt"

	"borewright/engine/record"
)

// Errors of replaying events.
var (
	// ErrOrder says that an event does not follow the one before it.
	ErrOrder = errors.New("events are out of order")
	// ErrNoDetails says that a session does not begin with its details.
	ErrNoDetails = errors.New("a session begins with its details")
)

// EventError says which event could not be applied and why. The session is as
// it was before.
type EventError struct {
	N   int64
	Is  record.Kind
	Err error
}

// Error returns the sentence.
func (e *EventError) Error() string { return fmt.Sprintf("event %d (%s): %v", e.N, e.Is, e.Err) }

// Unwrap returns the reason.
func (e *EventError) Unwrap() error { return e.Err }
