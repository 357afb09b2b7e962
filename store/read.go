package store

import (
	"bytes"
	"errors"
	"slices"
	"time"

	"borewright/engine/record"
)

// Load returns the session's events in order, with those that still wait at
// the end: Pending says how many they are. Checksums, numbers and chain are
// checked. When an event cannot be read the error is a *SessionError and the
// events before it are returned; ErrNoSession when there is no such session.
// A shop without events is empty and no error. Their stored bytes are not there:
// Lines has them.
func (b *book) Load(uid string) ([]record.Sealed, error) {
	var events []record.Sealed
	err := b.follow(uid, func(s record.Sealed, of int) {
		if events == nil {
			events = make([]record.Sealed, 0, of) // of some 140 bytes each: growing took as much again
		}
		s.Bytes = nil
		events = append(events, s)
	})
	return known(events, err)
}

// known returns what was read of a session and why no more was. Only an event that
// cannot be read leaves those before it: with anything else nobody knows whether
// what was read is all.
func known[T any](read []T, err error) ([]T, error) {
	if err != nil && !isSessionError(err) {
		return nil, err
	}
	return read, err
}

// Lines returns the stored bytes of the session's events, checked, and has the
// errors of Load.
func (b *book) Lines(uid string) ([][]byte, error) {
	var lines [][]byte
	err := b.follow(uid, func(s record.Sealed, _ int) { lines = append(lines, bytes.Clone(s.Bytes)) })
	return known(lines, err)
}

// follow calls each with the session's events in order, with those that still
// wait at the end, and with how many there are about. Their bytes are good until
// it returns.
func (b *book) follow(uid string, each func(s record.Sealed, of int)) error {
	uid = streamName(uid)
	waiting := b.waiting(uid)
	var n int64
	err := unseal(uid, func(each lineReader) error { return b.shelf.read(uid, each) }, func(s record.Sealed, of int) {
		n = s.N
		each(s, of+len(waiting))
	})
	if errors.Is(err, ErrNoSession) && len(waiting) > 0 {
		err = nil
	}
	if err != nil {
		return err
	}
	for _, s := range waiting {
		if s.N == n+1 {
			n = s.N
			each(s, len(waiting))
		}
	}
	return nil
}

// waiting returns the stream's events that are not kept. It is taken before
// the shelf is read, so that what is kept meanwhile is not missed.
func (b *book) waiting(uid string) []record.Sealed {
	b.mu.Lock()
	defer b.mu.Unlock()
	var events []record.Sealed
	for _, j := range b.queue {
		if j.uid == uid {
			events = append(events, j.sealed...)
		}
	}
	return events
}

// unseal decodes the stored events that read gives and follows their chain. Each is
// called with every one up to the first that cannot be read.
func unseal(uid string, read func(lineReader) error, each func(s record.Sealed, of int)) error {
	stream := record.NewStream(record.Head{})
	var bad error
	err := read(func(line []byte, of int) {
		if bad != nil {
			return
		}
		s, err := stream.Next(line)
		if err != nil {
			bad = &SessionError{UID: uid, N: stream.Head().N + 1, Cause: err}
			return
		}
		each(s, of)
	})
	if bad != nil && (err == nil || isSessionError(err)) {
		return bad
	}
	return err
}

// fold returns the heading of the stored events that read gives. With a
// *SessionError it is the heading of those before the one that cannot be read.
func fold(uid string, read func(lineReader) error) (record.Heading, error) {
	var h record.Heading
	err := unseal(uid, read, func(s record.Sealed, _ int) { h = h.Apply(s) })
	return h, err
}

// Head returns the number and hash of the session's last event, counting those
// that still wait. A session that does not exist has the zero head.
func (b *book) Head(uid string) (record.Head, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	s, err := b.stream(streamName(uid))
	if err != nil {
		return record.Head{}, err
	}
	return s.heading.Head, nil
}

// Headings returns what a list of sessions shows, the newest touched first,
// counting what still waits: at most limit, all when limit is not above zero.
// Archived sessions are among them, the shop is not. A session that is damaged
// shows what its intact events say, and Warnings tells.
func (b *book) Headings(limit int) ([]record.Heading, error) {
	waiting := b.touched()
	kept, err := b.shelf.headings(limit)
	if err != nil {
		return nil, err
	}
	out := slices.Clone(waiting)
	for _, h := range kept {
		i := slices.IndexFunc(waiting, func(w record.Heading) bool { return w.UID == h.UID })
		switch {
		case i < 0:
			out = append(out, h)
		case h.Head.N > out[i].Head.N:
			out[i] = h
		}
	}
	if limit > 0 && len(out) > limit {
		out = out[:limit]
	}
	return out, nil
}

// touched returns the headings of the sessions that have events waiting, the
// newest first.
func (b *book) touched() []record.Heading {
	b.mu.Lock()
	defer b.mu.Unlock()
	var out []record.Heading
	seen := map[string]bool{record.ShopUID: true}
	for _, j := range slices.Backward(b.queue) {
		if !seen[j.uid] {
			seen[j.uid] = true
			out = append(out, j.heading)
		}
	}
	return out
}

// Rebuild makes the list of sessions again from the events, which are not
// touched, and orders it by their last events' times. It waits for its turn
// in the queue.
func (b *book) Rebuild() error { return b.turn(b.shelf.rebuild) }

// turn has the writer do something before it goes on with the queue.
func (b *book) turn(do func() error) error {
	t := &task{do: do, result: make(chan error, 1)}
	b.mu.Lock()
	if b.closed {
		b.mu.Unlock()
		return ErrClosed
	}
	b.tasks = append(b.tasks, t)
	b.change()
	b.mu.Unlock()
	return <-t.result
}

// Close ends the store. What waits is attempted once more; what is not kept
// then, or takes longer than half a minute, is lost and comes back as an
// *UnkeptError. The walk over a large file may take longer, as long as it gets on. A
// second Close does nothing.
func (b *book) Close() error {
	b.mu.Lock()
	if b.closed {
		b.mu.Unlock()
		return nil
	}
	b.closed = true
	b.move()
	b.mu.Unlock()

	if !b.finish() {
		return b.leave(errSlow)
	}
	err := b.shelf.close()
	if left := b.leave(nil); left != nil {
		return left
	}
	return err
}

// finish waits until the writer has ended; false means that it does not get on.
func (b *book) finish() bool {
	for {
		walked, late := b.shelf.progress(), time.NewTimer(b.closeWait)
		select {
		case <-b.done:
			late.Stop()
			return true
		case <-late.C:
			if b.shelf.progress() == walked {
				return false
			}
		}
	}
}

var errSlow = errors.New("the disk does not answer")

// leave returns what is not kept at the end, as an error when there is any.
func (b *book) leave(cause error) error {
	b.mu.Lock()
	defer b.mu.Unlock()
	u := b.unkept()
	if cause != nil {
		u.Cause = cause
	}
	if u.Events == 0 {
		return cause
	}
	return u
}
