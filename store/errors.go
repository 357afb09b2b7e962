package store

import (
	"errors"
	"fmt"

	"borewright/engine/record"
)

// These errors happen when a database is opened.
var (
	// ErrBusy means that another process, or this one, has the file open.
	ErrBusy = errors.New("the database is already open in another window")
	// ErrNewer means that the file's format is newer than this program.
	ErrNewer = errors.New("the database was written by a newer version of this program")
	// ErrEmptyFile means that the file exists and holds nothing.
	ErrEmptyFile = errors.New("the database file is there but empty")
	// ErrNotOurs means that the file is something else, or that its beginning
	// is destroyed.
	ErrNotOurs = errors.New("the file is not a database of this program")
	// ErrNetwork means that the file would lie on another computer's disk,
	// where locks and flushes cannot be trusted.
	ErrNetwork = errors.New("the database would lie on a network disk, where readings can be lost")
	// ErrUnreadable means that the file, or its folder, must not be read.
	ErrUnreadable = errors.New("this file may not be read")
	// ErrUnfit means that the file system cannot lock files, or lacks something
	// else that a database needs.
	ErrUnfit = errors.New("this place cannot do with files what a database needs, as some network folders cannot; keep it on a disk of this computer")
)

// These errors happen when events are kept.
var (
	// ErrFull means that there is no room: free some space and try again.
	ErrFull = errors.New("the disk is full")
	// ErrReadOnly means that file, folder or disk must not be written.
	ErrReadOnly = errors.New("this place may not be written")
	// ErrBackup means that the file is a backup under its own name.
	ErrBackup = errors.New("this is a backup, which is only read; to go on from it copy it under another name")
	// ErrGone means that the path no longer leads to the file that is open, or
	// that another one was copied over it.
	ErrGone = errors.New("the database file was moved, deleted or replaced while it was open")
	// ErrDisk means that the system refused for a reason of its own.
	ErrDisk = errors.New("the disk reported an error")
	// ErrClosed means that the store was closed before.
	ErrClosed = errors.New("the store is closed")
	// ErrWriter means that the writer stumbled over a mistake of this program.
	ErrWriter = errors.New("the writer was stopped by a mistake in this program")
)

// ErrDamaged means that the file's inside is not what was written. Once it
// happened, the store does not touch the file again. After a panic inside the
// library not even Close does, and the file stays locked until the process ends.
var ErrDamaged = errors.New("the database file is damaged")

// These errors concern one session.
var (
	// ErrNoSession means that no session has this uid.
	ErrNoSession = errors.New("there is no such session")
	// ErrOtherSession means that details name another uid than the stream's.
	ErrOtherSession = errors.New("the details belong to another session")
	// ErrNotNext means that lines do not continue the stream's last event.
	ErrNotNext = errors.New("the events do not continue what is kept")
)

// These errors happen when a file is written.
var (
	// ErrExists means that a file of this name is there already.
	ErrExists = errors.New("a file of this name is there already")
	// ErrNoFolder means that the folder to write into is not there.
	ErrNoFolder = errors.New("the folder is not there")
	// ErrName means that nothing of the name can be used.
	ErrName = errors.New("nothing of the file name can be used")
	// ErrLongName means that the system takes no name as long.
	ErrLongName = errors.New("the file name is too long")
)

// FileError is what happened to a file: Kind is one of the errors of this
// package, Cause what the system said, if it said anything.
type FileError struct {
	Path  string
	Kind  error
	Cause error
}

// errNoEvent means that a file was searched and no event was in it.
var errNoEvent = errors.New("no event of this program was found in it")

// saves names the command that helps against damage.
const saves = `"borewright salvage OUT" recovers what is intact`

// Error returns one sentence that names the file, and what helps when it is
// damaged.
func (e *FileError) Error() string {
	text := fmt.Sprintf("%v: %s", e.Kind, e.Path)
	if e.Cause != nil && isAny(e.Kind, ErrDamaged, ErrDisk, ErrUnfit, ErrNetwork) || errors.Is(e.Cause, errNoEvent) {
		text += fmt.Sprintf(" (%v)", e.Cause)
	}
	switch {
	case errors.Is(e.Kind, ErrDamaged):
		text += "; " + saves
	case errors.Is(e.Cause, errForeign):
		text += "; if it was one, " + saves
	}
	return text
}

// Unwrap returns the kind and the cause.
func (e *FileError) Unwrap() []error { return unwrapped(e.Kind, e.Cause) }

// SessionError says which event of a session cannot be read. The events before
// it are intact.
type SessionError struct {
	UID   string
	N     int64
	Cause error
}

// Error returns one sentence that names the session, the event, and what helps
// when it is damaged.
func (e *SessionError) Error() string {
	text := fmt.Sprintf("session %q cannot be read from event %d on: %v", e.UID, e.N, e.Cause)
	if errors.Is(e.Cause, record.ErrNewer) {
		return text
	}
	return text + "; " + saves
}

// Unwrap returns the cause, with ErrDamaged unless a newer program wrote the
// event.
func (e *SessionError) Unwrap() []error {
	if errors.Is(e.Cause, record.ErrNewer) {
		return []error{e.Cause}
	}
	return unwrapped(ErrDamaged, e.Cause)
}

func isSessionError(err error) bool {
	var s *SessionError
	return errors.As(err, &s)
}

// UnkeptError says how many events were not kept, and why.
type UnkeptError struct {
	Events int
	Cause  error
}

// Error returns one sentence that names the number and the cause.
func (e *UnkeptError) Error() string {
	noun := "events are"
	if e.Events == 1 {
		noun = "event is"
	}
	return fmt.Sprintf("%d %s not kept: %v", e.Events, noun, e.Cause)
}

// Unwrap returns the cause.
func (e *UnkeptError) Unwrap() error { return e.Cause }

func unwrapped(kind, cause error) []error {
	if cause == nil {
		return []error{kind}
	}
	return []error{kind, cause}
}
