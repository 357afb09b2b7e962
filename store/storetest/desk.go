// Package storetest is the suite that every store of this program passes.
package storetest

import (
	"context"
	"encoding/json"
	"reflect"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"borewright/engine/record"
	"borewright/store"
)

// Store is what every store can do.
type Store interface {
	Keep(uid string, events ...record.Event) ([]record.Sealed, error)
	Append(uid string, lines [][]byte) error
	Load(uid string) ([]record.Sealed, error)
	Lines(uid string) ([][]byte, error)
	Head(uid string) (record.Head, error)
	Headings(limit int) ([]record.Heading, error)
	Pending(uid string) int
	Wait(ctx context.Context) error
	Retry()
	Rebuild() error
	Warnings() []string
	Close() error
}

// Bench is one place where a store lies.
type Bench struct {
	// Open opens it. It is called again after Close and finds what was kept.
	Open func(t *testing.T, notify func(store.Outcome)) Store
	// Fault is asked before and after each attempt ("write", "written") and
	// makes it fail by what it returns.
	Fault func(func(stage string) error)
}

// patience is how long something that must happen is waited for.
const patience = 20 * time.Second

// desk is a store under test, with what it reported.
type desk struct {
	Store
	t     *testing.T
	bench Bench

	mu   sync.Mutex
	told []store.Outcome
	hear func(store.Outcome)

	// tries counts attempts while held looks.
	tries atomic.Int64
}

// newDesk opens a store and checks it, as it is and as it is found again, when
// the test ends.
func newDesk(t *testing.T, b Bench) *desk {
	t.Helper()
	d := &desk{t: t, bench: b}
	d.open()
	t.Cleanup(d.finish)
	return d
}

func (d *desk) open() {
	d.t.Helper()
	d.Store = d.bench.Open(d.t, d.note)
}

func (d *desk) note(o store.Outcome) {
	d.mu.Lock()
	d.told = append(d.told, o)
	hear := d.hear
	d.mu.Unlock()
	if hear != nil {
		hear(o)
	}
}

// outcomes returns what was reported so far.
func (d *desk) outcomes() []store.Outcome {
	d.mu.Lock()
	defer d.mu.Unlock()
	return append([]store.Outcome(nil), d.told...)
}

// finish lets everything through and checks the store before and after it is
// opened again.
func (d *desk) finish() {
	d.t.Helper()
	d.bench.Fault(nil)
	if _, err := d.Headings(1); err != nil {
		d.open() // the test closed it
	}
	d.Retry()
	d.drain()
	before := Check(d.t, d.Store)
	d.reopen()
	if after := Check(d.t, d.Store); !reflect.DeepEqual(before, after) {
		d.t.Errorf("opened again, the store has %v, not %v", after, before)
	}
	if err := d.Close(); err != nil {
		d.t.Errorf("close: %v", err)
	}
}

// reopen closes the store and opens it again.
func (d *desk) reopen() {
	d.t.Helper()
	if err := d.Close(); err != nil {
		d.t.Fatalf("close: %v", err)
	}
	d.open()
}

// keep is Keep that must succeed.
func (d *desk) keep(uid string, events ...record.Event) []record.Sealed {
	d.t.Helper()
	s, err := d.Keep(uid, events...)
	if err != nil {
		d.t.Fatalf("keep %q: %v", uid, err)
	}
	return s
}

// drain waits until all is kept.
func (d *desk) drain() {
	d.t.Helper()
	if err := d.settle(); err != nil {
		d.t.Fatalf("wait: %v", err)
	}
}

// settle waits until all is kept or nothing moves.
func (d *desk) settle() error {
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	return d.Wait(ctx)
}

// load is Load that must succeed.
func (d *desk) load(uid string) []record.Sealed {
	d.t.Helper()
	events, err := d.Load(uid)
	if err != nil {
		d.t.Fatalf("load %q: %v", uid, err)
	}
	return events
}

// Check reads everything in the store and fails the test unless every chain
// holds and every heading is the one that its events make. It returns the
// heads of all streams by uid.
func Check(t *testing.T, s Store) map[string]record.Head {
	t.Helper()
	headings, err := s.Headings(0)
	if err != nil {
		t.Fatalf("headings: %v", err)
	}
	heads := map[string]record.Head{}
	for _, h := range append(headings, record.Heading{UID: record.ShopUID}) {
		if _, twice := heads[h.UID]; twice {
			t.Errorf("session %q is listed twice", h.UID)
		}
		again := refold(t, s, h.UID)
		heads[h.UID] = again.Head
		if got, want := asJSON(t, h), asJSON(t, again); h.UID != record.ShopUID && got != want {
			t.Errorf("heading of %q:\n got %s\nwant %s", h.UID, got, want)
		}
		if head, err := s.Head(h.UID); err != nil || head != again.Head {
			t.Errorf("head of %q: %v %v, want %v", h.UID, head, err, again.Head)
		}
	}
	return heads
}

// refold makes the heading of a stream from its stored bytes.
func refold(t *testing.T, s Store, uid string) record.Heading {
	t.Helper()
	events, err := s.Load(uid)
	if err != nil {
		t.Fatalf("load %q: %v", uid, err)
	}
	lines, err := s.Lines(uid)
	if err != nil {
		t.Fatalf("lines of %q: %v", uid, err)
	}
	again, err := record.Verify(lines)
	if err != nil || len(again) != len(events) {
		t.Fatalf("verify %q: %d events of %d: %v", uid, len(again), len(events), err)
	}
	var h record.Heading
	for i, e := range again {
		e.Bytes = nil
		if !reflect.DeepEqual(e, events[i]) {
			t.Errorf("event %d of %q came as\n%+v\nnot\n%+v", e.N, uid, events[i], e)
		}
		h = h.Apply(e)
	}
	return h
}

func asJSON(t *testing.T, v any) string {
	t.Helper()
	b, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}
