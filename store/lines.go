package store

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"

	"borewright/engine/record"
)

// lineReader is called with the stored bytes of one event after another, which are
// good until it returns, and with how many there are about.
type lineReader func(line []byte, of int)

// read implements shelf.
func (f *file) read(uid string, each lineReader) error {
	id, ok, err := f.idOf(uid)
	if err != nil {
		return err
	}
	if !ok {
		return fmt.Errorf("%w: %q", ErrNoSession, uid)
	}
	return f.readOf(id, uid, each)
}

func (f *file) readOf(id uint64, uid string, each lineReader) error {
	l := lines{id: id}
	for !l.done {
		if err := f.view(l.fill); err != nil {
			return err
		}
		l.give(each)
	}
	if l.bad == nil && l.missing() {
		l.bad = errMissing
	}
	if l.bad != nil {
		return &SessionError{UID: uid, N: l.n + 1, Cause: l.bad}
	}
	return nil
}

// linesAtOnce is how many bytes of a stream are copied out of one transaction. The
// next ones come into the same room: of all of them together a session of 500
// events left 125 kB of garbage.
const linesAtOnce = 1 << 14

// lines are the stored bytes of a stream's events, so many at once as have room.
type lines struct {
	id   uint64
	room []byte
	ends []int // of each in room
	// n is the number of the last event that was given.
	n int64
	// sight is what the first transaction saw of the stream, most how many events
	// it can have.
	sight sight
	most  int
	// done means that there are no more, bad why, when it is not the end.
	done bool
	bad  error
}

// fill copies the next lines, up to the first that is missing or damaged. Where the
// handle is lost in it, it is called again.
func (l *lines) fill(tx *readTx) error {
	from := append(eventKey(l.id, l.n), 0) // the least key after it
	if l.n == 0 {
		from = number(l.id)
		l.look(tx)
	}
	l.room, l.ends, l.done, l.bad = slices.Grow(l.room[:0], linesAtOnce), l.ends[:0], false, nil
	for k, v := range tx.from(eventsBucket, from) {
		if at, n, ok := parseEventKey(k); !ok || at != l.id || n != l.n+int64(len(l.ends))+1 {
			l.done, l.bad = true, strange(k, l.id)
			return nil
		}
		line, err := framed(k, v)
		if err != nil {
			l.done, l.bad = true, err
			return nil
		}
		if len(l.ends) > 0 && len(l.room)+len(line) > linesAtOnce {
			return nil
		}
		l.room = append(l.room, line...)
		l.ends = append(l.ends, len(l.room))
	}
	l.done = true
	return nil
}

// look sees how many events there are. The number of a last one that is damaged says
// nothing.
func (l *lines) look(tx *readTx) {
	l.sight, l.most = see(tx, l.id), 0
	if l.sight.last != nil {
		l.most = int(min(l.sight.n, tx.tx.Size()/minEvent))
	}
}

// give calls each with the lines that were copied.
func (l *lines) give(each lineReader) {
	start := 0
	for _, end := range l.ends {
		each(l.room[start:end:end], l.most)
		start = end
	}
	l.n += int64(len(l.ends))
}

// missing reports whether the heading speaks of events that are not there.
func (l *lines) missing() bool {
	var h record.Heading
	return l.sight.heading != nil && json.Unmarshal(l.sight.heading, &h) == nil && h.Head.N > l.n
}

var errMissing = errors.New("it is missing")

// minEvent is about the least that an event takes of the file.
const minEvent = 64

// strange says what is wrong with a key that does not go on with the stream:
// nothing when the next stream begins.
func strange(key []byte, id uint64) error {
	at, n, ok := parseEventKey(key)
	switch {
	case ok && at > id:
		return nil
	case ok && at == id:
		return fmt.Errorf("%w: event %d stands in its place", errMissing, n)
	default:
		return fmt.Errorf("%w: something else stands in its place", errMissing)
	}
}
