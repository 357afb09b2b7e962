package store_test

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	bolt "go.etcd.io/bbolt"

	"borewright/engine/record"
	"borewright/store"
	"borewright/store/storetest"
)

// uidsOf returns the uids of headings, in their order.
func uidsOf(hs []record.Heading) []string {
	out := make([]string, len(hs))
	for i, h := range hs {
		out[i] = h.UID
	}
	return out
}

// rewritten changes a closed database with bbolt.
func rewritten(t *testing.T, path string, change func(*bolt.Tx) error) {
	t.Helper()
	db, err := bolt.Open(path, 0o600, &bolt.Options{Timeout: time.Second})
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(db.Update(change), db.Close()); err != nil {
		t.Fatal(err)
	}
}

// largeNewest are the sessions of a large file, the newest touched first.
func largeNewest() []string {
	var uids []string
	for i := range 12 {
		uids = append(uids, fmt.Sprintf("s%d", 11-i))
	}
	return uids
}

// lists checks the newest sessions.
func lists(t *testing.T, db *store.DB, limit int, want []string) {
	t.Helper()
	hs, err := db.Headings(limit)
	if got := uidsOf(hs); err != nil || !slices.Equal(got, want) {
		t.Errorf("the newest %d are %q (%v), want %q", limit, got, err, want)
	}
}

// TestLargeIndexIsReadLate: what needs no index comes before it, what needs it
// waits for it, and both say what the file holds.
func TestLargeIndexIsReadLate(t *testing.T) {
	path := temp(t)
	large(t, path)
	db := open(t, path, store.Options{}.WithRest(time.Hour))
	lists(t, db, 5, largeNewest()[:5])
	if events, err := db.Load("s3"); err != nil || len(events) != largeEach {
		t.Errorf("%d events of a session (%v)", len(events), err)
	}
	if h, err := db.Head("s3"); err != nil || h.N != largeEach {
		t.Errorf("its head is %+v (%v)", h, err)
	}
	if db.Indexed() {
		t.Error("the index was read for what needs none")
	}
	if _, err := db.Load("nobody"); !errors.Is(err, store.ErrNoSession) {
		t.Errorf("a session that is not there: %v", err)
	}
	if !db.Indexed() {
		t.Error("a session was said not to be there before the index was read")
	}
	if _, err := db.Keep("new", storetest.Begin("new")...); err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(db.Wait(context.Background()), db.Close()); err != nil {
		t.Fatal(err)
	}
	db = open(t, path, store.Options{})
	lists(t, db, 20, append([]string{"new"}, largeNewest()...)) // there are not as many
	if w := db.Warnings(); len(w) != 0 {
		t.Errorf("warned of %q", w)
	}
}

// TestLargeListIsMadeAgain where it is damaged, by the first that needs it.
func TestLargeListIsMadeAgain(t *testing.T) {
	path := temp(t)
	large(t, path)
	good := read(t, path)
	for name, try := range map[string]struct {
		bucket     string
		key, value []byte
		asks       int // for so many first
	}{
		"without a name":  {"uids", []byte("s3"), nil, 0},
		"another name":    {"uids", []byte("s3"), store.Frame([]byte("s4"), store.Number(4)), 0},
		"without a touch": {"recent", store.Number(12), nil, 20},
		"a bad touch":     {"recent", store.Number(12), []byte("x"), 5},
		"a bad heading":   {"headings", store.Number(11), []byte("x"), 5},
	} {
		t.Run(name, func(t *testing.T) {
			write(t, path, good)
			rewritten(t, path, func(tx *bolt.Tx) error {
				if try.value == nil {
					return tx.Bucket([]byte(try.bucket)).Delete(try.key)
				}
				return tx.Bucket([]byte(try.bucket)).Put(try.key, try.value)
			})
			db := open(t, path, store.Options{}.WithRest(time.Hour))
			if try.asks > 0 {
				lists(t, db, try.asks, largeNewest()[:min(12, try.asks)])
			}
			if events, err := db.Load("s3"); err != nil || len(events) != largeEach {
				t.Errorf("%d events of it (%v)", len(events), err)
			}
			lists(t, db, 0, largeNewest())
			if w := db.Warnings(); slices.Contains(w, store.WarnRebuilt) == (try.bucket == "headings") {
				t.Errorf("warned of %q", w)
			}
			if _, err := db.Keep("s3", storetest.Note("one more")); err != nil {
				t.Error(err)
			}
			if err := errors.Join(db.Wait(context.Background()), db.Close()); err != nil {
				t.Error(err)
			}
		})
	}
}

// TestLargeIndexIsReadByItself, in a moment, and warns although nobody asked.
func TestLargeIndexIsReadByItself(t *testing.T) {
	path := temp(t)
	large(t, path)
	rewritten(t, path, func(tx *bolt.Tx) error { return tx.Bucket([]byte("recent")).Delete(store.Number(12)) })
	db := open(t, path, store.Options{}.WithRest(2*time.Second))
	if db.Indexed() || len(db.Warnings()) != 0 {
		t.Error("it is read at once")
	}
	warned(t, db, store.WarnRebuilt)
	lists(t, db, 1, largeNewest()[:1])
}

// TestLargeIndexWithABadPage says so although nobody asked, and whoever asks is
// told too.
func TestLargeIndexWithABadPage(t *testing.T) {
	path := temp(t)
	large(t, path)
	rewritten(t, path, func(tx *bolt.Tx) error { // so that the names have pages of their own
		for i := range 200 {
			key := fmt.Appendf(nil, "t%03d", i)
			if err := tx.Bucket([]byte("uids")).Put(key, store.Frame(key, store.Number(uint64(100+i)))); err != nil {
				return err
			}
		}
		return nil
	})
	data := read(t, path)
	leaf := strings.LastIndex(string(data), "t199") / pageSize * pageSize
	data[leaf+8] = 0x40 // of no kind
	write(t, path, data)
	db := open(t, path, store.Options{})
	warned(t, db, "damaged")
	if _, err := db.Headings(0); !errors.Is(err, store.ErrDamaged) {
		t.Errorf("the list: %v", err)
	}
	if _, err := db.Keep("s1", storetest.Note("one more")); err == nil {
		if err := db.Wait(context.Background()); !errors.Is(err, store.ErrDamaged) {
			t.Errorf("it was written: %v", err)
		}
	}
	_ = db.Close() // it says what is not kept
}

// warned waits until the store warns of something.
func warned(t *testing.T, db *store.DB, of string) {
	t.Helper()
	for end := time.Now().Add(20 * time.Second); ; time.Sleep(5 * time.Millisecond) {
		switch w := strings.Join(db.Warnings(), "\n"); {
		case strings.Contains(w, of):
			return
		case time.Now().After(end):
			t.Fatalf("warned of %q, not of %q", w, of)
		}
	}
}

// TestLargeIndexInUse reads, keeps and closes while the index is read and made
// again.
func TestLargeIndexInUse(t *testing.T) {
	path := temp(t)
	large(t, path)
	good := read(t, path)
	for try := range 6 {
		write(t, path, good)
		rewritten(t, path, func(tx *bolt.Tx) error { return tx.Bucket([]byte("uids")).Delete([]byte("s3")) })
		db := open(t, path, store.Options{})
		var all sync.WaitGroup
		for i := range 4 {
			all.Go(func() { usedAtOnce(t, db, fmt.Sprintf("new%d", i)) })
		}
		time.Sleep(time.Duration(try*try) * 8 * time.Millisecond)
		if err := db.Close(); err != nil {
			t.Error(err)
		}
		all.Wait()
	}
	db := open(t, path, store.Options{})
	if hs, err := db.Headings(0); err != nil || len(hs) < 12 {
		t.Errorf("%q, %v", uidsOf(hs), err)
	}
	if err := db.Close(); err != nil {
		t.Error(err)
	}
	if r := verified(t, path); !r.Sound {
		t.Errorf("not sound: %+v", r)
	}
}

// usedAtOnce lists, loads and keeps, all of which succeeds until the store is
// closed.
func usedAtOnce(t *testing.T, db *store.DB, uid string) {
	t.Helper()
	hs, err := db.Headings(0)
	if err == nil && len(hs) < 12 {
		t.Errorf("%d sessions", len(hs))
	}
	_, worse := db.Load("s3")
	_, worst := db.Keep(uid, storetest.Begin(uid)...)
	for _, err := range []error{err, worse, worst} {
		if err != nil && !errors.Is(err, store.ErrClosed) {
			t.Error(err)
		}
	}
}
