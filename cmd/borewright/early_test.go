//go:build unix

package main

import (
	"slices"
	"sync"
	"time"

	"borewright/engine/record"
	"borewright/store"
)

// earlyVariable makes the story world's database acknowledge before it commits.
const earlyVariable = "STORY_EARLY"

// earlyLag is how long after its acknowledgement an event is on the disk: longer
// than it takes to see the acknowledgement and to kill, with the race detector too.
const earlyLag = 250 * time.Millisecond

// earlyBook is what no store of ours may be: it calls events kept at once and
// writes them afterwards.
type earlyBook struct {
	Book
	notify func(store.Outcome)
	behind chan earlyJob
	done   chan struct{}

	mu    sync.Mutex
	heads map[string]record.Head
}

type earlyJob struct {
	uid    string
	sealed []record.Sealed
}

// openEarly opens a database and makes it an early one.
func openEarly(open func(string, store.Options) (Book, error), path string, o store.Options) (Book, error) {
	notify := o.Notify
	o.Notify = nil
	inner, err := open(path, o)
	if err != nil || notify == nil {
		return inner, err
	}
	b := &earlyBook{
		Book: inner, notify: notify, behind: make(chan earlyJob, 1000), done: make(chan struct{}),
		heads: map[string]record.Head{},
	}
	go b.write()
	return b, nil
}

// Keep acknowledges what is only in memory.
func (b *earlyBook) Keep(uid string, events ...record.Event) ([]record.Sealed, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	head, known := b.heads[uid]
	if !known {
		kept, err := b.Load(uid)
		if err != nil {
			return nil, err
		}
		head = kept[len(kept)-1].Head
	}
	var sealed []record.Sealed
	for _, e := range events {
		s, err := record.Seal(e, head)
		if err != nil {
			return nil, err
		}
		sealed, head = append(sealed, s), s.Head
	}
	b.heads[uid] = head
	b.behind <- earlyJob{uid, slices.Clone(sealed)}
	go b.notify(store.Outcome{UID: uid, First: sealed[0].N, Last: head.N})
	return sealed, nil
}

func (b *earlyBook) write() {
	defer close(b.done)
	for j := range b.behind {
		time.Sleep(earlyLag)
		if err := b.Append(j.uid, lines(j.sealed)); err != nil {
			panic(err)
		}
	}
}

// Close writes what waits.
func (b *earlyBook) Close() error {
	close(b.behind)
	<-b.done
	return b.Book.Close()
}
