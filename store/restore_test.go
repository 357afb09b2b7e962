package store_test

import (
	"bytes"
	"path/filepath"
	"slices"
	"testing"

	"borewright/store"
	"borewright/store/storetest"
)

// TestSalvageAChangedByte changes one byte of one event after another, in its
// version, its text or its checksum: the event comes back as it was, and says so.
func TestSalvageAChangedByte(t *testing.T) {
	dir := fastDir(t)
	path := filepath.Join(dir, "x.db")
	kept, order := demo(t, path)
	good, uid := read(t, path), order[0]
	out := filepath.Join(dir, "out.db")
	step := 4
	if everyDamage() {
		step = 1
	}
	tries := 0
	for i, line := range kept[uid] {
		if i%step != 0 {
			continue
		}
		tries++
		n, frame := int64(i)+1, store.Frame(store.EventKey(1, int64(i)+1), line)
		at := 2 + i*37%(len(frame)-2)
		what := append(store.EventKey(1, n), frame...)
		wrong := bytes.Clone(what)
		wrong[len(wrong)-len(frame)+at] ^= 1 << (i % 5)
		bad := write(t, filepath.Join(dir, "bad.db"), bytes.ReplaceAll(good, what, wrong))
		s, err := store.Salvage(bad, out, nil)
		if err != nil {
			t.Fatal(err)
		}
		x := saved(t, s, uid)
		if !x.Complete() || !slices.Equal(x.Restored, []int64{n}) || x.Events != int64(len(kept[uid])) {
			t.Fatalf("byte %d of event %d: %d recovered, lost %d, restored %d", at, n, x.Events, x.Lost, x.Restored)
		}
		db := open(t, out, store.Options{})
		intact(t, load(t, db, uid), kept[uid])
		if err := db.Close(); err != nil {
			t.Fatal(err)
		}
		removed(t, out, s.Beside)
	}
	storetest.Proof(t, "one byte of one event changed, one event after another", tries, 0,
		"damaged; salvage sets the byte right, as the next event's hash proves")
}
