package main

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"time"

	"github.com/urfave/cli/v3"

	"borewright/store"
	"borewright/tui"
	"borewright/tui/draw"
	"borewright/tui/term"
)

// errNoTerminal is returned where no screen can be opened.
var errNoTerminal = errors.New(`the station needs a terminal; without one there are "borewright demo", "borewright list" and "borewright assess FILE"`)

// seat says what a station is opened on.
type seat struct {
	path    string // of the database
	ballast bool   // keep a reserve beside it
	apart   string // why it is not the shop's database at work, or ""
	// prepare readies the open database and returns the session to open at
	// once and what to say first, or nothing of either.
	prepare func(Book) (open, notice string, err error)
}

// openStation is what the program does without a command.
func openStation(ctx context.Context, cmd *cli.Command, w World) error {
	if cmd.Bool("version") {
		return printVersion(w)
	}
	if name := cmd.Args().First(); name != "" {
		return usagef("there is no command %q; %q lists them", name, "borewright help")
	}
	o, err := stationOptions(cmd, w)
	if err != nil {
		return err
	}
	path, err := database(cmd, w)
	if err != nil {
		return err
	}
	return runStation(ctx, w, o, seat{path: path, ballast: true, prepare: func(Book) (string, string, error) {
		return "", "", nil
	}})
}

// runStation opens the database and shows the station on it until it is left.
// Everything taken is kept then, or the error says what is not.
func runStation(ctx context.Context, w World, o tui.Options, s seat) (err error) {
	keyboard, ok := w.In.(*os.File)
	if !ok || !w.Terminal() {
		return errNoTerminal
	}
	defer roomyHeap()()
	ctx, release := w.Hangup(ctx)
	defer release() // only when all is kept: a second signal must not kill
	broken := &crashes{w: w, folder: filepath.Dir(s.path)}
	days := newDaily(broken, backupRest)
	book, err := openTally(w, s, o.Inbox, days)
	if err != nil {
		return err
	}
	defer func() {
		err = errors.Join(err, book.Close())
		if !errors.Is(err, tui.ErrCrashed) { // which names the file
			broken.tell()
		}
	}()
	if s.ballast {
		days.open(book.Book, w.Watch())
		defer func() { days.end(); warn(w, days.failures()) }()
	}
	if o, err = s.options(o, w, book); err != nil {
		return err
	}
	o.Crash, o.Keyed = broken.note, days.hand.keyed
	if o.Cable != nil {
		defer o.Cable.Close() //nolint:errcheck // it was only read
	}
	program := tui.New(o, keyboard)
	days.telling(program.Warn)
	defer onContinue(func() { program.Resume(keyboard) }, program.Fatal)()
	o.Output.OnPanic(program.Fatal)
	term.Go(func() { <-ctx.Done(); program.Hangup() }, program.Fatal)
	left := make(chan struct{})
	defer close(left)
	term.Go(func() { newTidier(days.hand).run(left) }, program.Fatal)
	return afterScreen(program.Start(keyboard, w.Out))
}

// options adds to the options of a station what its book says, once it is ready.
func (s seat) options(o tui.Options, w World, book *tally) (_ tui.Options, err error) {
	o.Book, o.Apart, o.Backup = book, s.apart, backupNow(w, book.Book)
	if o.Open, o.Notice, err = s.prepare(book); err != nil {
		return o, err
	}
	if err := onlyRead(book.Book); errors.Is(err, store.ErrBackup) {
		o.Notice, o.Apart, o.Backup = oneLine(err.Error()), "a backup, only read", nil
	}
	return o, nil
}

// stationOptions returns what the command line and the environment say of a
// station.
func stationOptions(cmd *cli.Command, w World) (tui.Options, error) {
	flags, err := looks(cmd)
	if err != nil {
		return tui.Options{}, err
	}
	by, err := initials(cmd, w)
	if err != nil {
		return tui.Options{}, err
	}
	port, err := gaugePort(cmd)
	if err != nil {
		return tui.Options{}, err
	}
	dark, profile, ascii := term.Profile(w.Env, flags)
	term.Settle(dark, profile)
	return tui.Options{
		Inbox: tui.NewInbox(), Folder: sheetsFolder(cmd, w), Now: w.Now, Watch: w.Watch, UID: w.UID, By: by, Output: term.NewOutput(w.Out),
		Palette: draw.NewPalette(dark, profile), Signs: draw.NewSigns(ascii), ASCII: ascii,
		Cable: port.cable(w),
	}, nil
}

// openTally opens the database of a station; its outcomes go to the inbox.
func openTally(w World, s seat, inbox *tui.Inbox, days *daily) (*tally, error) {
	book, err := w.Open(s.path, store.Options{Ballast: s.ballast, Crash: days.broken.note, Damaged: days.damaged, Notify: func(o store.Outcome) {
		inbox.Post(tui.Outcome{UID: o.UID, First: o.First, Last: o.Last, Err: o.Err, Took: o.Took})
		days.hear(o)
	}})
	if errors.Is(err, store.ErrDamaged) || errors.Is(err, store.ErrNotOurs) {
		if rescued, worse := store.Rescue(s.path, err); worse == nil {
			return newTally(rescued, days), nil
		}
	}
	if err != nil {
		return nil, busyWords(s.path, err)
	}
	return newTally(book, days), nil
}

// backupNow is what the station backs up by, or nil where nothing is in a file.
func backupNow(w World, book Book) func() (string, error) {
	file, ok := book.(interface {
		BackupNow(day time.Time, keep int) (string, error)
	})
	if !ok {
		return nil
	}
	return func() (string, error) { return file.BackupNow(w.Watch(), backupsKept) }
}
