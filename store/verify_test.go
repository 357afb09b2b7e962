package store_test

import (
	"bytes"
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	bolt "go.etcd.io/bbolt"

	"borewright/engine/record"
	"borewright/store"
	"borewright/store/storetest"
)

// TestVerifySound: no false alarm, whatever the size, and every event counted.
func TestVerifySound(t *testing.T) {
	path := filepath.Join(fastDir(t), "x.db")
	kept, _ := demo(t, path)
	events := 0
	for _, lines := range kept {
		events += len(lines)
	}
	r := verified(t, path)
	if !r.Sound || len(r.Faults) != 0 || r.Sessions != 3 || r.Events != int64(events) {
		t.Errorf("found %+v, want %d events", r, events)
	}
	for _, sessions := range []int{1, 3, 90} {
		path := filepath.Join(fastDir(t), "y.db")
		build(t, path, sessions, 25)
		if r := verified(t, path); !r.Sound || r.Sessions != int64(sessions) {
			t.Errorf("%d sessions: %+v", sessions, r)
		}
	}
	fresh := filepath.Join(t.TempDir(), "z.db")
	if err := open(t, fresh, store.Options{}).Close(); err != nil {
		t.Fatal(err)
	}
	if r := verified(t, fresh); !r.Sound {
		t.Errorf("an empty database: %+v", r)
	}
}

// TestVerifyNamesEveryByte changes one byte of one event after another, each
// byte of it at least once over the run, and wants it named: the session, the
// event and its page.
func TestVerifyNamesEveryByte(t *testing.T) {
	dir := fastDir(t)
	path := filepath.Join(dir, "x.db")
	kept, order := demo(t, path)
	good, tries := read(t, path), 0
	for id, uid := range order {
		for i, line := range kept[uid] {
			key := store.EventKey(uint64(id)+1, int64(i)+1)
			at := lastIndex(t, good, append(bytes.Clone(key), store.Frame(key, line)...))
			bad := write(t, filepath.Join(dir, "bad.db"), flipped(good, at+12+(i*37)%(len(line)+5), 0x10))
			r := verified(t, bad)
			tries++
			want := store.Fault{Page: int64(at / pageSize), Session: uid, Event: int64(i) + 1}
			if r.Sound || !named(r.Faults, want) {
				t.Errorf("event %d of %s: found %+v", i+1, uid, r.Faults)
			}
		}
	}
	storetest.Proof(t, "one byte of one event changed", tries, 0, "verify names the session, the event and its page")
}

// lastIndex returns where the bytes lie on a page in use: older copies lie on
// pages that are free.
func lastIndex(t *testing.T, data, what []byte) int {
	t.Helper()
	for _, page := range pagesOf(data, leaf) {
		part := data[page*pageSize : (page+1)*pageSize]
		if at := bytes.Index(part, what); at >= 0 {
			return page*pageSize + at
		}
	}
	t.Fatal("an event is not in the file")
	return 0
}

// named reports whether a fault stands at the place of want.
func named(faults []store.Fault, want store.Fault) bool {
	for _, f := range faults {
		if f.Session == want.Session && f.Event == want.Event && f.Page == want.Page {
			return true
		}
	}
	return false
}

// TestVerifyNamesTheChain: an event that was altered with its checksum breaks
// the chain, and one that is missing is named.
func TestVerifyNamesTheChain(t *testing.T) {
	for name, try := range map[string]struct {
		change func(b *bolt.Bucket) error
		want   string
	}{
		"altered with its checksum": {func(b *bolt.Bucket) error {
			line := bytes.Replace(b.Get(event(6)), []byte(`"AB"`), []byte(`"AC"`), 1)
			return b.Put(event(6), store.Frame(event(6), line[1:len(line)-4]))
		}, `session "Launch s2" (s2): event 7 breaks the chain: the hash it holds is not that of event 6, so one of the two was altered`},
		"missing":       {func(b *bolt.Bucket) error { return b.Delete(event(5)) }, `session "Launch s2" (s2): event 5 is missing`},
		"three missing": {func(b *bolt.Bucket) error { return deleteAll(b, 5, 6, 7) }, `session "Launch s2" (s2): events 5 to 7 are missing`},
		"last missing":  {func(b *bolt.Bucket) error { return b.Delete(event(12)) }, `session "Launch s2" (s2): event 12 is missing`},
		"first missing": {func(b *bolt.Bucket) error { return b.Delete(event(1)) }, `session "Launch s2" (s2): event 1 is missing`},
		"another's": {func(b *bolt.Bucket) error {
			line := b.Get(store.EventKey(1, 1))
			return b.Put(event(1), store.Frame(event(1), line[1:len(line)-4]))
		}, `session "Launch s2" (s2): event 1 belongs to session s1`},
		"numbered otherwise": {func(b *bolt.Bucket) error {
			line := bytes.Replace(b.Get(event(6)), []byte(`"n":6`), []byte(`"n":7`), 1)
			return b.Put(event(6), store.Frame(event(6), line[1:len(line)-4]))
		}, `session "Launch s2" (s2): event 6 says that it is event 7`},
		"a newer program's": {func(b *bolt.Bucket) error {
			line := bytes.Replace(b.Get(event(12)), []byte(`"v":1`), []byte(`"v":99`), 1)
			return b.Put(event(12), store.Frame(event(12), line[1:len(line)-4]))
		}, `event 12 was written by a newer version`},
		"something else": {func(b *bolt.Bucket) error { return b.Put([]byte("x"), nil) }, "a page of the events holds something else"},
	} {
		t.Run(name, func(t *testing.T) {
			path := temp(t)
			build(t, path, 3, 10)
			tamper(t, path, func(tx *bolt.Tx) error { return try.change(tx.Bucket([]byte("events"))) })
			r := verified(t, path)
			if r.Sound || !strings.Contains(sentences(r), try.want) {
				t.Errorf("found %q, want %q", sentences(r), try.want)
			}
			storetest.Proof(t, "events with good checksums: "+name, 1, 0, try.want)
		})
	}
}

func deleteAll(b *bolt.Bucket, numbers ...int64) error {
	for _, n := range numbers {
		if err := b.Delete(event(n)); err != nil {
			return err
		}
	}
	return nil
}

func sentences(r store.Report) string {
	var lines []string
	for _, f := range r.Faults {
		lines = append(lines, f.Error())
	}
	return strings.Join(lines, "\n")
}

// TestVerifyNamesTheLists: what can be made again is named all the same.
func TestVerifyNamesTheLists(t *testing.T) {
	two := store.Number(2)
	for name, try := range map[string]struct {
		change func(tx *bolt.Tx) error
		want   string
	}{
		"a heading flipped": {func(tx *bolt.Tx) error { return garble(tx.Bucket([]byte("headings")), two) }, "an entry of the list of sessions is damaged"},
		"a heading missing": {func(tx *bolt.Tx) error { return tx.Bucket([]byte("headings")).Delete(two) }, "session s2: it is missing in the list of sessions"},
		"a uid missing":     {func(tx *bolt.Tx) error { return tx.Bucket([]byte("uids")).Delete([]byte("s2")) }, "its events belong to no session that is known"},
		"a uid too much": {func(tx *bolt.Tx) error {
			return tx.Bucket([]byte("uids")).Put([]byte("s9"), store.Frame([]byte("s9"), store.Number(9)))
		}, "session s9: all its events are missing"},
		"a uid twice": {func(tx *bolt.Tx) error {
			return tx.Bucket([]byte("uids")).Put([]byte("s9"), store.Frame([]byte("s9"), two))
		}, "the list of sessions has two that share their events: s2 and s9"},
		"a touch missing": {func(tx *bolt.Tx) error { return tx.Bucket([]byte("recent")).Delete(two) }, "it is missing in the order of sessions"},
		"a touch of nobody": {func(tx *bolt.Tx) error {
			return tx.Bucket([]byte("recent")).Put(store.Number(9), store.Frame(store.Number(9), store.Number(9)))
		}, "number 9, that is not known"},
		"another's heading": {func(tx *bolt.Tx) error {
			b := tx.Bucket([]byte("headings"))
			v := bytes.Clone(b.Get(store.Number(3)))
			return b.Put(two, store.Frame(two, v[1:len(v)-4]))
		}, "says that it ends with another event 12"},
		"a format flipped": {func(tx *bolt.Tx) error { return garble(tx.Bucket([]byte("meta")), []byte("format")) }, `its entry "format" is damaged`},
		"no recent":        {func(tx *bolt.Tx) error { return tx.DeleteBucket([]byte("recent")) }, "its recent are missing"},
	} {
		t.Run(name, func(t *testing.T) {
			path := temp(t)
			build(t, path, 3, 10)
			tamper(t, path, try.change)
			if r := verified(t, path); r.Sound || !strings.Contains(sentences(r), try.want) {
				t.Errorf("found %q, want %q", sentences(r), try.want)
			}
		})
	}
}

// TestVerifyListsNoEnd: a report stays short, however much is wrong.
func TestVerifyListsNoEnd(t *testing.T) {
	path := filepath.Join(fastDir(t), "x.db")
	build(t, path, 3, 400)
	tamper(t, path, func(tx *bolt.Tx) error {
		for n := int64(1); n <= 400; n++ {
			if err := garble(tx.Bucket([]byte("events")), event(n)); err != nil {
				return err
			}
		}
		return nil
	})
	if r := verified(t, path); len(r.Faults) != store.MaxFaults || r.More != 400-store.MaxFaults {
		t.Errorf("%d faults and %d more", len(r.Faults), r.More)
	}
}

func ExampleFault() {
	fmt.Println(store.Fault{Page: 17, Session: record.ShopUID, Event: 3, Text: "cannot be read: its checksum does not match"}.Error())
	// Output: session shop: event 3 cannot be read: its checksum does not match (page 17)
}
