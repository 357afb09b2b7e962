package store

import (
	"bytes"
	"encoding/binary"
	"errors"
	"os"
	"path/filepath"
	"testing"

	bolt "go.etcd.io/bbolt"
)

// database makes a bbolt database with so many commits and returns its bytes.
func database(t *testing.T, pageSize, commits int) []byte {
	t.Helper()
	path := filepath.Join(t.TempDir(), "x.db")
	db, err := bolt.Open(path, 0o600, &bolt.Options{PageSize: pageSize, NoSync: true})
	if err != nil {
		t.Fatal(err)
	}
	for i := range commits {
		err := db.Update(func(tx *bolt.Tx) error {
			b, err := tx.CreateBucketIfNotExists(eventsBucket)
			if err != nil {
				return err
			}
			b.FillPercent = fillAtEnd
			return b.Put(eventKey(1, int64(i)), bytes.Repeat([]byte{byte(i)}, 40+i%300))
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func lookAtBytes(data []byte) (looked, error) {
	return lookAt(bytes.NewReader(data), int64(len(data)))
}

// TestLookAtGoodFiles: no false alarm, at any page size and tree depth.
func TestLookAtGoodFiles(t *testing.T) {
	for _, size := range []int{1 << 12, 1 << 13, 1 << 14, 1 << 16} {
		for _, commits := range []int{1, 2, 7, 400} {
			data := database(t, size, commits)
			l, err := lookAtBytes(data)
			if err != nil || l.doubtful || l.pageSize != int64(size) || l.tx != uint64(commits)+1 {
				t.Errorf("%d commits of pages of %d: %+v %v", commits, size, l, err)
			}
			if err := checkPages(bytes.NewReader(data), l.meta, never); err != nil {
				t.Errorf("%d commits of pages of %d: %v", commits, size, err)
			}
		}
	}
}

// TestLookAtEveryByteOfTheMetas flips each byte of both metas.
func TestLookAtEveryByteOfTheMetas(t *testing.T) {
	good := database(t, 1<<12, 5)
	for page := range 2 {
		for at := range metaSize {
			data := bytes.Clone(good)
			data[page<<12+metaAt+at] ^= 0x40
			if l, err := lookAtBytes(data); err != nil || !l.doubtful || l.tx < 5 {
				t.Errorf("byte %d of meta %d: %+v %v", at, page, l, err)
			}
		}
	}
	both := bytes.Clone(good)
	both[metaAt+8] ^= 1
	both[1<<12+metaAt+8] ^= 1
	if _, err := lookAtBytes(both); !errors.Is(err, errForeign) {
		t.Errorf("both metas: %v", err)
	}
}

// TestLookAtNoFreelist: bbolt writes to such a file when it opens it, and we
// never make one.
func TestLookAtNoFreelist(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x.db")
	db, err := bolt.Open(path, 0o600, &bolt.Options{NoFreelistSync: true})
	if err != nil {
		t.Fatal(err)
	}
	for range 2 {
		if err := db.Update(createBuckets); err != nil {
			t.Fatal(err)
		}
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	if _, err := look(path); !errors.Is(err, ErrNotOurs) {
		t.Errorf("got %v", err)
	}
}

func TestLookAtShortFiles(t *testing.T) {
	good := database(t, 1<<12, 300)
	l, err := lookAtBytes(good)
	if err != nil {
		t.Fatal(err)
	}
	used := int(l.pages) << 12
	if _, err := lookAtBytes(good[:used]); err != nil {
		t.Errorf("only what is not used is gone: %v", err)
	}
	for _, size := range []int{used - 1, used / 2, 3 << 12, 2 << 12} {
		if _, err := lookAtBytes(good[:size]); err == nil || errors.Is(err, errForeign) {
			t.Errorf("cut to %d of %d: %v", size, used, err)
		}
	}
}

// TestLookAtACopy: the first commit to what bbolt copies of itself leaves
// transaction numbers that lie two apart.
func TestLookAtACopy(t *testing.T) {
	dir := t.TempDir()
	for commits := range 4 {
		from := filepath.Join(dir, "from.db")
		to := filepath.Join(dir, "to.db")
		if err := os.WriteFile(from, database(t, 1<<12, 5+commits), 0o600); err != nil {
			t.Fatal(err)
		}
		db, err := bolt.Open(from, 0o600, nil)
		if err != nil {
			t.Fatal(err)
		}
		if err := db.View(func(tx *bolt.Tx) error { return tx.CopyFile(to, 0o600) }); err != nil {
			t.Fatal(err)
		}
		_ = db.Close()
		for range 3 {
			if l, err := look(to); err != nil || l.doubtful {
				t.Errorf("a copy: %+v %v", l, err)
			}
			db, err := bolt.Open(to, 0o600, nil)
			if err != nil {
				t.Fatal(err)
			}
			put := func(tx *bolt.Tx) error { return tx.Bucket(eventsBucket).Put(eventKey(9, 9), nil) }
			if err := db.Update(put); err != nil {
				t.Fatal(err)
			}
			_ = db.Close()
		}
	}
}

// TestCheckPages spoils what would make bbolt write over live pages or walk in
// a circle.
func TestCheckPages(t *testing.T) {
	good := database(t, 1<<12, 400)
	l, err := lookAtBytes(good)
	if err != nil {
		t.Fatal(err)
	}
	le := binary.LittleEndian
	root := good[l.root<<12:]
	e := root[pageHeader:]
	bucket := le.Uint64(e[le.Uint32(e[4:])+le.Uint32(e[8:]):])
	branch := int(bucket) << 12
	if le.Uint16(good[branch+8:]) != branchPage {
		t.Fatal("the tree is too small for this test")
	}
	list := int(l.freelist) << 12
	child := branch + pageHeader + 8 // the page of the first child
	leaf := int(le.Uint64(good[child:])) << 12
	entry := leaf + pageHeader // the first of the leaf
	for name, spoil := range map[string]func(data []byte){
		"a free page that is in use": func(d []byte) { copy(d[list+pageHeader:], d[child:child+8]) },
		"a free page beyond the end": func(d []byte) { le.PutUint64(d[list+pageHeader:], l.pages) },
		"a free meta page":           func(d []byte) { le.PutUint64(d[list+pageHeader:], 1) },
		"more free pages than fit":   func(d []byte) { le.PutUint16(d[list+10:], 0xFFF0) },
		"countless free pages":       func(d []byte) { le.PutUint16(d[list+10:], 0xFFFF) },
		"no free list":               func(d []byte) { d[list+8] = leafPage },
		"a branch to itself":         func(d []byte) { le.PutUint64(d[child:], bucket) },
		"a branch to the root":       func(d []byte) { le.PutUint64(d[child:], l.root) },
		"a child twice":              func(d []byte) { copy(d[child:], d[child+pageElement:child+pageElement+8]) },
		"a child beyond the end":     func(d []byte) { le.PutUint64(d[child:], 1<<40) },
		"another page's number":      func(d []byte) { d[branch]++ },
		"a page of no kind":          func(d []byte) { d[branch+8] = 0x08 },
		"no children":                func(d []byte) { le.PutUint16(d[branch+10:], 0) },
		"too many children":          func(d []byte) { le.PutUint16(d[branch+10:], 999) },
		"a page without end":         func(d []byte) { le.PutUint32(d[branch+12:], 1<<31) },
		"a bucket that is a value":   func(d []byte) { d[int(l.root)<<12+pageHeader] = 0 },
		"a bucket outside its page":  func(d []byte) { le.PutUint32(d[int(l.root)<<12+pageHeader+4:], 1<<20) },
		"too many buckets":           func(d []byte) { le.PutUint16(d[int(l.root)<<12+10:], 0xFFFF) },
		"a value of 2 GB":            func(d []byte) { le.PutUint32(d[entry+12:], 1<<31-1) },
		"a key of 2 GB":              func(d []byte) { le.PutUint32(d[entry+8:], 1<<31-1) },
		"sizes that overflow":        func(d []byte) { le.PutUint32(d[entry+12:], 1<<32-1); le.PutUint32(d[entry+8:], 1<<32-1) },
		"an entry outside its page":  func(d []byte) { le.PutUint32(d[entry+4:], 1<<12) },
		"an entry in the table":      func(d []byte) { le.PutUint32(d[entry+4:], 0) },
		"an entry over all others": func(d []byte) {
			le.PutUint32(d[entry+12:], 1<<12-pageHeader-le.Uint32(d[entry+4:])-le.Uint32(d[entry+8:]))
		},
		"an entry with no key":       func(d []byte) { le.PutUint32(d[entry+8:], 0) },
		"a bucket among events":      func(d []byte) { d[entry] = bucketFlag },
		"more entries than fit":      func(d []byte) { le.PutUint16(d[leaf+10:], 999) },
		"a leaf over its neighbours": func(d []byte) { le.PutUint32(d[leaf+12:], 3) },
		"a branch's key of 2 GB":     func(d []byte) { le.PutUint32(d[branch+pageHeader+4:], 1<<31-1) },
		"a branch's key elsewhere":   func(d []byte) { le.PutUint32(d[branch+pageHeader:], 1<<12) },
		"a branch over others":       func(d []byte) { le.PutUint32(d[branch+12:], 1) },
		"a root over others":         func(d []byte) { le.PutUint32(d[int(l.root)<<12+12:], 1) },
		"a root of no buckets":       func(d []byte) { d[int(l.root)<<12+8] = branchPage },
	} {
		data := bytes.Clone(good)
		spoil(data)
		if err := checkPages(bytes.NewReader(data), l.meta, never); err == nil {
			t.Errorf("%s is not seen", name)
		}
	}
}
