package store

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"slices"

	"borewright/engine/record"
)

// Rescued is what can be read of a damaged database, as a book that takes
// nothing: what salvage would recover, in memory. The file is not touched.
type Rescued struct {
	path    string
	cause   error
	streams map[string]rescuedStream
	order   []string // sessions, the newest touched first
	notes   []string
}

type rescuedStream struct {
	heading record.Heading
	events  []record.Sealed
}

// Rescue reads what can be read of the file at the path; cause is why it could
// not be opened. Its errors are those of Salvage.
func Rescue(path string, cause error) (*Rescued, error) {
	s, err := search(path, untold, nil)
	if err != nil {
		return nil, err
	}
	r := &Rescued{path: path, cause: cause, streams: map[string]rescuedStream{}}
	for i := range slices.Backward(s.Streams) {
		saved := &s.Streams[i]
		events, err := record.Verify(saved.lines)
		if err != nil {
			return nil, &SessionError{UID: saved.UID, N: 1, Cause: err}
		}
		var h record.Heading
		for _, e := range events {
			h = h.Apply(e)
		}
		r.streams[saved.UID] = rescuedStream{h, events}
		if saved.UID != record.ShopUID {
			r.order = append(r.order, saved.UID)
		}
	}
	recovered, lost, aside, newer := s.Totals()
	r.notes = []string{fmt.Sprintf(
		"the database is damaged and is only read: %d events can be read, %d cannot; nothing new is kept until \"borewright salvage OUT\" has made a new one",
		recovered, lost+aside+newer)}
	return r, nil
}

// ErrRescued is why a book that was read from a damaged database takes nothing.
var ErrRescued = errors.New("the database is damaged and is only read, so nothing can be kept in it: leave the station and run \"borewright salvage OUT\"")

// Keep refuses.
func (r *Rescued) Keep(string, ...record.Event) ([]record.Sealed, error) { return nil, r.refusal() }

// Append refuses.
func (r *Rescued) Append(string, [][]byte) error { return r.refusal() }

func (r *Rescued) refusal() error {
	return &FileError{Path: filepath.Base(r.path), Kind: ErrRescued, Cause: r.cause}
}

// Load returns the events of a session that can be read: what is lost has a
// note in its place, and the session's title says so.
func (r *Rescued) Load(uid string) ([]record.Sealed, error) {
	uid = streamName(uid)
	s, ok := r.streams[uid]
	if !ok && uid != record.ShopUID {
		return nil, fmt.Errorf("%w: %q", ErrNoSession, uid)
	}
	return slices.Clone(s.events), nil
}

// Lines returns the stored bytes of the events that Load returns.
func (r *Rescued) Lines(uid string) ([][]byte, error) {
	events, err := r.Load(uid)
	lines := make([][]byte, len(events))
	for i, s := range events {
		lines[i] = s.Bytes
	}
	return lines, err
}

// Head returns the digest of the session as it is read.
func (r *Rescued) Head(uid string) (record.Head, error) {
	return r.streams[streamName(uid)].heading.Head, nil
}

// Headings returns the sessions, the newest touched first.
func (r *Rescued) Headings(limit int) ([]record.Heading, error) {
	var out []record.Heading
	for _, uid := range r.order {
		if limit > 0 && len(out) == limit {
			break
		}
		out = append(out, r.streams[uid].heading)
	}
	return out, nil
}

// Warnings says that the database is damaged and what of it can be read.
func (r *Rescued) Warnings() []string { return slices.Clone(r.notes) }

// Retry does nothing: nothing waits.
func (r *Rescued) Retry() {}

// Pending returns 0: nothing waits.
func (r *Rescued) Pending(string) int { return 0 }

// Wait returns at once: nothing waits.
func (r *Rescued) Wait(context.Context) error { return nil }

// Close does nothing.
func (r *Rescued) Close() error { return nil }
