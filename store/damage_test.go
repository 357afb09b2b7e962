package store_test

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"borewright/engine/record"
	"borewright/store"
	"borewright/store/storetest"
)

// damage is one way to spoil a good file.
type damage struct {
	name string
	data []byte
}

// damages returns flipped bytes in every kind of page and files cut short.
func damages(good []byte) []damage {
	le := binary.LittleEndian
	var out []damage
	flip := func(kind string, page, at int, by byte) {
		out = append(out, damage{fmt.Sprintf("%s page %d byte %d by %#x", kind, page, at, by), flipped(good, page*pageSize+at, by)})
	}
	for page := range 2 {
		for _, at := range []int{8, 16, 20, 24, 32, 48, 56, 64, 72} {
			flip("meta", page, at, 0x21)
		}
	}
	for _, k := range []struct {
		name string
		flag uint16
		most int
	}{{"freelist", freelist, 1}, {"branch", branch, 2}, {"leaf", leaf, 7}} {
		for i, page := range pagesOf(good, k.flag) {
			if i >= k.most {
				break
			}
			for _, at := range []int{0, 8, 10, 11, 12, 16, 20, 24, 28, 31} {
				flip(k.name, page, at, 0xFF)
			}
			flip(k.name, page, 24, 0x01)
			flip(k.name, page, 10, 0x01)
			count := int(le.Uint16(good[page*pageSize+10:]))
			for _, at := range []int{count/2*16 + 16, count/2*16 + 20, count/2*16 + 24, count*16 + 2, count*16 + 18, count*16 + 47} {
				flip(k.name, page, at, 0x10)
			}
		}
	}
	used := int(le.Uint64(good[newestMeta(good)+40:])) * pageSize
	for _, size := range []int{1, 100, pageSize, 2 * pageSize, 3 * pageSize, used / 2, used - pageSize} {
		out = append(out, damage{fmt.Sprintf("cut to %d bytes", size), good[:size]})
	}
	zeroed := bytes.Clone(good)
	clear(zeroed[:2*pageSize])
	leaves := pagesOf(good, leaf)
	a, b := leaves[len(leaves)-1]*pageSize, leaves[len(leaves)-2]*pageSize
	swapped := bytes.Clone(good)
	copy(swapped[a:a+pageSize], good[b:b+pageSize])
	copy(swapped[b:b+pageSize], good[a:a+pageSize])
	lost := bytes.Clone(good)
	clear(lost[a : a+pageSize])
	return append(out, damage{"both metas zeroed", zeroed}, damage{"two leaves swapped", swapped}, damage{"a leaf zeroed", lost})
}

// TestDamage opens damaged files in this process, with the pages walked before and
// after they are read: it must live, and say either the truth or an error or a
// warning.
func TestDamage(t *testing.T) {
	dir := fastDir(t)
	kept := build(t, filepath.Join(dir, "good.db"), 3, 40)
	good := read(t, filepath.Join(dir, "good.db"))
	for i, d := range damages(good) {
		t.Run(d.name, func(t *testing.T) {
			t.Parallel()
			path := filepath.Join(dir, fmt.Sprintf("%d.db", i))
			for _, o := range []store.Options{{}, store.Options{}.WithWalkAtOnce(1)} {
				write(t, path, d.data)
				if examine(t, path, o, kept, 0) {
					examine(t, path, o, kept, 1)
				}
			}
		})
	}
}

// examine opens the file, compares what it says with the truth and so many
// events more, keeps another event in each stream and compares again. False
// when the file is of no use any more, or the last event was lost.
func examine(t *testing.T, path string, o store.Options, kept truth, more int) bool {
	t.Helper()
	db, err := store.Open(path, quick(o))
	if err != nil {
		typed(t, "open", err)
		return false
	}
	faithful(t, db, kept, more)
	lost := strings.Contains(strings.Join(db.Warnings(), " "), "the last reading may be missing")
	if !lost {
		for uid := range kept {
			if _, err := db.Keep(uid, storetest.Reading(99)); err != nil {
				typed(t, "keep", err)
			}
		}
		if err := db.Wait(t.Context()); err != nil {
			typed(t, "wait", err)
		}
		faithful(t, db, kept, more+1)
	}
	if err := db.Close(); err != nil {
		typed(t, "close", err)
		return false
	}
	return !lost
}

// typed fails unless the error is one of this package about the file or one of
// its sessions.
func typed(t *testing.T, what string, err error) {
	t.Helper()
	var f *store.FileError
	var s *store.SessionError
	if !errors.As(err, &f) && !errors.As(err, &s) {
		t.Errorf("%s: %v", what, err)
	}
}

// faithful fails when the store says something else than the truth with up to
// so many readings more, without an error or a warning.
func faithful(t *testing.T, db *store.DB, kept truth, more int) {
	t.Helper()
	for uid, lines := range kept {
		events, err := db.Load(uid)
		if err != nil && !errors.Is(err, store.ErrNoSession) {
			typed(t, "load "+uid, err)
		}
		for i, e := range events {
			if i < len(lines) && !storetest.Is(e, lines[i]) {
				t.Errorf("event %d of %s is not what was kept", i+1, uid)
			}
		}
		if len(events) > len(lines)+more {
			t.Errorf("%s has %d events, not %d", uid, len(events), len(lines))
		}
		if len(events) < len(lines) && (err == nil || errors.Is(err, store.ErrNoSession)) && len(db.Warnings()) == 0 {
			t.Errorf("%s has %d events of %d and nobody says why (%v)", uid, len(events), len(lines), err)
		}
	}
	listed(t, db, kept)
}

// listed checks the headings against the truth.
func listed(t *testing.T, db *store.DB, kept truth) {
	t.Helper()
	headings, err := db.Headings(0)
	if err != nil {
		typed(t, "headings", err)
		return
	}
	if len(headings) != len(kept)-1 && len(db.Warnings()) == 0 {
		t.Errorf("%d sessions are listed, not %d", len(headings), len(kept)-1)
	}
	for _, h := range headings {
		lines, ok := kept[h.UID]
		switch {
		case !ok:
			t.Errorf("a session %q is listed that never was", h.UID)
		case h.Head.N == 0 || h.Head.N > int64(len(lines)):
		case h.Head.Hash != record.SumOf(lines[h.Head.N-1]):
			t.Errorf("the heading of %s at event %d is not of what was kept", h.UID, h.Head.N)
		}
	}
}

// TestLostMeta loses the newest meta page: bbolt goes back to the one before
// and is silent about it, so the store says where to look. What went into the
// buckets last is still in the tail.
func TestLostMeta(t *testing.T) {
	path := temp(t)
	kept := build(t, path, 2, 5)
	db := open(t, path, store.Options{})
	if err := errors.Join(keepAndWait(t, db, "s2"), keepAndWait(t, db, "s1"), db.Close()); err != nil {
		t.Fatal(err)
	}
	good := read(t, path)
	write(t, path, flipped(good, newestMeta(good)+20, 1))
	db = open(t, path, store.Options{})
	events, err := db.Load("s1")
	if err != nil || len(events) != len(kept["s1"])+1 {
		t.Fatalf("%d events, %v", len(events), err)
	}
	for _, want := range []string{"may be missing", `"Launch s1"`, "event 9", `"3.7504" at bore 2`} {
		if w := db.Warnings(); len(w) != 1 || !strings.Contains(w[0], want) {
			t.Errorf("warnings %q, want %q", w, want)
		}
	}
	if err := keepAndWait(t, db, "s1"); err != nil {
		t.Fatal(err)
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	if w := open(t, path, store.Options{}).Warnings(); len(w) != 0 {
		t.Errorf("warnings after the next commit: %q", w)
	}
}

// TestPageUsedTwice: a free list that offers a page in use would have readings
// written over, and bbolt would not notice.
func TestPageUsedTwice(t *testing.T) {
	path := temp(t)
	build(t, path, 2, 40)
	good := read(t, path)
	list := pagesOf(good, freelist)[0] * pageSize
	if binary.LittleEndian.Uint16(good[list+10:]) == 0 {
		t.Fatal("no page is free")
	}
	bad := bytes.Clone(good)
	binary.LittleEndian.PutUint64(bad[list+16:], uint64(pagesOf(good, leaf)[1]))
	write(t, path, bad)
	if _, err := store.Open(path, quick(store.Options{})); !errors.Is(err, store.ErrDamaged) || !strings.Contains(err.Error(), "used twice") {
		t.Errorf("open: %v", err)
	}
	if !bytes.Equal(read(t, path), bad) {
		t.Error("the file was changed")
	}
}

// TestPagesAreFull: events are only added, so their pages are filled up.
func TestPagesAreFull(t *testing.T) {
	path := temp(t)
	db := open(t, path, store.Options{})
	if _, err := db.Keep("a", storetest.Begin("a")...); err != nil {
		t.Fatal(err)
	}
	for range 150 {
		for range 10 {
			if _, err := db.Keep("a", storetest.Reading(1)); err != nil {
				t.Fatal(err)
			}
		}
		if err := db.Wait(t.Context()); err != nil {
			t.Fatal(err)
		}
	}
	total := 0
	lines, err := db.Lines("a")
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range lines {
		total += len(line) + 12 + 16 // the key and bbolt's entry
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	if pages := len(pagesOf(read(t, path), leaf)) * pageSize; float64(total) < 0.8*float64(pages) {
		t.Errorf("%d bytes of events take %d bytes of pages", total, pages)
	}
}
