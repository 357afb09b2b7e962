package main

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"borewright/engine/record"
	"borewright/store"
	"borewright/tui"
)

// Book is a store of sessions as the commands use it.
type Book interface {
	tui.Book
	// Lines returns the stored bytes of a session's events, which Load leaves out.
	Lines(uid string) ([][]byte, error)
	// Append keeps stored events, verbatim, that continue a session; it returns
	// when they are kept.
	Append(uid string, lines [][]byte) error
	// Pending returns how many of a session's last events are not kept yet.
	Pending(uid string) int
	// Wait returns when everything that was queued is kept, or why it is not.
	Wait(ctx context.Context) error
	// Close keeps what still waits and gives the database back.
	Close() error
}

// withBook opens the database at path for use and closes it. What the database
// has to say about itself goes to w.Err.
func withBook(w World, path string, use func(Book) error) (err error) {
	broken := &crashes{w: w, folder: filepath.Dir(path)}
	book, err := w.Open(path, store.Options{Crash: broken.note})
	if err != nil {
		return busyWords(path, err)
	}
	defer func() {
		warn(w, unsaid(book.Warnings(), err))
		err = errors.Join(err, book.Close())
		broken.tell()
	}()
	return use(book)
}

// withBookToKeep is withBook for what keeps something: a database that is only
// read says so at once.
func withBookToKeep(w World, path string, use func(Book) error) error {
	return withBook(w, path, func(b Book) error {
		if err := onlyRead(b); err != nil {
			return err
		}
		return use(b)
	})
}

// unsaid returns the warnings that err does not say too.
func unsaid(warnings []string, err error) []string {
	return slices.DeleteFunc(warnings, func(text string) bool {
		return err != nil && strings.Contains(err.Error(), text)
	})
}

// warn writes warnings, each on its line.
func warn(w World, warnings []string) {
	for _, text := range warnings {
		// Nothing is left to be done about an error stream that takes no words.
		_, _ = fmt.Fprintf(w.Err, "borewright: note: %s\n", oneLine(text))
	}
}

// lines returns the stored bytes of events.
func lines(events []record.Sealed) [][]byte {
	out := make([][]byte, len(events))
	for i, e := range events {
		out[i] = e.Bytes
	}
	return out
}
