package record

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"reflect"
	"sync"

	"borewright/engine/plan"
)

// FileVersion is the number a file states under "borewright".
const FileVersion = 1

// MaxFile is how many bytes of a file are read at most.
const MaxFile = 64 << 20

// File is what a file holds: exactly one of the two forms.
type File struct {
	Plain *Plain
	Full  *Full
}

// Full is the full form: the events of a session, verbatim, with their digest.
type Full struct {
	Digest Head
	// Lines are the stored bytes, Events what they say, in order.
	Lines  [][]byte
	Events []Sealed
}

// fullForm is the full form as JSON.
type fullForm struct {
	Version int               `json:"borewright"`
	Digest  Head              `json:"digest"`
	Events  []json.RawMessage `json:"events"`
}

// Shapes of a file: of any, of the full and of the plain form.
var (
	fileShape = sync.OnceValue(func() *shape {
		s := shapeOf(reflect.TypeFor[struct {
			Version int `json:"borewright"`
		}]())
		s.rest = anything()
		return s
	})
	fullShape  = sync.OnceValue(func() *shape { return shapeOf(reflect.TypeFor[fullForm]()) })
	plainShape = sync.OnceValue(func() *shape { return shapeOf(reflect.TypeFor[Plain]()) })
)

// ReadFile reads a file in either form. It refuses, with a sentence that names
// the place and the value, what is foreign (ErrForeign), newer (NewerError),
// larger than MaxFile (ErrTooLarge), cut off (ErrTruncated), not as strictly
// written as DecodeStrict demands (FieldError), or a full form whose events do
// not follow each other (ChainError) or whose digest is not theirs (ErrDigest).
// What the plain form means is for Plain.Events to say.
func ReadFile(r io.Reader) (File, error) {
	data, err := io.ReadAll(io.LimitReader(r, MaxFile+1))
	switch {
	case err != nil:
		return File{}, fmt.Errorf("the file cannot be read: %w", err)
	case len(data) > MaxFile:
		return File{}, ErrTooLarge
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if c := (scanner{data: data}); c.next() != '{' {
		return File{}, ErrForeign
	}
	keys, err := version(data)
	if err != nil {
		return File{}, err
	}
	_, events := keys["events"]
	_, digest := keys["digest"]
	_, readings := keys["readings"]
	switch {
	case events && readings:
		return File{}, wrong("readings", "", "a file has readings or events, not both")
	case events || digest:
		full, err := readFull(data, events, digest)
		return File{Full: full}, err
	default:
		plain, err := readPlain(data)
		return File{Plain: plain}, err
	}
}

// version checks the form of the whole text and the version it states, and
// returns its keys.
func version(data []byte) (map[string]json.RawMessage, error) {
	if err := strict(data, fileShape()); err != nil {
		return nil, err
	}
	var keys map[string]json.RawMessage
	if err := json.Unmarshal(data, &keys); err != nil {
		return nil, fmt.Errorf("the file cannot be read: %w", err)
	}
	stated, ok := keys["borewright"]
	if !ok {
		return nil, ErrForeign
	}
	var v int
	if err := json.Unmarshal(stated, &v); err != nil {
		return nil, fmt.Errorf("the file cannot be read: %w", err)
	}
	switch {
	case v > FileVersion:
		return nil, &NewerError{What: "file", Found: v, Known: FileVersion}
	case v < FileVersion:
		return nil, wrong("borewright", string(stated), "no version of a file")
	}
	return keys, nil
}

// readPlain reads the plain form.
func readPlain(data []byte) (*Plain, error) {
	if err := strict(data, plainShape()); err != nil {
		return nil, err
	}
	var p Plain
	if err := json.Unmarshal(data, &p); err != nil {
		return nil, fmt.Errorf("the file cannot be read: %w", err)
	}
	return &p, nil
}

// readFull reads the full form, which must state both its parts.
func readFull(data []byte, events, digest bool) (*Full, error) {
	switch {
	case !events:
		return nil, wrong("events", "", "a file with a digest has events")
	case !digest:
		return nil, wrong("digest", "", "a file with events has a digest")
	}
	if err := strict(data, fullShape()); err != nil {
		return nil, err
	}
	var form fullForm
	if err := json.Unmarshal(data, &form); err != nil {
		return nil, fmt.Errorf("the file cannot be read: %w", err)
	}
	lines := make([][]byte, len(form.Events))
	for i, line := range form.Events {
		lines[i] = line
	}
	sealed, err := strictStream().all(lines)
	if err != nil {
		return nil, err
	}
	if len(sealed) == 0 {
		return nil, ErrEmpty
	}
	if last := sealed[len(sealed)-1].Head; last != form.Digest {
		return nil, fmt.Errorf("%w: it says %d events that end in %s, and there are %d that end in %s",
			ErrDigest, form.Digest.N, plan.Quote(form.Digest.Hash), last.N, plan.Quote(last.Hash))
	}
	return &Full{Digest: form.Digest, Lines: lines, Events: sealed}, nil
}

// WriteFull writes the full form of a whole stream: the digest, then one stored
// event per line, verbatim. It verifies the lines first, and writes nothing
// that ReadFile would refuse for its chain.
func WriteFull(w io.Writer, lines [][]byte) error {
	events, err := Verify(lines)
	if err != nil {
		return err
	}
	if len(events) == 0 {
		return ErrEmpty
	}
	digest, err := compact(events[len(events)-1].Head)
	if err != nil {
		return err
	}
	var out bytes.Buffer
	fmt.Fprintf(&out, "{\"borewright\":%d,\"digest\":%s,\"events\":[\n", FileVersion, digest)
	out.Write(bytes.Join(lines, []byte(",\n")))
	out.WriteString("\n]}\n")
	_, err = out.WriteTo(w)
	return err
}
