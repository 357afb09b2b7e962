package main

import (
	"errors"
	"io"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"borewright/engine/record"
	"borewright/store"
	"borewright/store/storetest"
)

// dated is a database that only notes the days it is to be copied on. It waits for
// wait, if there is one, before it has made a copy.
type dated struct {
	shelved
	on   *dates
	wait chan struct{}
	err  error
}

// dates are days of copies.
type dates struct {
	mu   sync.Mutex
	days []string
}

func (c *dates) add(day time.Time) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.days = append(c.days, day.Format(time.DateOnly))
}

func (d dated) BackupOfDay(day time.Time, keep int, _ store.Pace) (string, error) {
	if d.wait != nil {
		<-d.wait
	}
	d.on.add(day)
	return "", d.err
}

// dailyBench opens a database with one session in it at 23:58 on the 2nd of March;
// keep keeps one reading of it at a time.
func dailyBench(t *testing.T, b *dated, rest time.Duration) (days *daily, keep func(at time.Time)) {
	t.Helper()
	w := newShelf().world(io.Discard, io.Discard)
	days = newDaily(&crashes{w: w, folder: "data"}, rest)
	b.on = &dates{}
	b.Mem = store.Memory(store.Options{Notify: days.hear})
	book := newTally(b, days)
	keepAt := func(at time.Time, events ...record.Event) {
		t.Helper()
		for i := range events {
			events[i].At = at
		}
		if _, err := book.Keep("a", events...); err != nil {
			t.Fatal(err)
		}
		if err := b.Wait(t.Context()); err != nil {
			t.Fatal(err)
		}
	}
	opened := time.Date(2026, 3, 2, 23, 58, 0, 0, time.UTC)
	keepAt(opened, storetest.Begin("a")...)
	days.open(b, opened)
	return days, func(at time.Time) { t.Helper(); keepAt(at, storetest.Reading(1)) }
}

// TestDailyBackups: one on the day on which the station is opened, one when the
// first event of each later day is kept, whatever the clock says the day is.
func TestDailyBackups(t *testing.T) {
	t.Parallel()
	b := &dated{}
	days, keep := dailyBench(t, b, 0)
	for _, at := range []time.Time{
		time.Date(2026, 3, 2, 23, 59, 59, 0, time.UTC),
		time.Date(2026, 3, 3, 0, 0, 1, 0, time.UTC),
		time.Date(2026, 3, 3, 0, 0, 2, 0, time.UTC),
		time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC),
		time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC), // the clock was put back
	} {
		keep(at)
		days.made.Wait()
	}
	if want := []string{"2026-03-02", "2026-03-03", "2026-03-04", "2026-03-01"}; !slices.Equal(b.on.days, want) {
		t.Errorf("copied on %v, want %v", b.on.days, want)
	}
	days.end()
	keep(time.Date(2026, 3, 9, 9, 0, 0, 0, time.UTC))
	if len(b.on.days) != 4 {
		t.Errorf("copied after the end: %v", b.on.days)
	}
}

// TestDailyBackupHoldsNothingUp: events are taken and kept while it is made.
func TestDailyBackupHoldsNothingUp(t *testing.T) {
	t.Parallel()
	b := &dated{wait: make(chan struct{})}
	days, keep := dailyBench(t, b, 0)
	for day := range 3 {
		keep(time.Date(2026, 3, 3, 9, day, 0, 0, time.UTC)) // it returns when the event is kept
	}
	close(b.wait)
	days.end()
	if len(b.on.days) != 2 {
		t.Errorf("copied on %v", b.on.days)
	}
}

// TestDailyBackupRests: the copy of the day on which the station is opened leaves
// the machine to the first frame, and is made all the same when it is left at once.
func TestDailyBackupRests(t *testing.T) {
	t.Parallel()
	b := &dated{}
	days, keep := dailyBench(t, b, time.Hour)
	keep(time.Date(2026, 3, 2, 23, 59, 0, 0, time.UTC))
	b.on.mu.Lock()
	if len(b.on.days) != 0 {
		t.Errorf("copied on %v before the rest was over", b.on.days)
	}
	b.on.mu.Unlock()
	days.end()
	if !slices.Equal(b.on.days, []string{"2026-03-02"}) {
		t.Errorf("copied on %v", b.on.days)
	}
}

// TestDailyBackupOfNextDay: where that day begins before the rest is over both are
// copied, in their order.
func TestDailyBackupOfNextDay(t *testing.T) {
	t.Parallel()
	b := &dated{}
	days, keep := dailyBench(t, b, time.Hour)
	keep(time.Date(2026, 3, 3, 0, 0, 1, 0, time.UTC))
	days.made.Wait()
	if !slices.Equal(b.on.days, []string{"2026-03-02", "2026-03-03"}) {
		t.Errorf("copied on %v", b.on.days)
	}
	days.end()
}

// TestDailyBackupThatFails is told on the bench, and so is one that breaks off.
func TestDailyBackupThatFails(t *testing.T) {
	t.Parallel()
	b := &dated{err: errors.New("the disk is full")}
	days, keep := dailyBench(t, b, 0)
	days.made.Wait()
	seen := make(chan string)
	days.telling(func(text string) { seen <- text })
	b.on = nil // nothing can be noted: it breaks off
	days.file = b
	keep(time.Date(2026, 3, 3, 9, 0, 0, 0, time.UTC))
	days.end()
	told := newTally(b, days).Warnings()
	if said := <-seen; len(told) != 2 || said != told[1] {
		t.Errorf("the screen was told %q", said)
	}
	if len(told) != 2 || told[0] != "no backup was made: the disk is full" || !strings.HasPrefix(told[1], "no backup was made: a part of the program broke off: ") || !strings.HasSuffix(told[1], crashFile) {
		t.Errorf("told %q", told)
	}
}

// TestDamageIsSaid: what the store finds while it is idle is said on the screen, and
// where there is none yet the warnings of the book do.
func TestDamageIsSaid(t *testing.T) {
	t.Parallel()
	var o store.Options
	w := newShelf().world(io.Discard, io.Discard)
	w.Open = func(_ string, given store.Options) (Book, error) {
		o = given
		return shelved{store.Memory(given)}, nil
	}
	days := newDaily(&crashes{w: w}, 0)
	if _, err := openTally(w, seat{}, nil, days); err != nil {
		t.Fatal(err)
	}
	damaged := &store.FileError{Path: "a.db", Kind: store.ErrDamaged}
	o.Damaged(damaged)
	seen := make(chan string)
	days.telling(func(text string) { seen <- text })
	o.Damaged(damaged)
	if said := <-seen; said != damaged.Error() {
		t.Errorf("the screen was told %q", said)
	}
}

// TestDailyBackupOfNothing: on the day on which the first session is begun there
// was nothing to copy.
func TestDailyBackupOfNothing(t *testing.T) {
	t.Parallel()
	days := newDaily(&crashes{}, 0)
	b := dated{shelved: shelved{store.Memory(store.Options{})}, on: &dates{}}
	days.open(b, time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC))
	days.take(time.Date(2026, 3, 2, 10, 0, 0, 0, time.UTC))
	days.hear(store.Outcome{})
	days.made.Wait()
	if len(b.on.days) != 0 {
		t.Errorf("copied on %v", b.on.days)
	}
	days.take(time.Date(2026, 3, 3, 10, 0, 0, 0, time.UTC))
	days.hear(store.Outcome{Err: store.ErrFull})
	days.made.Wait()
	if len(b.on.days) != 0 {
		t.Errorf("copied on %v although nothing was kept", b.on.days)
	}
	days.hear(store.Outcome{})
	days.end()
	if !slices.Equal(b.on.days, []string{"2026-03-03"}) {
		t.Errorf("copied on %v", b.on.days)
	}
}
