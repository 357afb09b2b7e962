package store_test

import (
	"encoding/binary"
	"errors"
	"testing"

	"borewright/store"
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
