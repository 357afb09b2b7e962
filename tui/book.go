package tui

import (
	"time"

	"borewright/engine/record"
)

// Book is what the station needs of a store of sessions.
type Book interface {
	// Headings returns the newest touched sessions first, at most limit, or
	// all when limit is 0.
	Headings(limit int) ([]record.Heading, error)
	// Load returns every event of a session, checked. When one cannot be read,
	// those before it come with the error. Their stored bytes need not come.
	Load(uid string) ([]record.Sealed, error)
	// Keep numbers and seals events and queues them; it returns at once. The
	// outcome comes back through the Inbox.
	Keep(uid string, events ...record.Event) ([]record.Sealed, error)
	// Retry tries again to keep what is queued after a failure.
	Retry()
	// Warnings are what the book has to say about itself, one sentence each.
	Warnings() []string
}

// Outcome says that events of a session were kept, or why not yet.
type Outcome struct {
	UID         string
	First, Last int64
	// Err is nil when they are kept for good.
	Err  error
	Took time.Duration
}

// Inbox carries outcomes from the book's writer to the station. It is safe
// for use by several goroutines and never blocks the sender.
type Inbox struct{ mail chan Outcome }

// NewInbox returns an empty inbox.
func NewInbox() *Inbox { return &Inbox{mail: make(chan Outcome, 4096)} }

// Post delivers an outcome. When the station has not read for so long that the
// inbox is full, the oldest outcomes make room: a later one says as much.
func (b *Inbox) Post(o Outcome) {
	for {
		select {
		case b.mail <- o:
			return
		default:
			select {
			case <-b.mail:
			default:
			}
		}
	}
}
