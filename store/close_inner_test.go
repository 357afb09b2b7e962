package store

import (
	"errors"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"borewright/engine/length"
	"borewright/engine/record"
)

// halted is a file whose walk halts at a page until it is told to go on.
type halted struct {
	*file
	at, walked int
	halt, goOn chan struct{}
	slow       int // how many pages behind it take a millisecond each
}

func (h *halted) ready(stop func() bool) error {
	return h.file.ready(func() bool {
		h.walked++
		if h.walked == h.at {
			close(h.halt)
			<-h.goOn
		}
		if h.walked > h.at && h.walked <= h.at+h.slow {
			time.Sleep(time.Millisecond)
		}
		return stop()
	})
}

// paged makes a database of one session of more pages than are walked before a
// file is open.
func paged(t *testing.T) (path string) {
	t.Helper()
	path = filepath.Join(t.TempDir(), "x.db")
	db, err := Open(path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	at := time.Unix(1e9, 0)
	events := []record.Event{{At: at, Body: record.Details{UID: "s", Title: "Tug", Unit: length.MM}}}
	for range walkAtOnce * newPageSize / 3900 {
		events = append(events, record.Event{At: at, Body: record.Note{Text: strings.Repeat("said ", 3900/5)}})
	}
	if _, err := db.Keep("s", events...); err != nil {
		t.Fatal(err)
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	return path
}

// openHalted opens a file and returns it when its walk has halted in the middle.
func openHalted(t *testing.T, path string) (*DB, *halted) {
	t.Helper()
	f, err := newFile(path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	f.warn = func(text string) { t.Errorf("it warns: %s", text) }
	if err := f.prepare(false); err != nil {
		t.Fatal(err)
	}
	h := &halted{file: f, at: walkAtOnce / 2, halt: make(chan struct{}), goOn: make(chan struct{})}
	db := &DB{newBook(h, Options{hooks: f.hooks}), f}
	db.begin()
	select {
	case <-h.halt:
	case <-time.After(time.Minute):
		t.Fatal("the walk never came to its middle")
	}
	return db, h
}

// closes closes the store while its walk is halted, lets the walk go on and returns
// what closing said.
func closes(t *testing.T, db *DB, h *halted) error {
	t.Helper()
	said := make(chan error, 1)
	go func() { said <- db.Close() }()
	for {
		if _, err := db.Keep("s"); err != nil { // nothing to keep: it says only that it is closed
			break
		}
		time.Sleep(time.Millisecond)
	}
	close(h.goOn)
	select {
	case err := <-said:
		return err
	case <-time.After(time.Minute):
		t.Fatal("it does not close")
		return nil
	}
}

// endsAt opens the database and looks where its session ends.
func endsAt(t *testing.T, path string, want record.Head) {
	t.Helper()
	db, err := Open(path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if head, err := db.Head("s"); err != nil || head != want {
		t.Errorf("it ends at %v, %v, not at %v", head, err, want)
	}
	if err := db.Close(); err != nil {
		t.Error(err)
	}
}

// TestCloseStopsTheWalk: a store that is closed while the pages of a large file are
// walked stops there; nothing is going to be written.
func TestCloseStopsTheWalk(t *testing.T) {
	db, h := openHalted(t, paged(t))
	if err := closes(t, db, h); err != nil {
		t.Errorf("closing says %v", err)
	}
	if h.walked != h.at || db.file.unwalked.Load() == nil {
		t.Errorf("it walked on for %d pages", h.walked-h.at)
	}
}

// TestCloseInTheWalkKeeps: what was keyed while the pages are walked is kept by
// closing, after the walk.
func TestCloseInTheWalkKeeps(t *testing.T) {
	path := paged(t)
	db, h := openHalted(t, path)
	last := keyed(t, db)
	if err := closes(t, db, h); err != nil {
		t.Errorf("closing says %v", err)
	}
	if h.walked < walkAtOnce {
		t.Errorf("only %d pages were walked before it was written", h.walked)
	}
	endsAt(t, path, last.Head)
	if r, err := Verify(path); err != nil || !r.Sound {
		t.Errorf("the check says %+v, %v", r, err)
	}
}

// keyed keeps a note while the walk is halted.
func keyed(t *testing.T, db *DB) record.Sealed {
	t.Helper()
	sealed, err := db.Keep("s", record.Event{At: time.Unix(1e9, 0), Body: record.Note{Text: "keyed meanwhile"}})
	if err != nil {
		t.Fatal(err)
	}
	return sealed[0]
}

// TestCloseWaitsForASlowWalk: as long as pages are walked, closing does not give up
// what was keyed, however long it takes.
func TestCloseWaitsForASlowWalk(t *testing.T) {
	path := paged(t)
	db, h := openHalted(t, path)
	db.closeWait, h.slow = 100*time.Millisecond, 300
	last := keyed(t, db)
	close(h.goOn)
	if err := db.Close(); err != nil {
		t.Fatalf("closing says %v", err)
	}
	endsAt(t, path, last.Head)
}

// TestCloseGivesUpAWalkThatStandsStill, and says what was not kept.
func TestCloseGivesUpAWalkThatStandsStill(t *testing.T) {
	db, h := openHalted(t, paged(t))
	db.closeWait = 30 * time.Millisecond
	keyed(t, db)
	var unkept *UnkeptError
	if err := db.Close(); !errors.As(err, &unkept) || unkept.Events != 1 {
		t.Errorf("closing says %v", err)
	}
	close(h.goOn)
	<-db.done
}
