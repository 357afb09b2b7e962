package record

import (
	"bytes"
	"errors"
	"fmt"
)

// ErrDiverged is wrapped by the error for two streams of one session that went
// separate ways.
var ErrDiverged = errors.New("the two went separate ways")

// DivergedError names the first event in which two streams differ. It wraps
// ErrDiverged.
type DivergedError struct {
	N int64 // the number of the event
}

// Error says so in a sentence.
func (e *DivergedError) Error() string {
	return fmt.Sprintf("event %d is not the same in both: %v", e.N, ErrDiverged)
}

// Unwrap returns ErrDiverged.
func (e *DivergedError) Unwrap() error { return ErrDiverged }

// Merge compares the stored events of a session here with those from elsewhere,
// both whole streams from event 1, and returns the ones missing here. There are
// none when theirs are the beginning of ours. The error is a *DivergedError
// when neither is the beginning of the other. What is returned is a part of
// theirs.
func Merge(ours, theirs [][]byte) (missing [][]byte, err error) {
	for i := range min(len(ours), len(theirs)) {
		if !bytes.Equal(ours[i], theirs[i]) {
			return nil, &DivergedError{N: int64(i) + 1}
		}
	}
	if len(theirs) <= len(ours) {
		return nil, nil
	}
	return theirs[len(ours):], nil
}
