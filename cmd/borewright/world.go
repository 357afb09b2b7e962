package main

import (
	"context"
	"crypto/rand"
	"io"
	"os"
	"os/signal"
	"syscall"
	"time"

	"github.com/adrg/xdg"
	"github.com/charmbracelet/x/term"
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

	// UID returns a new identity, never given before, of letters, digits and
	// hyphens.
	UID func() string

	// DataHome is the folder in which this platform keeps programs' data, as an
	// absolute path; "" when there is none.
	DataHome string

	// Terminal reports whether In and Out are both a terminal, so that a screen
	// can be opened.
	Terminal func() bool

	// Hangup returns a context that also ends when the window is closed or the
	// user asks the program to end from the keyboard's quit signal. A command
	// with a screen ends it then, so that everything taken is kept. The
	// function it returns gives the signals back.
	Hangup func(context.Context) (context.Context, context.CancelFunc)
}

// processWorld returns the world of the running process.
func processWorld() World {
	return World{
		In:       os.Stdin,
		Out:      os.Stdout,
		Err:      os.Stderr,
		Env:      os.Getenv,
		Now:      time.Now,
		UID:      rand.Text,
		DataHome: xdg.DataHome,
		Terminal: func() bool {
			return term.IsTerminal(os.Stdin.Fd()) && term.IsTerminal(os.Stdout.Fd())
		},
		Hangup: func(ctx context.Context) (context.Context, context.CancelFunc) {
			return signal.NotifyContext(ctx, syscall.SIGHUP, syscall.SIGQUIT)
		},
	}
}
