package store

import (
	"bytes"
	"fmt"

	"borewright/engine/record"
)

// Keep numbers and seals the events as the next ones of the session, puts them
// into the queue and returns them. It does not wait for the disk: the events
// are kept when Options.Notify says so, and Pending counts them until then.
// All are taken or none. A session begins with its details; the uid "" is the
// shop. It also makes a queue that a failure stopped try again.
func (b *book) Keep(uid string, events ...record.Event) ([]record.Sealed, error) {
	uid = streamName(uid)
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.closed {
		return nil, ErrClosed
	}
	if b.refuse != nil {
		return nil, b.refuse
	}
	s, err := b.stream(uid)
	if err != nil || len(events) == 0 {
		return nil, err
	}
	j := &job{uid: uid, heading: s.heading}
	for _, e := range events {
		sealed, err := record.Seal(e, j.heading.Head)
		if err != nil {
			return nil, err
		}
		if err := j.add(sealed); err != nil {
			return nil, err
		}
	}
	b.take(s, j)
	return j.sealed, nil
}

// Append keeps stored events, verbatim, that continue the session's last one:
// an import. It returns when they are kept, or why they are not. Then nothing
// has changed, with two exceptions: while other events of the session wait,
// the imported ones wait with them; and a disk that fails late may have kept
// them all the same. Head tells.
func (b *book) Append(uid string, lines [][]byte) error {
	return b.append(streamName(uid), lines, foreign)
}

// reader reads a line as the next event of a stream.
type reader func(s *record.Stream, line []byte) (record.Sealed, error)

// append is Append of lines that read reads.
func (b *book) append(uid string, lines [][]byte, read reader) error {
	result, err := b.enqueue(uid, lines, read)
	if err != nil || result == nil {
		return err
	}
	return <-result
}

// enqueue puts lines into the queue and returns where their first attempt is told of.
func (b *book) enqueue(uid string, lines [][]byte, read reader) (<-chan error, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.closed {
		return nil, ErrClosed
	}
	if b.refuse != nil {
		return nil, b.refuse
	}
	s, err := b.stream(uid)
	if err != nil || len(lines) == 0 {
		return nil, err
	}
	result := make(chan error, 1)
	j := &job{uid: uid, heading: s.heading, result: result}
	stream := record.NewStream(s.heading.Head)
	for _, line := range lines {
		sealed, err := read(stream, line)
		if err != nil {
			return nil, fmt.Errorf("%w: session %q: %w", ErrNotNext, uid, err)
		}
		if err := j.add(sealed); err != nil {
			return nil, err
		}
	}
	b.take(s, j)
	return result, nil
}

// add puts a sealed event at the end of the job, which must be one of its
// stream: the first event of a session is its details, and details name it.
func (j *job) add(s record.Sealed) error {
	if s.N > maxN {
		return fmt.Errorf("session %q is full: it has %d events", j.uid, maxN)
	}
	d, details := s.Body.(record.Details)
	shop := j.uid == record.ShopUID
	switch {
	case details && (shop || d.UID != j.uid):
		return fmt.Errorf("%w: they name session %q, not %q", ErrOtherSession, d.UID, j.uid)
	case !details && !shop && s.N == 1:
		return fmt.Errorf("%w: %q", ErrNoSession, j.uid)
	}
	j.sealed = append(j.sealed, s)
	j.heading = j.heading.Apply(s)
	return nil
}

// take puts the job into the queue. Call it with mu.
func (b *book) take(s *stream, j *job) {
	s.heading = j.heading
	s.waiting += len(j.sealed)
	b.streams[j.uid] = s
	b.push(j)
}

// foreign reads a line that nobody vouches for as the next one of a stream.
func foreign(s *record.Stream, line []byte) (record.Sealed, error) {
	if _, err := record.DecodeStrict(line); err != nil {
		return record.Sealed{}, fmt.Errorf("event %d: %w", s.Head().N+1, err)
	}
	return s.Next(bytes.Clone(line))
}

// vouched reads a line whose checksum was good.
func vouched(s *record.Stream, line []byte) (record.Sealed, error) { return s.Next(line) }
