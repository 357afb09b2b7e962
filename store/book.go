package store

import (
	"slices"
	"sync"
	"time"

	"borewright/engine/record"
)

// shelf is where a book puts what it keeps: a database file or memory. A shelf
// knows no queue: commit is called by one goroutine alone.
type shelf interface {
	// heading returns the heading of what is kept of the stream; the zero
	// heading when nothing is. A *SessionError comes with the heading of the
	// intact events.
	heading(uid string) (record.Heading, error)
	// read calls each with the stored bytes of the stream's events, in order. A
	// *SessionError comes after the intact ones before it.
	read(uid string, each lineReader) error
	// headings returns the newest touched sessions' headings, newest first;
	// all of them when limit is not above zero.
	headings(limit int) ([]record.Heading, error)
	// ready does what must come before the first commit, unless it is stopped:
	// a commit then does it first.
	ready(stop func() bool) error
	// progress returns how many pages ready has come through: while they grow it
	// gets on.
	progress() int64
	// commit keeps all jobs or none. Doing it again does no harm.
	commit(jobs []*job) (reserve bool, err error)
	// settle puts what was kept where it stays, before close.
	settle()
	// rebuild makes everything that is computed from events again.
	rebuild() error
	close() error
}

// book is the store above its shelf: it numbers, seals and queues.
type book struct {
	shelf     shelf
	notify    func(Outcome)
	damaged   func(error)
	crash     func(report string) (where string)
	closeWait time.Duration
	rest      time.Duration
	// refuse is why nothing can be kept at all; nil where it can.
	refuse error

	mu      sync.Mutex
	streams map[string]*stream
	queue   []*job
	tasks   []*task
	// stopped is why the queue stands still; nil while it moves.
	stopped error
	// again means that somebody asked for another attempt since the last began.
	again bool
	// busy means that the writer attempts something or reports about it.
	busy   bool
	closed bool
	// changed is closed and made anew whenever one of the above changes.
	changed chan struct{}
	done    chan struct{}

	// noteMu guards warnings alone: the shelf may warn while mu is held.
	noteMu   sync.Mutex
	warnings []string
}

// stream is a session, or the shop, as it is with all that waits.
type stream struct {
	heading record.Heading
	// waiting is how many of its last events are not kept.
	waiting int
}

// job is what is committed in one piece: sealed events of one stream.
type job struct {
	uid    string
	sealed []record.Sealed
	// heading is the stream's heading with the events.
	heading record.Heading
	// result hears, once, what became of the first attempt of an import.
	result chan error
}

// task is something else that only the writer may do.
type task struct {
	do     func() error
	result chan error
}

// newBook makes a book; go write starts its writer.
func newBook(s shelf, o Options) *book {
	return &book{
		shelf: s, notify: o.Notify, damaged: o.Damaged, crash: o.Crash, closeWait: o.hooks.closeWait, rest: o.hooks.rest,
		streams: map[string]*stream{}, changed: make(chan struct{}), done: make(chan struct{}),
	}
}

// begin begins to write what the queue holds.
func (b *book) begin() { go b.write() }

// change tells everybody who waits that something changed. Call it with mu.
func (b *book) change() {
	close(b.changed)
	b.changed = make(chan struct{})
}

// push puts the job at the end of the queue and lets the queue move. Call it
// with mu.
func (b *book) push(j *job) {
	b.queue = append(b.queue, j)
	b.move()
}

// move lets the queue move, or move again when the attempt under way fails.
// Call it with mu.
func (b *book) move() {
	b.stopped, b.again = nil, true
	b.change()
}

// stream returns the stream of the uid, read from the shelf at first use. Call
// it with mu.
func (b *book) stream(uid string) (*stream, error) {
	if s, ok := b.streams[uid]; ok {
		return s, nil
	}
	h, err := b.shelf.heading(uid)
	if err != nil {
		return nil, err
	}
	s := &stream{heading: h}
	if h.Head.N > 0 {
		b.streams[uid] = s
	}
	return s, nil
}

// Warnings returns what the user should be told although the store works, one
// sentence each, oldest first.
func (b *book) Warnings() []string {
	b.noteMu.Lock()
	defer b.noteMu.Unlock()
	return slices.Clone(b.warnings)
}

func (b *book) warn(text string) {
	b.noteMu.Lock()
	defer b.noteMu.Unlock()
	if !slices.Contains(b.warnings, text) {
		b.warnings = append(b.warnings, text)
	}
}

// streamName returns the stream that a uid names: nothing is the shop.
func streamName(uid string) string {
	if uid == "" {
		return record.ShopUID
	}
	return uid
}
