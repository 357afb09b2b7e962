package store

import (
	"bytes"
	"cmp"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"testing"

	bolt "go.etcd.io/bbolt"
)

// grove makes a database of buckets with trees of depth 0, inside the page of the
// buckets, to 3, and returns it open with its bytes.
func grove(t *testing.T) (*bolt.DB, []byte) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "grove.db")
	db, err := bolt.Open(path, 0o600, &bolt.Options{PageSize: grovePage})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = db.Close() })
	for name, size := range groves {
		if err := db.Update(func(tx *bolt.Tx) error { return plant(tx, name, size) }); err != nil {
			t.Fatal(err)
		}
	}
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return db, data
}

// grovePage is how many bytes its pages have: few, for trees that are deep.
const grovePage = 1 << 12

// groves are the buckets and how many entries each has; one has values that run
// over into further pages.
var groves = map[string]int{"none": 0, "few": 3, "page": 60, "branch": 900, "deep": 4000, "wide": 40}

func plant(tx *bolt.Tx, name string, size int) error {
	b, err := tx.CreateBucket([]byte(name))
	if err != nil {
		return err
	}
	for _, i := range rand.New(rand.NewPCG(3, 4)).Perm(size) {
		value := bytes.Repeat([]byte{byte(i)}, 20)
		if name == "wide" {
			value = bytes.Repeat(value, 100+i*9)
		}
		if err := b.Put(groveKey(name, i), value); err != nil {
			return err
		}
	}
	return nil
}

// groveKey is the key of entry i; those of the deep tree are long.
func groveKey(name string, i int) []byte {
	if name == "deep" {
		return fmt.Appendf(nil, "%0200d", 2*i)
	}
	return fmt.Appendf(nil, "%05d", 2*i)
}

func unwalkedOf(t *testing.T, data []byte) (*unwalked, bool) {
	t.Helper()
	l, err := lookAt(bytesAt(data), int64(len(data)))
	return newUnwalked(bytesAt(data), l.meta), err == nil
}

// TestUnwalkedReadsTheSame reads every bucket from everywhere, both ways, by bbolt
// and without it.
func TestUnwalkedReadsTheSame(t *testing.T) {
	db, data := grove(t)
	u, _ := unwalkedOf(t, data)
	_ = db.View(func(tx *bolt.Tx) error {
		ours, theirs := &readTx{tx: tx, unwalked: u}, &readTx{tx: tx}
		for name, size := range groves {
			bucket := []byte(name)
			keys := [][]byte{nil, {}, {0}, {0xFF}}
			for i := 0; i < size; i += 1 + size/50 {
				keys = append(keys, groveKey(name, i), append(groveKey(name, i), 0))
			}
			for _, key := range keys {
				same(t, name, key, ours.from(bucket, key), theirs.from(bucket, key))
				same(t, name, key, ours.before(bucket, key), theirs.before(bucket, key))
				if !bytes.Equal(ours.get(bucket, key), theirs.get(bucket, key)) {
					t.Errorf("%s: another value of %q", name, key)
				}
			}
			if !ours.has(bucket) || ours.has([]byte("nowhere")) || theirs.has([]byte("nowhere")) {
				t.Errorf("the buckets are not those that are there")
			}
		}
		return u.err
	})
	if u.err != nil {
		t.Error(u.err)
	}
}

func same(t *testing.T, name string, key []byte, got, want pairs) {
	t.Helper()
	if a, b := list(got), list(want); !slices.EqualFunc(a, b, bytes.Equal) {
		t.Errorf("%s at %q: %d keys and values, want %d, or others", name, key, len(a), len(b))
	}
}

func list(p pairs) (out [][]byte) {
	for k, v := range p {
		out = append(out, k, v)
	}
	return out
}

// TestUnwalkedEnds reads a database of which a page is changed: whatever is wrong
// it ends, and nothing comes over and over.
func TestUnwalkedEnds(t *testing.T) {
	_, good := grove(t)
	r := rand.New(rand.NewPCG(5, 6))
	refused := 0
	for try := range 100 {
		data := bytes.Clone(good)
		page := data[grovePage*r.IntN(len(data)/grovePage):][:grovePage]
		switch try % 3 {
		case 0: // a byte of a head or of the table of entries
			page[r.IntN(120)] ^= byte(1 + r.IntN(255))
		case 1: // another page in its place, under its number
			copy(page[8:], good[grovePage*r.IntN(len(data)/grovePage):][8:grovePage])
		case 2: // another child, or the size of a key
			page[pageHeader+pageElement*r.IntN(20)+8] = byte(r.IntN(len(data) / grovePage))
		}
		if u, ok := unwalkedOf(t, data); ok && readThrough(t, u) != nil {
			refused++
		}
	}
	if refused < 15 {
		t.Errorf("%d files were refused", refused)
	}
}

// readThrough reads everything both ways and returns what is wrong with a page. A
// page changed cannot bring more entries than it has room for.
func readThrough(t *testing.T, u *unwalked) (bad error) {
	t.Helper()
	for name, size := range groves {
		for _, back := range []bool{false, true} {
			n := 0
			for range u.over([]byte(name), span{back: back}) {
				n++
			}
			if n > size+grovePage/pageElement {
				t.Errorf("%s has %d entries, not %d", name, n, size)
			}
			bad, u.err = cmp.Or(bad, u.err), nil
		}
	}
	return bad
}
