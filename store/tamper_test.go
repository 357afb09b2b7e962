package store_test

import (
	"bytes"
	"errors"
	"slices"
	"strings"
	"testing"

	bolt "go.etcd.io/bbolt"

	"borewright/engine/record"
	"borewright/store"
	"borewright/store/storetest"
)

// tamper changes a closed database behind the store's back.
func tamper(t *testing.T, path string, change func(tx *bolt.Tx) error) {
	t.Helper()
	db, err := bolt.Open(path, 0o600, nil)
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(db.Update(change), db.Close()); err != nil {
		t.Fatal(err)
	}
}

// event is the key of event n of session s2, whose id is 2.
func event(n int64) []byte { return store.EventKey(2, n) }

// garble flips a bit in the middle of a value.
func garble(b *bolt.Bucket, key []byte) error {
	v := bytes.Clone(b.Get(key))
	v[len(v)/2] ^= 4
	return b.Put(key, v)
}

// TestTamperedEvents: the intact events come with an error that names the
// session and the event, nothing is kept behind them, and the others are well.
func TestTamperedEvents(t *testing.T) {
	for name, try := range map[string]struct {
		change func(b *bolt.Bucket) error
		from   int64
		text   string
	}{
		"a flipped bit":     {func(b *bolt.Bucket) error { return garble(b, event(5)) }, 5, "checksum"},
		"the last flipped":  {func(b *bolt.Bucket) error { return garble(b, event(12)) }, 12, "checksum"},
		"the first flipped": {func(b *bolt.Bucket) error { return garble(b, event(1)) }, 1, "checksum"},
		"one missing":       {func(b *bolt.Bucket) error { return b.Delete(event(5)) }, 5, "event 6 stands in its place"},
		"the last missing":  {func(b *bolt.Bucket) error { return b.Delete(event(12)) }, 12, "missing"},
		"the first missing": {func(b *bolt.Bucket) error { return b.Delete(event(1)) }, 1, "event 2 stands in its place"},
		"nothing":           {func(b *bolt.Bucket) error { return b.Put(event(7), nil) }, 7, "too short"},
		"another key between": {func(b *bolt.Bucket) error {
			return b.Put(append(event(6), 0), []byte("x"))
		}, 7, "something else"},
		"one in another's place": {func(b *bolt.Bucket) error { return b.Put(event(5), b.Get(event(6))) }, 5, "checksum"},
		"one twice": {func(b *bolt.Bucket) error {
			line := bytes.Clone(b.Get(event(6)))
			return b.Put(event(7), store.Frame(event(7), line[1:len(line)-4]))
		}, 7, "number"},
		"one altered with its checksum": {func(b *bolt.Bucket) error {
			line := bytes.Replace(b.Get(event(6)), []byte(`"AB"`), []byte(`"AC"`), 1)
			return b.Put(event(6), store.Frame(event(6), line[1:len(line)-4]))
		}, 7, "altered"}, // which of 6 and 7 it was, nobody can say
	} {
		t.Run(name, func(t *testing.T) {
			path := temp(t)
			kept := build(t, path, 3, 10)
			tamper(t, path, func(tx *bolt.Tx) error { return try.change(tx.Bucket([]byte("events"))) })
			db := open(t, path, store.Options{})
			events, err := db.Load("s2")
			var bad *store.SessionError
			if !errors.As(err, &bad) || bad.UID != "s2" || bad.N != try.from || !errors.Is(err, store.ErrDamaged) || !strings.Contains(err.Error(), try.text) {
				t.Fatalf("load: %v, want event %d and %q", err, try.from, try.text)
			}
			if try.text == "altered" {
				events = append(events[:5:5], record.Sealed{Head: record.Head{Hash: record.SumOf(kept["s2"][5])}})
			}
			intact(t, events, kept["s2"][:try.from-1])
			others(t, db, kept)
		})
	}
}

// intact compares events with stored bytes.
func intact(t *testing.T, events []record.Sealed, lines [][]byte) {
	t.Helper()
	if !slices.EqualFunc(events, lines, storetest.Is) {
		t.Errorf("%d events came back, not the %d intact ones", len(events), len(lines))
	}
}

// others checks the sessions beside s2, and that all are listed.
func others(t *testing.T, db *store.DB, kept truth) {
	t.Helper()
	for _, uid := range []string{"s1", "s3", record.ShopUID} {
		events, err := db.Load(uid)
		if err != nil {
			t.Errorf("load %s: %v", uid, err)
		}
		intact(t, events, kept[uid])
	}
	if err := keepAndWait(t, db, "s1"); err != nil {
		t.Errorf("keep s1: %v", err)
	}
	if h, err := db.Headings(0); err != nil || len(h) != 3 || h[0].UID != "s1" || h[1].UID != "s3" || h[2].UID != "s2" {
		t.Errorf("headings %+v %v", h, err)
	}
}

// TestTamperedEnd: nothing is kept behind a damaged end, which would hide it.
func TestTamperedEnd(t *testing.T) {
	path := temp(t)
	build(t, path, 3, 10)
	tamper(t, path, func(tx *bolt.Tx) error { return garble(tx.Bucket([]byte("events")), event(12)) })
	db := open(t, path, store.Options{})
	if _, err := db.Keep("s2", storetest.Reading(1)); !errors.Is(err, store.ErrDamaged) {
		t.Errorf("keep: %v", err)
	}
	if err := db.Append("s2", storetest.Lines(storetest.Begin("s2")...)); !errors.Is(err, store.ErrDamaged) {
		t.Errorf("append: %v", err)
	}
	if w := db.Warnings(); len(w) != 1 || !strings.Contains(w[0], `"s2"`) {
		t.Errorf("warnings %q", w)
	}
}

// TestNewerEvent: an event of a newer program is no damage.
func TestNewerEvent(t *testing.T) {
	path := temp(t)
	kept := build(t, path, 3, 10)
	tamper(t, path, func(tx *bolt.Tx) error {
		line := bytes.Replace(kept["s2"][11], []byte(`"v":1`), []byte(`"v":99`), 1)
		return tx.Bucket([]byte("events")).Put(event(12), store.Frame(event(12), line))
	})
	db := open(t, path, store.Options{})
	events, err := db.Load("s2")
	if !errors.Is(err, record.ErrNewer) || errors.Is(err, store.ErrDamaged) {
		t.Errorf("load: %v", err)
	}
	intact(t, events, kept["s2"][:11])
	if _, err := db.Keep("s2", storetest.Reading(1)); !errors.Is(err, record.ErrNewer) {
		t.Errorf("keep: %v", err)
	}
}

// TestTamperedIndex: headings, uids and touches are made again from the events.
func TestTamperedIndex(t *testing.T) {
	two := store.Number(2)
	for name, try := range map[string]struct {
		change func(tx *bolt.Tx) error
		warns  bool
	}{
		"a heading flipped": {func(tx *bolt.Tx) error { return garble(tx.Bucket([]byte("headings")), two) }, false},
		"a heading missing": {func(tx *bolt.Tx) error { return tx.Bucket([]byte("headings")).Delete(two) }, false},
		"no JSON in a heading": {func(tx *bolt.Tx) error {
			return tx.Bucket([]byte("headings")).Put(two, store.Frame(two, []byte("[")))
		}, false},
		"another's heading": {func(tx *bolt.Tx) error {
			b := tx.Bucket([]byte("headings"))
			v := bytes.Clone(b.Get(store.Number(3)))
			return b.Put(two, store.Frame(two, v[1:len(v)-4]))
		}, false},
		"a uid flipped": {func(tx *bolt.Tx) error { return garble(tx.Bucket([]byte("uids")), []byte("s2")) }, true},
		"a uid missing": {func(tx *bolt.Tx) error { return tx.Bucket([]byte("uids")).Delete([]byte("s2")) }, true},
		"no uids": {func(tx *bolt.Tx) error {
			return errors.Join(tx.DeleteBucket([]byte("uids")), create(tx, "uids"))
		}, true},
		"a uid too much": {func(tx *bolt.Tx) error {
			return tx.Bucket([]byte("uids")).Put([]byte("s9"), store.Frame([]byte("s9"), store.Number(9)))
		}, true},
		"a touch flipped": {func(tx *bolt.Tx) error { return garble(tx.Bucket([]byte("recent")), two) }, true},
		"a touch missing": {func(tx *bolt.Tx) error { return tx.Bucket([]byte("recent")).Delete(two) }, true},
		"a touch of nobody": {func(tx *bolt.Tx) error {
			return tx.Bucket([]byte("recent")).Put(store.Number(9), store.Frame(store.Number(9), store.Number(9)))
		}, true},
		"another form": {func(tx *bolt.Tx) error {
			title := bytes.Clone(tx.Bucket([]byte("headings")).Get(two))
			old := bytes.Replace(title[1:len(title)-4], []byte("Launch"), []byte("Loss"), 1)
			index := []byte("index")
			return errors.Join(tx.Bucket([]byte("headings")).Put(two, store.Frame(two, old)),
				tx.Bucket([]byte("meta")).Put(index, store.Frame(index, []byte("0"))))
		}, false},
		"no touches": {func(tx *bolt.Tx) error {
			return errors.Join(tx.DeleteBucket([]byte("recent")), create(tx, "recent"))
		}, true},
	} {
		t.Run(name, func(t *testing.T) {
			path := temp(t)
			kept := build(t, path, 3, 10)
			tamper(t, path, try.change)
			db := open(t, path, store.Options{})
			if w := db.Warnings(); slices.Contains(w, store.WarnRebuilt) != try.warns || len(w) > 1 {
				t.Errorf("warnings %q", w)
			}
			for uid, lines := range kept {
				events, err := db.Load(uid)
				if err != nil {
					t.Errorf("load %s: %v", uid, err)
				}
				intact(t, events, lines)
			}
			storetest.Check(t, db)
			if err := keepAndWait(t, db, "s2"); err != nil {
				t.Error(err)
			}
			if err := db.Close(); err != nil {
				t.Error(err)
			}
			db = open(t, path, store.Options{})
			if w := db.Warnings(); len(w) != 0 {
				t.Errorf("warnings after it was mended: %q", w)
			}
			storetest.Check(t, db)
			unchanged(t, path, db)
		})
	}
}

// unchanged fails when opening and closing the database once more writes to it.
func unchanged(t *testing.T, path string, db *store.DB) {
	t.Helper()
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	before := read(t, path)
	if err := open(t, path, store.Options{}).Close(); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(read(t, path), before) {
		t.Error("opening it wrote to it")
	}
}

func create(tx *bolt.Tx, bucket string) error {
	_, err := tx.CreateBucket([]byte(bucket))
	return err
}

// TestUnknownStream: events that no session is known for stay where they are,
// and nobody else's are put among them.
func TestUnknownStream(t *testing.T) {
	path := temp(t)
	build(t, path, 1, 3)
	key := store.EventKey(2, 1)
	value := store.Frame(key, []byte("{}"))
	tamper(t, path, func(tx *bolt.Tx) error { return tx.Bucket([]byte("events")).Put(key, value) })
	db := open(t, path, store.Options{})
	if w := strings.Join(db.Warnings(), "\n"); !strings.Contains(w, store.WarnRebuilt) || !strings.Contains(w, "stream 2 belong to no session") {
		t.Errorf("warnings %q", w)
	}
	if _, err := db.Keep("new", storetest.Begin("new")...); err != nil {
		t.Fatal(err)
	}
	if err := db.Wait(t.Context()); err != nil {
		t.Error(err)
	}
	storetest.Check(t, db)
	if err := db.Close(); err != nil {
		t.Error(err)
	}
	tamper(t, path, func(tx *bolt.Tx) error {
		if !bytes.Equal(tx.Bucket([]byte("events")).Get(key), value) {
			t.Error("the event was written over")
		}
		return nil
	})
}
