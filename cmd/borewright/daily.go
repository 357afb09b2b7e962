package main

import (
	"sync"
	"time"

	"borewright/store"
	"borewright/tui/term"
)

// backupRest is how long the station is open before its database is copied: with
// the copy beside it 10,000 sessions took 2.2 times as long as none to the first
// frame, and 2.6 times from a cold cache; after it 1.8 times, both.
const backupRest = time.Second

// daily makes the backup of each day of work behind the screen: of the day on which
// the station is opened, after rest or when it is left, and of each later one when
// its first event is kept.
type daily struct {
	broken *crashes
	rest   time.Duration

	mu     sync.Mutex
	file   dayFile   // nil while nothing is to be copied
	begun  string    // the day whose backup was begun last
	taken  time.Time // of the last event that was taken
	failed []string
	tell   func(text string) // says on the screen why one was not made
	made   sync.WaitGroup
	rested chan struct{} // closed when the rest is over, which hurry makes it
	hurry  func()
	hand   *hand
	last   chan struct{} // closed when the backup begun last is made
	left   chan struct{} // closed when the station is left, which leave makes it
	leave  func()
}

// dayFile is a database that is copied once a day.
type dayFile interface {
	BackupOfDay(day time.Time, keep int, pace store.Pace) (string, error)
}

var _ dayFile = (*store.DB)(nil)

func newDaily(broken *crashes, rest time.Duration) *daily {
	d := &daily{broken: broken, rest: rest, hand: newHand(), left: make(chan struct{})}
	d.leave = sync.OnceFunc(func() { close(d.left) })
	return d
}

// open begins with the day on which a book is opened. Where nothing was kept
// before there is nothing to copy on that day.
func (d *daily) open(book Book, now time.Time) {
	d.rested, d.last = make(chan struct{}), make(chan struct{})
	close(d.last)
	d.hurry = sync.OnceFunc(func() { close(d.rested) })
	time.AfterFunc(d.rest, d.hurry)
	file, ok := book.(dayFile)
	hs, err := book.Headings(1)
	if !ok || err != nil {
		return
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	d.file = file
	d.begin(now, len(hs) > 0)
}

// take notes when an event was taken.
func (d *daily) take(at time.Time) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.taken = at
}

// hear notes that events were kept, and begins the backup of a new day. It returns
// at once.
func (d *daily) hear(o store.Outcome) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.file != nil && o.Err == nil && !d.taken.IsZero() {
		d.begin(d.taken, true)
	}
}

// begin begins a day, unless it was begun before, and copies if there is anything
// to copy: after the rest, which ends with the first day, and one day after the
// other. Call it with mu.
func (d *daily) begin(now time.Time, copies bool) {
	day := now.Format(time.DateOnly)
	if day == d.begun {
		return
	}
	if d.begun != "" {
		d.hurry()
	}
	d.begun = day
	if !copies {
		return
	}
	file, before, made := d.file, d.last, make(chan struct{})
	d.last = made
	d.made.Add(1)
	term.Go(func() {
		defer d.made.Done()
		defer close(made)
		<-d.rested
		<-before
		d.note(d.broken.guard(func() error {
			_, err := file.BackupOfDay(now, backupsKept, d.hand.pace(d.left))
			return err
		}))
	}, nil)
}

// note remembers why a backup was not made.
func (d *daily) note(err error) {
	if err == nil {
		return
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	text := "no backup was made: " + err.Error()
	d.failed = append(d.failed, text)
	d.say(text)
}

// damaged has the screen say at once that the database is damaged. Where there is
// no screen yet the book's warnings will.
func (d *daily) damaged(err error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.say(err.Error())
}

// say has the screen say a sentence, for which it may have to wait. Call it with mu.
func (d *daily) say(text string) {
	if tell := d.tell; tell != nil {
		term.Go(func() { tell(text) }, nil)
	}
}

// telling has the screen say at once why a backup is not made from now on.
func (d *daily) telling(tell func(text string)) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.tell = tell
}

// failures says why backups were not made, one sentence each.
func (d *daily) failures() []string {
	d.mu.Lock()
	defer d.mu.Unlock()
	return append([]string(nil), d.failed...)
}

// end begins no more backups and waits for those that are to be made.
func (d *daily) end() {
	d.mu.Lock()
	d.file = nil
	d.mu.Unlock()
	d.leave()
	d.hurry()
	d.made.Wait()
}
