package store

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	bolt "go.etcd.io/bbolt"

	"borewright/engine/length"
	"borewright/engine/record"
)

// openPieces opens a file of a session "s" that is read in five pieces or more.
func openPieces(t *testing.T) *file {
	t.Helper()
	path := filepath.Join(t.TempDir(), "x.db")
	db, err := Open(path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	at := time.Unix(1e9, 0)
	events := []record.Event{{At: at, Body: record.Details{UID: "s", Title: "Tug", Unit: length.MM}}}
	for range 5 * linesAtOnce / 3000 {
		events = append(events, record.Event{At: at, Body: record.Note{Text: strings.Repeat("said ", 600)}})
	}
	if _, err := db.Keep("s", events...); err != nil {
		t.Fatal(err)
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	f, err := newFile(path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if err := f.prepare(false); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = f.close() })
	return f
}

// meddled is a file with which something is done once the first piece of a session
// is read.
type meddled struct {
	*file
	with func()
}

func (m *meddled) read(uid string, each lineReader) error {
	return m.file.read(uid, func(line []byte, of int) {
		if m.with != nil {
			m.with()
			m.with = nil
		}
		each(line, of)
	})
}

// TestStoppedBetweenPieces: only a damaged event leaves those before it. What else
// ends the reading of a session leaves nothing of it that could be taken for all.
func TestStoppedBetweenPieces(t *testing.T) {
	for name, c := range map[string]struct {
		do   func(f *file) error
		want error
	}{
		"cut short": {func(f *file) error { return os.Truncate(f.path, 0) }, ErrGone},
		"closed":    {(*file).close, ErrClosed},
	} {
		for as, read := range map[string]func(b *book) (int, error){
			"events": func(b *book) (int, error) { events, err := b.Load("s"); return len(events), err },
			"lines":  func(b *book) (int, error) { lines, err := b.Lines("s"); return len(lines), err },
		} {
			f := openPieces(t)
			m := &meddled{file: f, with: func() {
				if err := c.do(f); err != nil {
					t.Error(err)
				}
			}}
			if n, err := read(newBook(m, Options{hooks: f.hooks})); n > 0 || !errors.Is(err, c.want) || m.with != nil {
				t.Errorf("%s: %d %s and %v", name, n, as, err)
			}
		}
	}
}

// TestReopenedBetweenPieces: a handle that is lost meanwhile is opened again, and the
// session is whole.
func TestReopenedBetweenPieces(t *testing.T) {
	f := openPieces(t)
	whole, err := newBook(f, Options{hooks: f.hooks}).Lines("s")
	if err != nil || len(whole) < 5*linesAtOnce/3000 {
		t.Fatalf("%d lines, %v", len(whole), err)
	}
	m := &meddled{file: f, with: func() {
		if err := f.bolt.Close(); err != nil {
			t.Error(err)
		}
	}}
	if events, err := newBook(m, Options{hooks: f.hooks}).Load("s"); err != nil || len(events) != len(whole) {
		t.Errorf("%d events of %d, %v", len(events), len(whole), err)
	}
}

// lostFile is a file that was closed.
type lostFile struct{}

func (lostFile) ReadAt([]byte, int64) (int, error) { return 0, fs.ErrClosed }

// TestFillAgain: a piece that is read again, because the handle was lost in it, is
// what it would have been.
func TestFillAgain(t *testing.T) {
	f := openPieces(t)
	l, again := lines{id: 1}, lines{id: 1}
	for n := 0; !l.done; n++ {
		err := f.view(func(tx *readTx) error {
			if err := again.fill(&readTx{tx: tx.tx, unwalked: newUnwalked(lostFile{}, f.last.Load().meta)}); err != nil {
				return err
			}
			return errors.Join(again.fill(tx), l.fill(tx))
		})
		if err != nil {
			t.Fatal(err)
		}
		if again.done != l.done || len(again.ends) != len(l.ends) || again.most != l.most || again.missing() != l.missing() {
			t.Fatalf("piece %d has %d events of %d, done: %v", n, len(again.ends), len(l.ends), again.done)
		}
		l.give(func([]byte, int) {})
		again.give(func([]byte, int) {})
	}
}

// TestForgedNumber: how much room is made for a session does not follow the number of
// an event that is damaged.
func TestForgedNumber(t *testing.T) {
	f := openPieces(t)
	err := f.with(func() error {
		return f.bolt.Update(func(tx *bolt.Tx) error {
			return tx.Bucket(eventsBucket).Put(eventKey(1, maxN), []byte("forged"))
		})
	})
	if err != nil {
		t.Fatal(err)
	}
	l := lines{id: 1}
	if err := f.bolt.View(func(tx *bolt.Tx) error { return l.fill(&readTx{tx: tx}) }); err != nil {
		t.Fatal(err)
	}
	if l.most > 0 {
		t.Errorf("it makes room for %d events", l.most)
	}
}
