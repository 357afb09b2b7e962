package main

import (
	"context"
	"crypto/rand"
	"errors"
	"io"
	"io/fs"
	"os"
	"os/signal"
	"syscall"
	"time"

	"github.com/adrg/xdg"
	"github.com/charmbracelet/x/term"

	"borewright/store"
)

// World is everything outside the program that a command may use. Commands take
// it as an argument, so that a test or a story can give another.
type World struct {
	// In, Out and Err are the standard streams. A screen is drawn on Out and
	// reads keys from In; errors go to Err as one sentence.
	In       io.Reader
	Out, Err io.Writer

	// Env returns the value of an environment variable, "" when not set.
	Env func(name string) string

	// Now returns the present time with the offset of the bench's own zone.
	Now func() time.Time

	// Watch returns the present time too, for what is only looked at: what is
	// shown, and the rhythm of keys. No event takes its time from it.
	Watch func() time.Time

	// UID returns a new identity, never given before, of letters, digits and
	// hyphens.
	UID func() string

	// DataHome is the folder in which this platform keeps programs' data, as an
	// absolute path; "" when there is none.
	DataHome string

	// Terminal reports whether In and Out are both a terminal, so that a screen
	// can be opened.
	Terminal func() bool

	// ErrTerminal reports whether Err is a terminal, so that it can be told there how
	// far a command has come.
	ErrTerminal func() bool

	// Hangup returns a context that also ends when the window is closed, the
	// system ends the program or the user asks for it by a signal. A command
	// with a screen ends it then, so that everything taken is kept. The
	// function it returns gives the signals back.
	Hangup func(context.Context) (context.Context, context.CancelFunc)

	// Open opens the database at path and makes it when there is none; its
	// errors are those of [store.Open].
	Open func(path string, o store.Options) (Book, error)

	// Port opens a serial port for reading, 8 data bits, no parity and 1 stop
	// bit. Its Read returns nothing and no error after a silence of [silence].
	Port func(device string, baud int) (io.ReadCloser, error)

	// Verify checks the database at path in a process of its own.
	Verify func(ctx context.Context, path string) (store.Report, error)

	// Salvage recovers a damaged database into a new one, as [store.Salvage].
	Salvage func(path, out string, tell func(store.Step), with ...string) (store.Salvaged, error)

	// Exists reports whether something is at path, or may be.
	Exists func(path string) bool

	// Read opens a file that the user named.
	Read func(path string) (io.ReadCloser, error)

	// Write writes a whole file for its owner only, as [store.WriteFile].
	Write func(dir, name string, data []byte, overwrite bool) (path string, err error)

	// WriteNew writes a whole file at a path that the user named, as [store.WriteNew].
	WriteNew func(path string, data []byte) error

	// Rename gives a file another name, at which nothing may be.
	Rename func(from, to string) error
}

// processWorld returns the world of the running process.
func processWorld() World {
	return World{
		In:       os.Stdin,
		Out:      os.Stdout,
		Err:      os.Stderr,
		Env:      os.Getenv,
		Now:      time.Now,
		Watch:    time.Now,
		UID:      rand.Text,
		DataHome: xdg.DataHome,
		Terminal: func() bool {
			return term.IsTerminal(os.Stdin.Fd()) && term.IsTerminal(os.Stdout.Fd())
		},
		ErrTerminal: func() bool { return term.IsTerminal(os.Stderr.Fd()) },
		Hangup: func(ctx context.Context) (context.Context, context.CancelFunc) {
			return signal.NotifyContext(ctx, endings...)
		},
		Open: func(path string, o store.Options) (Book, error) {
			db, err := store.Open(path, o)
			if err != nil {
				return nil, err // not a *store.DB that is nil
			}
			return db, nil
		},
		Port:     openPort,
		Verify:   verifyApart,
		Salvage:  store.Salvage,
		Exists:   exists,
		Read:     func(path string) (io.ReadCloser, error) { return os.Open(path) },
		Write:    store.WriteFile,
		WriteNew: store.WriteNew,
		Rename:   rename,
	}
}

func exists(path string) bool {
	_, err := os.Lstat(path)
	return !errors.Is(err, fs.ErrNotExist) && !errors.Is(err, syscall.ENAMETOOLONG)
}

func rename(from, to string) error {
	if exists(to) {
		return &fs.PathError{Op: "rename", Path: to, Err: fs.ErrExist}
	}
	return os.Rename(from, to)
}
