package store_test

import (
	"bytes"
	"encoding/binary"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"borewright/engine/record"
	"borewright/store"
	"borewright/store/storetest"
)

// truth is what was kept, by uid, as stored bytes.
type truth map[string][][]byte

// build makes a database of sessions s1, s2 ... with so many readings each, and
// some remarks in the shop, and closes it.
func build(t *testing.T, path string, sessions, readings int) truth {
	t.Helper()
	db := open(t, path, store.Options{})
	kept := truth{}
	keep := func(uid string, events ...record.Event) {
		sealed, err := db.Keep(uid, events...)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range sealed {
			kept[uid] = append(kept[uid], s.Bytes)
		}
	}
	for i := range sessions {
		uid := "s" + strconv.Itoa(i+1)
		keep(uid, storetest.Begin(uid)...)
		for r := range readings {
			keep(uid, storetest.Reading(r))
		}
	}
	keep(record.ShopUID, storetest.Note("bought shells"), storetest.Note("sold shells"))
	keep("s1", storetest.Reading(readings))
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	return kept
}

// open opens a database that must open, and closes it at the end of the test.
func open(t *testing.T, path string, o store.Options) *store.DB {
	t.Helper()
	db, err := store.Open(path, quick(o))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = db.Close() }) // whoever wants to know closes it before
	return db
}

func read(t *testing.T, path string) []byte {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func write(t *testing.T, path string, data []byte) string {
	t.Helper()
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// pageSize is that of the databases made here.
var pageSize = store.NewPageSize

// pageSizeOf returns the size of the pages of a database, as its first page says.
func pageSizeOf(data []byte) int { return int(binary.LittleEndian.Uint32(data[16+8:])) }

// The kinds of a page.
const (
	branch   = 0x01
	leaf     = 0x02
	freelist = 0x10
)

// pagesOf returns the numbers of the pages in use of a kind, by following the
// newest meta page down.
func pagesOf(data []byte, kind uint16) []int {
	le := binary.LittleEndian
	var found []int
	var visit func(id uint64)
	visit = func(id uint64) {
		p := data[int(id)*pageSizeOf(data):]
		flags, count := le.Uint16(p[8:]), int(le.Uint16(p[10:]))
		if flags == kind {
			found = append(found, int(id))
		}
		for i := range count {
			e := p[16+16*i:]
			switch {
			case flags == branch:
				visit(le.Uint64(e[8:]))
			case le.Uint32(e)&1 != 0: // a bucket
				if root := le.Uint64(e[le.Uint32(e[4:])+le.Uint32(e[8:]):]); root != 0 {
					visit(root)
				}
			}
		}
	}
	m := newestMeta(data)
	if kind == freelist {
		return []int{int(le.Uint64(data[m+32:]))}
	}
	visit(le.Uint64(data[m+16:]))
	return found
}

// newestMeta returns where the newest meta begins.
func newestMeta(data []byte) int {
	le, second := binary.LittleEndian, pageSizeOf(data)+16
	if le.Uint64(data[16+48:]) > le.Uint64(data[second+48:]) {
		return 16
	}
	return second
}

// flipped returns a copy with one byte changed.
func flipped(data []byte, at int, by byte) []byte {
	out := bytes.Clone(data)
	out[at] ^= by
	return out
}

// temp returns a path in a new folder.
func temp(t *testing.T) string {
	t.Helper()
	return filepath.Join(t.TempDir(), "borewright.db")
}
