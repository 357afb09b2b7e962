package record

import (
	"errors"
	"fmt"
	"strings"

	"borewright/engine/plan"
)

// Errors of reading a file.
var (
	// ErrForeign is returned for what no borewright wrote.
	ErrForeign = errors.New(`this is not a borewright file: it is not an object that states "borewright": 1`)
	// ErrTooLarge is returned for a file beyond MaxFile.
	ErrTooLarge = errors.New("the file is larger than 64 MiB, the most that is read")
	// ErrTruncated is wrapped by the error for text that ends too early.
	ErrTruncated = errors.New("the text ends too early")
	// ErrNewer is wrapped by the error for what a newer program wrote.
	ErrNewer = errors.New("a newer borewright wrote this")
)

// Errors of a chain of events.
var (
	// ErrBroken is wrapped by the error for events that do not follow each
	// other: a gap, a wrong number, a hash that does not fit.
	ErrBroken = errors.New("the chain of events is broken")
	// ErrDigest is returned for a file whose digest is not of its events.
	ErrDigest = errors.New("the digest does not match the events")
	// ErrEmpty is returned for a full file without events.
	ErrEmpty = errors.New("the file holds no events")
)

// FieldError says which field could not be taken and why.
type FieldError struct {
	// Path is where it stands, such as readings[3].across[1]; empty at the top.
	Path string
	// Value is what stands there, as given; Error cuts and cleans it.
	Value string
	// Reason is what is wrong with it, in plain words.
	Reason string
	// Err is the sentinel it belongs to, or nil.
	Err error
}

// Error joins place, value and reason into one sentence.
func (e *FieldError) Error() string {
	s := e.Reason
	if e.Value != "" {
		s = plan.Quote(e.Value) + ": " + s
	}
	if e.Path != "" {
		s = e.Path + ": " + s
	}
	return s
}

// Unwrap returns the sentinel.
func (e *FieldError) Unwrap() error { return e.Err }

// wrong is the error for a field.
func wrong(path, value, reason string) error {
	return &FieldError{Path: path, Value: value, Reason: reason}
}

// noKind is the error for a kind of event that is none.
func noKind(is Kind) error { return wrong("is", string(is), "no kind of event") }

// under puts a place before the path of an error; an empty place is none.
func under(at string, err error) error {
	var f *FieldError
	switch {
	case err == nil || at == "":
		return err
	case !errors.As(err, &f):
		return wrong(at, "", err.Error())
	case f.Path == "" || strings.HasPrefix(f.Path, "["):
		f.Path = at + f.Path
	default:
		f.Path = at + "." + f.Path
	}
	return err
}

// NewerError is for a file or event of a vocabulary that is not known here. It
// wraps ErrNewer.
type NewerError struct {
	What  string // "file" or "event"
	Found int    // the number it states
	Known int    // the highest number known here
}

// Error says so in a sentence.
func (e *NewerError) Error() string {
	return fmt.Sprintf("this %s is of version %d and this program reads up to version %d: a newer borewright is needed", e.What, e.Found, e.Known)
}

// Unwrap returns ErrNewer.
func (e *NewerError) Unwrap() error { return ErrNewer }

// ChainError names the event at which a chain is broken. It wraps ErrBroken.
type ChainError struct {
	N      int64 // the number of the event
	Reason string
}

// Error says so in a sentence.
func (e *ChainError) Error() string { return fmt.Sprintf("event %d: %s", e.N, e.Reason) }

// Unwrap returns ErrBroken.
func (e *ChainError) Unwrap() error { return ErrBroken }
