package store_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"borewright/engine/record"
	"borewright/store"
	"borewright/store/storetest"
)

// demo makes a database of the demo's sessions, kept in small pieces as work
// does, with remarks in the shop, and closes it. The streams' ids are their
// places in the order that it returns, from 1.
func demo(t *testing.T, path string) (kept truth, order []string) {
	t.Helper()
	db := open(t, path, store.Options{})
	kept = truth{}
	for _, name := range []string{"launch", "hillclimb", "launch-complete"} {
		lines := sessionFile(t, name)
		uid := uidOf(t, lines)
		order = append(order, uid)
		for at := 0; at < len(lines); at += 4 {
			if err := db.Append(uid, lines[at:min(at+4, len(lines))]); err != nil {
				t.Fatal(err)
			}
		}
		kept[uid] = lines
	}
	sealed, err := db.Keep(record.ShopUID, storetest.Note("bought shells"), storetest.Note("sold shells"))
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range sealed {
		kept[record.ShopUID] = append(kept[record.ShopUID], s.Bytes)
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	return kept, order
}

// sessionFile returns the stored events of a demo session.
func sessionFile(t *testing.T, name string) [][]byte {
	t.Helper()
	file, err := record.ReadFile(bytes.NewReader(read(t, filepath.Join("..", "testdata", "sessions", name+".json"))))
	if err != nil {
		t.Fatal(err)
	}
	return file.Full.Lines
}

func uidOf(t *testing.T, lines [][]byte) string {
	t.Helper()
	e, err := record.Decode(lines[0])
	if err != nil {
		t.Fatal(err)
	}
	return e.Body.(record.Details).UID
}

// verified verifies a file that must be one that can be verified.
func verified(t *testing.T, path string) store.Report {
	t.Helper()
	r, err := store.Verify(path)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// removed deletes files, of which a name may be empty.
func removed(t *testing.T, names ...string) {
	t.Helper()
	for _, name := range names {
		if name == "" {
			continue
		}
		if err := os.Remove(name); err != nil {
			t.Error(err)
		}
	}
}

// gaugeOf returns the number of the first event that names a gauge.
func gaugeOf(t *testing.T, lines [][]byte) int64 {
	t.Helper()
	for _, line := range lines {
		if e, err := record.Decode(line); err == nil && e.Is() == record.IsInstrument {
			return e.N
		}
	}
	t.Fatal("there is no gauge")
	return 0
}
