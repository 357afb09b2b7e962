package main

import (
	"errors"
	"io"
	"strings"
	"testing"

	"borewright/engine/record"
	"borewright/store"
)

// ailing is a database with something to say about itself.
type ailing struct {
	shelved
	warnings []string
	keep     error // of Append
	close    error
}

func (b ailing) Warnings() []string { return b.warnings }

func (b ailing) Append(string, [][]byte) error { return b.keep }

func (b ailing) Close() error { return b.close }

// ailingWorld is a world whose database is b.
func ailingWorld(b ailing, errs io.Writer) World {
	w := newShelf().world(io.Discard, errs)
	w.Open = func(string, store.Options) (Book, error) { return b, nil }
	return w
}

func TestWithBookTellsEverything(t *testing.T) {
	t.Parallel()
	used, lost := errors.New("used wrongly"), errors.New("not given back")
	var errs strings.Builder
	b := ailing{warnings: []string{"the beginning is damaged", "x\x1by\nz"}, close: lost}
	err := withBook(ailingWorld(b, &errs), "bench.db", func(Book) error { return used })
	if !errors.Is(err, used) || !errors.Is(err, lost) {
		t.Errorf("said %v", err)
	}
	if want := "borewright: note: the beginning is damaged\nborewright: note: x·y; z\n"; errs.String() != want {
		t.Errorf("warned %q, want %q", errs.String(), want)
	}
}

func TestImportThatCannotBeKept(t *testing.T) {
	t.Parallel()
	var errs strings.Builder
	w := ailingWorld(ailing{shelved: shelved{store.Memory(store.Options{})}, keep: store.ErrFull}, &errs)
	w.In = strings.NewReader(oneBore(t))
	if code := run([]string{"borewright", "import", "-"}, w); code != 1 || errs.String() != "borewright: the disk is full\n" {
		t.Errorf("ended with %d and said %q", code, errs.String())
	}
}

func TestState(t *testing.T) {
	t.Parallel()
	for of, want := range map[string]string{"": "open", record.Closed: "closed", record.Archived: "archived"} {
		if got := state(record.Heading{State: of}); got != want {
			t.Errorf("%q is told as %q, want %q", of, got, want)
		}
	}
}
