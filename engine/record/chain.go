package record

import (
	"crypto/sha256"
	"encoding/base64"
	"errors"
	"fmt"
)

// Head is the digest of a stream: the number of its last event and the hash of
// that event's stored bytes. The zero value is an empty stream.
type Head struct {
	N    int64  `json:"n"`
	Hash string `json:"sha256"`
}

// Sealed is an event with its stored bytes, where they are asked for, and the head
// they make.
type Sealed struct {
	Event
	Bytes []byte
	Head  Head
}

// SumOf returns the hash of stored bytes: SHA-256 in base64url without padding,
// 43 characters.
func SumOf(stored []byte) string {
	text := hashOf(stored)
	return string(text[:])
}

// Seal makes an event the next one of a stream: it sets N, V and Prev, keeps
// the whole seconds of At, validates and encodes. The event must have an At.
func Seal(e Event, after Head) (Sealed, error) {
	e.N, e.V, e.Prev = after.N+1, vocabularyOf(e.Body), after.Hash
	e.At = atOffset(e.At)
	if err := e.validateSealed(); err != nil {
		return Sealed{}, err
	}
	stored, err := e.encode()
	if err != nil {
		return Sealed{}, err
	}
	if len(stored) > MaxEvent {
		return Sealed{}, &FieldError{Reason: fmt.Sprintf("an event has at most %d bytes, not %d", MaxEvent, len(stored))}
	}
	return sealed(e, stored), nil
}

// sealed joins an event and its stored bytes.
func sealed(e Event, stored []byte) Sealed {
	return Sealed{Event: e, Bytes: stored, Head: Head{N: e.N, Hash: SumOf(stored)}}
}

// Verify reads a whole stream of stored bytes, as Decode does, and checks that
// the events are numbered from 1 without gaps and that each holds the hash of
// the one before. The error names the event.
func Verify(lines [][]byte) ([]Sealed, error) { return Continue(Head{}, lines) }

// Continue is Verify for lines that go on after a head.
func Continue(after Head, lines [][]byte) ([]Sealed, error) {
	return NewStream(after).all(lines)
}

// follows says why an event is not the next one after a head.
func follows(e Event, after Head) error {
	next := after.N + 1
	switch {
	case e.N > next:
		return &ChainError{N: next, Reason: fmt.Sprintf("it is missing; event %d stands in its place", e.N)}
	case e.N < next:
		return &ChainError{N: next, Reason: fmt.Sprintf("it is numbered %d, a number that was used before", e.N)}
	case e.Prev == after.Hash:
		return nil
	case after.N == 0:
		return &ChainError{N: next, Reason: "it is the first but holds the hash of an event before it"}
	default:
		return &ChainError{N: next, Reason: fmt.Sprintf("the hash it holds is not that of event %d: one of the two was altered", after.N)}
	}
}

// validateSealed validates an event that has its number and its hash.
func (e Event) validateSealed() error {
	if e.N < 1 {
		return &FieldError{Path: "n", Reason: fmt.Sprintf("events are numbered from 1, not %d", e.N)}
	}
	if err := e.validVocabulary(); err != nil {
		return err
	}
	if err := validHash(e.Prev, e.N == 1); err != nil {
		return &FieldError{Path: "prev", Value: e.Prev, Reason: err.Error()}
	}
	return e.Validate()
}

// validHash says what is wrong with the text of a hash; the first event of a
// stream holds none.
func validHash(hash string, first bool) error {
	if first {
		if hash != "" {
			return errors.New("the first event holds no hash")
		}
		return nil
	}
	if b, err := base64.RawURLEncoding.Strict().DecodeString(hash); err != nil || len(b) != sha256.Size {
		return errors.New("not a SHA-256 in base64url")
	}
	return nil
}
