package store

import (
	"path/filepath"
	"strings"
	"testing"

	bolt "go.etcd.io/bbolt"

	"borewright/engine/record"
)

// TestPut puts rows into a new database and reads the errors of those that
// would hide an event.
func TestPut(t *testing.T) {
	db, err := bolt.Open(filepath.Join(t.TempDir(), "x.db"), 0o600, nil)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = db.Close() })
	if err := db.Update(createBuckets); err != nil {
		t.Fatal(err)
	}
	event := func(n int64, payload, before string) row {
		k := eventKey(7, n)
		return row{bucket: eventsBucket, key: k, value: frame(k, []byte(payload)), prev: record.SumOf([]byte(before))}
	}
	for _, try := range []struct {
		row  row
		want string
	}{
		{event(2, "b", "a"), "event 1 of stream 7 is missing"},
		{event(1, "a", ""), ""},
		{event(1, "a", ""), ""},
		{event(1, "x", ""), "another event stands at number 1 of stream 7"},
		{event(2, "b", "y"), "event 1 of stream 7 is not the one that the next goes on from"},
		{event(2, "b", "a"), ""},
		{event(4, "d", "c"), "event 3 of stream 7 is missing"},
		{row{bucket: recentBucket, key: number(1), value: frame(number(1), number(7))}, ""},
		{row{bucket: recentBucket, key: number(1)}, ""},
		{row{bucket: []byte("nowhere"), key: number(1), value: number(1)}, "its nowhere are missing"},
	} {
		err := db.Update(func(tx *bolt.Tx) error { return put(tx, try.row) })
		if (err == nil) != (try.want == "") || err != nil && !strings.Contains(err.Error(), try.want) {
			t.Errorf("%s %x: %v, want %q", try.row.bucket, try.row.key, err, try.want)
		}
	}
	_ = db.View(func(tx *bolt.Tx) error {
		if s := see(&readTx{tx: tx}, 7); s.n != 2 || string(s.last) != "b" {
			t.Errorf("the stream ends at %d with %q", s.n, s.last)
		}
		if k, _ := tx.Bucket(recentBucket).Cursor().First(); k != nil {
			t.Errorf("a touch is left: %x", k)
		}
		return nil
	})
}

// TestFill: pages of events are full where sessions follow one another, and where
// they are gone on with those that lead to them are not split over and over.
func TestFill(t *testing.T) {
	db, err := bolt.Open(filepath.Join(t.TempDir(), "x.db"), 0o600, &bolt.Options{PageSize: newPageSize, NoSync: true})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = db.Close() })
	const streams = 300
	size := newPageSize / 32
	keep := func(from, to int64) bolt.BucketStats {
		for id := range uint64(streams) {
			if err := db.Update(func(tx *bolt.Tx) error { return putEvents(tx, id, from, to, size) }); err != nil {
				t.Fatal(err)
			}
		}
		var s bolt.BucketStats
		_ = db.View(func(tx *bolt.Tx) error { s = tx.Bucket(eventsBucket).Stats(); return nil })
		return s
	}
	if err := db.Update(createBuckets); err != nil {
		t.Fatal(err)
	}
	if s := keep(1, 60); float64(s.LeafInuse) < 0.97*float64(s.LeafAlloc) {
		t.Errorf("one after another: %d bytes of %d are in use", s.LeafInuse, s.LeafAlloc)
	}
	s := keep(61, 80)
	if s.BranchPageN > s.LeafPageN/40 {
		t.Errorf("gone on with: %d pages lead to %d", s.BranchPageN, s.LeafPageN)
	}
	if float64(s.LeafInuse) < 0.75*float64(s.LeafAlloc) {
		t.Errorf("gone on with: %d bytes of %d are in use", s.LeafInuse, s.LeafAlloc)
	}
}

// putEvents puts events of so many bytes into a stream.
func putEvents(tx *bolt.Tx, id uint64, from, to int64, size int) error {
	payload := []byte(strings.Repeat("x", size))
	for n := from; n <= to; n++ {
		k := eventKey(id, n)
		r := row{bucket: eventsBucket, key: k, value: frame(k, payload)}
		if n > 1 {
			r.prev = record.SumOf(payload)
		}
		if err := put(tx, r); err != nil {
			return err
		}
	}
	return nil
}

// TestDraft: a touch moves only when the session is not the newest already, and
// nothing changes before the draft is applied.
func TestDraft(t *testing.T) {
	x := newIndex()
	for _, step := range []struct {
		uid    string
		rows   int // in uids and recent
		newest uint64
	}{
		{"a", 2, 1},            // a name and a touch
		{"a", 0, 1},            // the newest already
		{"b", 2, 2},            //
		{record.ShopUID, 0, 2}, // never touched
		{"b", 0, 2},            //
		{"a", 2, 1},            // the old touch goes
	} {
		d := x.draft()
		before := x.newest
		d.touch(d.idOf(step.uid))
		if got := len(d.indexRows()); got != step.rows || x.newest != before {
			t.Errorf("%s: %d rows, want %d", step.uid, got, step.rows)
		}
		d.apply()
		if x.newest != step.newest || !x.whole() {
			t.Errorf("%s: the newest is %d, want %d", step.uid, x.newest, step.newest)
		}
	}
}
