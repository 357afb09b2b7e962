package store_test

import (
	"bytes"
	"encoding/binary"
	"errors"
	"runtime"
	"testing"

	"borewright/store"
	"borewright/store/storetest"
)

// TestLoop puts a branch that leads to itself where a leaf was, though not the
// first leaf: bbolt would follow it for ever and take all memory.
func TestLoop(t *testing.T) {
	path := temp(t)
	build(t, path, 2, 400)
	data := read(t, path)
	le := binary.LittleEndian
	loops := 0
	for at := 0; at+pageSize <= len(data); at += pageSize {
		branch := data[at:]
		if id := le.Uint64(branch); id != uint64(at/pageSize) || id == 0 || le.Uint16(branch[8:]) != 1 {
			continue
		}
		for child := 1; child < int(le.Uint16(branch[10:])); child++ {
			bad := append([]byte(nil), data...)
			id := le.Uint64(branch[16+16*child+8:])
			page := bad[int(id)*pageSize:]
			copy(page, branch[:pageSize])
			le.PutUint64(page, id)
			le.PutUint16(page[10:], 1)
			le.PutUint64(page[16+8:], id)
			write(t, path, bad)
			switch db, err := store.Open(path, quick(store.Options{})); {
			case err == nil: // the branch is not in use any more
				if err := db.Close(); err != nil {
					t.Fatal(err)
				}
				continue
			case !errors.Is(err, store.ErrDamaged):
				t.Fatalf("child %d of page %d: %v", child, at/pageSize, err)
			}
			loops++
		}
	}
	if loops == 0 {
		t.Error("no branch was found")
	}
}

// TestForgedSizes makes an entry of a leaf say that it takes 2 GB: bbolt would
// make room for it in one commit.
func TestForgedSizes(t *testing.T) {
	path := temp(t)
	build(t, path, 2, 60)
	data := read(t, path)
	le := binary.LittleEndian
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	refused := 0
	for _, id := range pagesOf(data, leaf) {
		for _, field := range []int{8, 12} { // the size of its key, of its value
			bad := bytes.Clone(data)
			le.PutUint32(bad[id*pageSize+16+field:], 1<<31-1)
			db, err := store.Open(write(t, path, bad), quick(store.Options{}))
			if err == nil { // the leaf is not in use any more
				_ = keepAndWait(t, db, "s1")
				_ = db.Close()
			} else if refused++; !errors.Is(err, store.ErrDamaged) {
				t.Errorf("page %d: %v", id, err)
			}
		}
	}
	runtime.ReadMemStats(&after)
	if took := after.TotalAlloc - before.TotalAlloc; refused < 8 || took > 1<<30 {
		t.Errorf("%d files were refused, and %d MB taken", refused, took>>20)
	}
	storetest.Proof(t, "entries of a leaf that say they take 2 GB", refused, 0, store.ErrDamaged.Error())
}
