package tui

import (
	"errors"
	"fmt"

	"borewright/engine/record"
)

// ofSession is a screen of one session. What lies on it is of that session too.
type ofSession interface{ session() *Desk }

// mark stands before the heading of every screen of a session of which only the
// beginning can be read, and is "" for every other.
func (d *Desk) mark() string {
	switch {
	case d.Shut == nil:
		return ""
	case errors.Is(d.Shut, record.ErrNewer):
		return fmt.Sprintf("NEWER from event %d, only read: ", d.Session.Head().N+1)
	default:
		return fmt.Sprintf("DAMAGED from event %d, only read: ", d.Session.Head().N+1)
	}
}

// notice says when the session is opened what is shown of it, and why: the book's
// words name what helps.
func (d *Desk) notice() string {
	return "what was before is shown and only read: " + d.Shut.Error()
}

// refusal is why nothing is added to the session.
func (d *Desk) refusal() error { return fmt.Errorf("nothing is added: %w", d.Shut) }

// mark is that of the session which the station is in.
func (r *router) mark() string {
	for i := len(r.stack) - 1; i >= 0; i-- {
		if s, ok := r.stack[i].(ofSession); ok {
			return s.session().mark()
		}
	}
	return ""
}
