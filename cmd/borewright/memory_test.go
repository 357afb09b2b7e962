package main

import (
	"bytes"
	"cmp"
	"context"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"borewright/engine/record"
	"borewright/store"
	"borewright/testdata"
)

// shelf is a disk and a database in memory, which outlive a command.
type shelf struct {
	mem   *store.Mem // nil until it is opened
	busy  error      // what opening it fails with
	files map[string][]byte
	env   map[string]string
	stdin string
	uids  int
}

// shelved is the database as one command has it open.
type shelved struct{ *store.Mem }

// Close leaves the database as it is.
func (b shelved) Close() error { return b.Wait(context.Background()) }

func newShelf() *shelf {
	return &shelf{files: map[string][]byte{}, env: map[string]string{"BOREWRIGHT_DB": "bench.db"}}
}

// world is the world in which one command runs.
func (s *shelf) world(out, errs io.Writer) World {
	w := testWorld(out, errs, s.env)
	w.In = strings.NewReader(s.stdin)
	w.Now = func() time.Time { return time.Date(2026, 3, 2, 8, 0, s.uids, 0, time.FixedZone("", 3600)) }
	w.UID = func() string { s.uids++; return fmt.Sprintf("BENCH%02dSESSION", s.uids) }
	w.Open = func(string, store.Options) (Book, error) {
		if s.busy != nil {
			return nil, s.busy
		}
		if s.mem == nil {
			s.mem = store.Memory(store.Options{})
		}
		return shelved{s.mem}, nil
	}
	w.Exists = func(path string) bool { return s.files[path] != nil || path == "bench.db" && s.mem != nil }
	w.Read = func(path string) (io.ReadCloser, error) {
		if data, ok := s.files[path]; ok {
			return io.NopCloser(bytes.NewReader(data)), nil
		}
		return nil, &fs.PathError{Op: "open", Path: path, Err: fs.ErrNotExist}
	}
	w.Write = func(dir, name string, data []byte, overwrite bool) (string, error) {
		path := filepath.Join(dir, name)
		if s.files[path] != nil && !overwrite {
			return "", &store.FileError{Path: path, Kind: store.ErrExists}
		}
		s.files[path] = data
		return path, nil
	}
	w.Rename = func(from, to string) error { panic("nothing here renames " + from + " to " + to) }
	return w
}

// run runs the program and returns what it wrote and its exit code.
func (s *shelf) run(args ...string) (out, errs string, code int) {
	var o, e bytes.Buffer
	code = run(append([]string{"borewright"}, args...), s.world(&o, &e))
	return o.String(), e.String(), code
}

// must runs a command that succeeds and returns what it printed.
func (s *shelf) must(t *testing.T, args ...string) string {
	t.Helper()
	out, errs, code := s.run(args...)
	if code != 0 || errs != "" {
		t.Fatalf("%q ended with %d and said %q", args, code, errs)
	}
	return out
}

// contents is everything in the database and on the disk as one text.
func (s *shelf) contents(t *testing.T) string {
	t.Helper()
	var b strings.Builder
	for _, name := range slices.Sorted(maps.Keys(s.files)) {
		fmt.Fprintf(&b, "%s: %q\n", name, s.files[name])
	}
	if s.mem == nil {
		return b.String()
	}
	hs, err := s.mem.Headings(0)
	if err != nil {
		t.Fatal(err)
	}
	slices.SortFunc(hs, func(a, b record.Heading) int { return cmp.Compare(a.UID, b.UID) })
	for _, h := range append(hs, record.Heading{UID: record.ShopUID}) {
		lines, err := s.mem.Lines(h.UID)
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&b, "%s: %q\n", h.UID, lines)
	}
	return b.String()
}

// oneBore is the file of one bore in plain form: limits as TM 9-6115-670-14&P
// judges wear, readings invented.
func oneBore(t *testing.T) string {
	t.Helper()
	data, ok := testdata.Session("one-bore")
	if !ok {
		t.Fatal("the file is missing")
	}
	return string(data)
}

// notes returns the full form of a session with so many events: its details and
// notes, which end in the tail.
func notes(t *testing.T, uid, title string, n int, tail string) []byte {
	t.Helper()
	fresh := []record.Event{{Body: record.Details{UID: uid, Title: title, Unit: 1}}}
	for i := 2; i <= n; i++ {
		fresh = append(fresh, record.Event{Body: record.Note{Text: fmt.Sprintf("remark %d", i)}})
	}
	if tail != "" {
		fresh[n-1].Body = record.Note{Text: tail}
	}
	for i := range fresh {
		fresh[i].At, fresh[i].By = time.Date(2026, 3, 1, 7, 0, i, 0, time.UTC), "ek"
	}
	sealed, err := seal(fresh)
	if err != nil {
		t.Fatal(err)
	}
	var file bytes.Buffer
	if err := record.WriteFull(&file, lines(sealed)); err != nil {
		t.Fatal(err)
	}
	return file.Bytes()
}
