package powercut

import (
	"bytes"
	"compress/gzip"
	"encoding/gob"
	"fmt"
	"io"
)

// Kind says what an Op did.
type Kind uint8

// What a program asks of a disk, and Ack, by which it says that something is
// kept.
const (
	Create Kind = iota + 1
	Write
	Truncate
	Sync
	Rename
	Remove
	SyncFolder
	Ack
)

// Op is one step of a trace.
type Op struct {
	Kind Kind
	// File is the number of the file that is written, cut or flushed.
	File int
	// Name is the file's name in the folder, To its name after Rename.
	Name, To string
	// At is where a Write begins, in bytes, the size after a Truncate, or the
	// number that Ack acknowledges.
	At   int64
	Data []byte
}

// flushes reports whether the step makes something durable.
func (o Op) flushes() bool { return o.Kind == Sync || o.Kind == SyncFolder }

// WithoutSyncs returns the trace of a program that never flushes what it wrote
// into files.
func WithoutSyncs(ops []Op) []Op {
	var out []Op
	for _, o := range ops {
		if o.Kind != Sync {
			out = append(out, o)
		}
	}
	return out
}

// Pack returns the trace in a compact form.
func Pack(ops []Op) ([]byte, error) {
	var b bytes.Buffer
	z, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	if err := gob.NewEncoder(z).Encode(ops); err != nil {
		return nil, fmt.Errorf("a trace does not pack: %w", err)
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// Unpack reads what Pack returned.
func Unpack(r io.Reader) ([]Op, error) {
	z, err := gzip.NewReader(r)
	if err != nil {
		return nil, err
	}
	var ops []Op
	if err := gob.NewDecoder(z).Decode(&ops); err != nil {
		return nil, fmt.Errorf("a trace does not unpack: %w", err)
	}
	return ops, nil
}
