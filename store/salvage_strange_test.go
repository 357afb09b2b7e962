package store_test

import (
	"bytes"
	"path/filepath"
	"testing"

	bolt "go.etcd.io/bbolt"

	"borewright/engine/record"
	"borewright/store"
	"borewright/store/storetest"
)

// TestSalvageWhatNoImportTakes: an event that reads as it should comes back, also
// where an import would refuse it for a field that is not known.
func TestSalvageWhatNoImportTakes(t *testing.T) {
	path := temp(t)
	kept, order := demo(t, path)
	uid := order[0]
	last := len(kept[uid])
	line := bytes.Replace(kept[uid][last-1], []byte(`,"prev":`), []byte(`,"far":1,"prev":`), 1)
	if _, err := record.DecodeStrict(line); err == nil {
		t.Fatal("an import takes it")
	}
	key := store.EventKey(1, int64(last))
	tamper(t, path, func(tx *bolt.Tx) error {
		return tx.Bucket([]byte("events")).Put(key, store.Frame(key, line))
	})
	out := filepath.Join(t.TempDir(), "out.db")
	if _, err := store.Salvage(path, out, nil); err != nil {
		t.Fatal(err)
	}
	if events := load(t, open(t, out, store.Options{}), uid); len(events) < last || !storetest.Is(events[last-1], line) {
		t.Error("it is another one")
	}
}
