package main

import (
	"errors"
	"fmt"
	"strings"
	"sync"

	"borewright/engine/record"
	"borewright/store"
)

// tally is a book that knows which events were taken, so that it can name those
// that are not kept at the end.
type tally struct {
	Book
	days  *daily
	mu    sync.Mutex
	order []string // uids, as they were first taken for
	last  map[string]int64
}

func newTally(b Book, days *daily) *tally {
	return &tally{Book: b, days: days, last: map[string]int64{}}
}

// Warnings are why backups were not made, and those of the book, which often have
// the cause: the last one stays on the screen.
func (t *tally) Warnings() []string {
	return append(t.days.failures(), t.Book.Warnings()...)
}

// Keep is that of the book.
func (t *tally) Keep(uid string, events ...record.Event) ([]record.Sealed, error) {
	if len(events) > 0 {
		t.days.take(events[len(events)-1].At)
	}
	sealed, err := t.Book.Keep(uid, events...)
	t.mu.Lock()
	defer t.mu.Unlock()
	for _, s := range sealed {
		if _, known := t.last[uid]; !known {
			t.order = append(t.order, uid)
		}
		t.last[uid] = s.N
	}
	return sealed, err
}

// Close is that of the book; where it cannot keep everything its error names
// the events.
func (t *tally) Close() error {
	err := t.Book.Close()
	var unkept *store.UnkeptError
	if !errors.As(err, &unkept) {
		return err
	}
	t.mu.Lock()
	defer t.mu.Unlock()
	var lost []string
	for _, uid := range t.order {
		if n := int64(t.Pending(uid)); n > 0 {
			lost = append(lost, eventRange(t.last[uid]-n+1, t.last[uid])+" of session "+uid)
		}
	}
	if len(lost) == 0 {
		return err
	}
	return fmt.Errorf("not kept: %s; %w", strings.Join(lost, ", "), err)
}

// eventRange names the events from first up to last.
func eventRange(first, last int64) string {
	if first == last {
		return fmt.Sprintf("event %d", first)
	}
	return fmt.Sprintf("events %d to %d", first, last)
}
