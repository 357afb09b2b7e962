package record

import (
	"crypto/sha256"
	"encoding/base64"
	"fmt"
)

// Stream reads the stored bytes of one stream, an event after the other, as
// Continue does. Its events share the texts that come again.
type Stream struct {
	head    Head
	decode  func([]byte) (Event, error)
	decoder *decoder
}

// NewStream returns a stream that goes on after a head; the zero head is its
// beginning.
func NewStream(after Head) *Stream {
	d := &decoder{texts: newTextPool(), prev: after.Hash}
	return &Stream{head: after, decode: d.decode, decoder: d}
}

// strictStream is a stream whose bytes are foreign.
func strictStream() *Stream { return &Stream{decode: DecodeStrict, decoder: &decoder{}} }

// Head returns the head of what was read.
func (s *Stream) Head() Head { return s.head }

// Next reads the next event. What it returns holds the stored bytes themselves,
// and nothing else of it does. The error, after which the stream stands where it
// stood, names the event.
func (s *Stream) Next(stored []byte) (Sealed, error) {
	e, err := s.decode(stored)
	if err != nil {
		return Sealed{}, fmt.Errorf("event %d: %w", s.head.N+1, err)
	}
	if err := follows(e, s.head); err != nil {
		return Sealed{}, err
	}
	e.Prev = s.head.Hash // the same text, held once: a long session takes 4 in a hundred less
	s.head = Head{N: e.N, Hash: s.decoder.sumOf(stored)}
	s.decoder.prev = s.head.Hash
	return Sealed{Event: e, Bytes: stored, Head: s.head}, nil
}

// all reads the lines that come next.
func (s *Stream) all(lines [][]byte) ([]Sealed, error) {
	out := make([]Sealed, 0, len(lines))
	for _, line := range lines {
		e, err := s.Next(line)
		if err != nil {
			return nil, err
		}
		out = append(out, e)
	}
	return out, nil
}

// sumOf is SumOf among the texts of the stream.
func (d *decoder) sumOf(stored []byte) string {
	text := hashOf(stored)
	return d.texts.once(text[:])
}

// hashOf is the text that SumOf returns.
func hashOf(stored []byte) (text [hashLength]byte) {
	sum := sha256.Sum256(stored)
	base64.RawURLEncoding.Encode(text[:], sum[:])
	return text
}
