package tui

import (
	"fmt"

	"borewright/engine"
	"borewright/engine/record"
)

// Desk is one session as it lies open: its replayed state, its assessment and
// what of it is kept. Screens of the same session share it.
type Desk struct {
	st      *Station
	Session *engine.Session
	Now     *engine.Assessment
	// Kept is the number of the last event that is kept for good.
	Kept int64
	// Failed is why the events behind Kept are not kept yet, or nil.
	Failed error
	// Shut is why only the beginning of the session can be read, because what is
	// behind it is damaged or of a newer program, or nil. Nothing can be added.
	Shut error

	told told
}

// newDesk opens a session whose events are all kept.
func newDesk(st *Station, events []record.Sealed) (*Desk, error) {
	s, err := engine.Replay(events)
	if err != nil {
		return nil, err
	}
	d := &Desk{st: st, Session: s, Now: engine.Assess(s), Kept: int64(len(events))}
	st.desks = append(st.desks, d)
	return d, nil
}

// deskOf returns the session when it lies open already: what is not kept yet
// is known there only.
func (st *Station) deskOf(uid string) (*Desk, bool) {
	for _, d := range st.desks {
		if d.UID() == uid {
			return d, true
		}
	}
	return nil, false
}

// Title returns the session's title.
func (d *Desk) Title() string { return d.Session.Details().Title }

// UID returns the session's id.
func (d *Desk) UID() string { return d.Session.Details().UID }

// Record takes what happened to the book and into the state, all or none.
func (d *Desk) Record(bodies ...record.Body) error {
	if d.Shut != nil {
		return d.refusal()
	}
	if err := d.Session.CheckAll(bodies...); err != nil {
		return err
	}
	events := make([]record.Event, len(bodies))
	for i, b := range bodies {
		events[i] = d.st.event(b)
	}
	sealed, err := d.st.Book.Keep(d.UID(), events...)
	if err != nil {
		return err
	}
	for _, e := range sealed {
		touched, err := d.Session.Apply(e)
		if err != nil {
			return err
		}
		d.Now, d.told = d.Now.Again(d.Session, touched), told{}
	}
	return nil
}

// Pending returns how many events are not kept yet.
func (d *Desk) Pending() int { return int(d.Session.Head().N - d.Kept) }

// Hear takes an outcome in, when it is about this session.
func (d *Desk) Hear(o Outcome) {
	if o.UID != d.UID() {
		return
	}
	d.Failed = o.Err
	if o.Err == nil {
		d.Kept = max(d.Kept, o.Last)
	}
}

// Keeping says in a few words what is not kept, or "" when all is.
func (d *Desk) Keeping() string {
	n := d.Pending()
	switch {
	case n == 0:
		return ""
	case d.Failed != nil:
		return fmt.Sprintf("%d NOT KEPT: %v", n, d.Failed)
	default:
		return fmt.Sprintf("keeping %d", n)
	}
}
