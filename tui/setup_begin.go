package tui

import (
	"fmt"

	"borewright/engine"
	"borewright/engine/record"
)

// begin keeps the events of a new session and opens it: nothing of it is kept
// for good until the outcomes come. The first event is its details. On an error
// nothing has been handed to the book.
func (st *Station) begin(bodies []record.Body) (*Desk, error) {
	events := make([]record.Event, len(bodies))
	for i, b := range bodies {
		events[i] = st.event(b)
	}
	uid, err := tryOut(events)
	if err != nil {
		return nil, err
	}
	sealed, err := st.Book.Keep(uid, events...)
	if err != nil {
		return nil, err
	}
	d, err := newDesk(st, sealed)
	if err != nil {
		return nil, err
	}
	d.Kept = 0
	return d, nil
}

// tryOut replays the events of a new session beforehand and returns its uid.
func tryOut(events []record.Event) (uid string, err error) {
	var sealed []record.Sealed
	var head record.Head
	for _, e := range events {
		s, err := record.Seal(e, head)
		if err != nil {
			return "", fmt.Errorf("the session was not begun: %w", err)
		}
		sealed, head = append(sealed, s), s.Head
	}
	s, err := engine.Replay(sealed)
	if err != nil {
		return "", fmt.Errorf("the session was not begun: %w", err)
	}
	return s.Details().UID, nil
}
