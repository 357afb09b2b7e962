package store_test

import (
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"testing"

	"borewright/store"
	"borewright/store/storetest"
)

// largeEach is how many events a session of a large file has; an event takes a
// page.
const largeEach = 400

// large keeps so many sessions of notes that their pages are not all walked
// before the file is open.
func large(t *testing.T, path string) {
	t.Helper()
	db := open(t, path, store.Options{})
	text := ""
	for len(text) < 3900 {
		text += "what was said of it "
	}
	for i := range 12 {
		uid := fmt.Sprintf("s%d", i)
		events := storetest.Begin(uid)
		for range largeEach - len(events) {
			events = append(events, storetest.Note(text))
		}
		if _, err := db.Keep(uid, events...); err != nil {
			t.Fatal(err)
		}
		if err := db.Wait(context.Background()); err != nil {
			t.Fatal(err)
		}
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
}

// A large file is open at once; what is damaged in it is found before anything
// is written.
func TestLargeFileIsWalkedBeforeItIsWritten(t *testing.T) {
	path := temp(t)
	large(t, path)
	good := read(t, path)
	t.Run("sound", func(t *testing.T) {
		db := open(t, path, store.Options{})
		if _, err := db.Keep("s1", storetest.Note("one more")); err != nil {
			t.Fatal(err)
		}
		if err := db.Wait(context.Background()); err != nil {
			t.Error(err)
		}
		if err := db.Close(); err != nil {
			t.Error(err)
		}
	})
	le := binary.LittleEndian
	for at := len(good) / pageSize / 2 * pageSize; ; at += pageSize {
		if le.Uint64(good[at:]) == uint64(at/pageSize) && le.Uint16(good[at+8:]) == 2 {
			le.PutUint16(good[at+8:], 1) // a leaf that says it is a branch
			break
		}
	}
	write(t, path, good)
	db := open(t, path, store.Options{})
	if _, err := db.Keep("s1", storetest.Note("one more")); err != nil {
		t.Fatal(err)
	}
	if err := db.Wait(context.Background()); !errors.Is(err, store.ErrDamaged) {
		t.Errorf("a damaged file was written: %v", err)
	}
	var unkept *store.UnkeptError
	if err := db.Close(); !errors.As(err, &unkept) {
		t.Errorf("closing says %v", err)
	}
	if r := verified(t, path); r.Sound {
		t.Error("the check finds it sound")
	}
}
