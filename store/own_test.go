package store_test

import (
	"bytes"
	"errors"
	"os"
	"testing"

	"borewright/engine/record"
	"borewright/store"
	"borewright/store/storetest"
)

// over copies bytes over a file in place, as `cat a > b` does.
func over(t *testing.T, path string, data []byte) {
	t.Helper()
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Skipf("an open file cannot be written over here: %v", err)
	}
}

// TestCopiedOver: another file that is copied over the open one is neither
// written nor read, whatever its shape; readings wait, and are kept once the
// right one is back.
func TestCopiedOver(t *testing.T) {
	path, other := temp(t), temp(t)
	tries := 0
	for name, foreign := range map[string]func() []byte{
		"another database":           func() []byte { build(t, other, 2, 9); return read(t, other) },
		"another of the same shape":  func() []byte { return sameShape(t, path, other) },
		"an older copy of it":        func() []byte { return read(t, path+".older") },
		"something else":             func() []byte { return bytes.Repeat([]byte("not ours "), 1<<13) },
		"nothing":                    func() []byte { return nil },
		"its own first transactions": func() []byte { build(t, other, 1, 3); return read(t, other) },
	} {
		t.Run(name, func(t *testing.T) {
			tries++
			for _, p := range []string{path, other} {
				if err := os.RemoveAll(p); err != nil {
					t.Fatal(err)
				}
			}
			build(t, path, 1, 3)
			write(t, path+".older", read(t, path))
			var l log
			db := open(t, path, store.Options{Notify: l.add})
			if err := keepAndWait(t, db, "s1"); err != nil {
				t.Fatal(err)
			}
			mine := read(t, path)
			theirs := foreign()
			over(t, path, theirs)
			if err := keepAndWait(t, db, "s1"); !errors.Is(err, store.ErrGone) || db.Pending("s1") != 1 {
				t.Errorf("keep: %v, %d pending", err, db.Pending("s1"))
			}
			if o := l.last(t); !errors.Is(o.Err, store.ErrGone) {
				t.Errorf("reported %+v", o)
			}
			if !bytes.Equal(read(t, path), theirs) {
				t.Error("the other file was written")
			}
			over(t, path, mine)
			db.Retry()
			if err := db.Wait(t.Context()); err != nil {
				t.Errorf("put back: %v", err)
			}
			if n := count(t, db, "s1"); n != 8 {
				t.Errorf("%d events", n)
			}
		})
	}
	storetest.Proof(t, "another file copied over the open database in place", tries, 0,
		store.ErrGone.Error()+"; kept when it is back, the other file not written")
}

// sameShape makes a database whose every page is where it is in the one at path,
// with other readings in it.
func sameShape(t *testing.T, path, other string) []byte {
	t.Helper()
	mine := read(t, path)
	write(t, other, read(t, path+".older"))
	db := open(t, other, store.Options{})
	if _, err := db.Keep("s1", storetest.Reading(7)); err != nil {
		t.Fatal(err)
	}
	if err := db.Wait(t.Context()); err != nil {
		t.Fatal(err)
	}
	theirs := read(t, other) // closed it has one more transaction
	if bytes.Equal(mine, theirs) || !bytes.Equal(mine[:2*pageSize], theirs[:2*pageSize]) {
		t.Fatal("the two are not of the same shape")
	}
	return theirs
}

// TestCopiedOverIsNotRead: a session of another file is not shown for one of ours.
func TestCopiedOverIsNotRead(t *testing.T) {
	path, other := temp(t), temp(t)
	build(t, path, 1, 3)
	build(t, other, 1, 30)
	db := open(t, path, store.Options{})
	mine := read(t, path)
	over(t, path, read(t, other))
	if events, err := db.Load("s1"); !errors.Is(err, store.ErrGone) {
		t.Errorf("%d events, %v", len(events), err)
	}
	if _, err := db.Headings(5); !errors.Is(err, store.ErrGone) {
		t.Errorf("headings: %v", err)
	}
	over(t, path, mine)
	if n := count(t, db, "s1"); n == 0 || count(t, db, record.ShopUID) == 0 {
		t.Errorf("%d events", n)
	}
}
