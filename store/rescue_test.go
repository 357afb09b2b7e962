package store_test

import (
	"bytes"
	"errors"
	"slices"
	"testing"

	"borewright/engine/record"
	"borewright/store"
	"borewright/store/storetest"
)

// TestRescue reads a damaged database and takes nothing.
func TestRescue(t *testing.T) {
	path := temp(t)
	kept, order := demo(t, path)
	data := spoiled(read(t, path), store.EventKey(1, 9), kept[order[0]][8])
	clear(data[:2*pageSize])
	write(t, path, data)
	_, cause := store.Open(path, quick(store.Options{}))
	r, err := store.Rescue(path, cause)
	if err != nil {
		t.Fatal(err)
	}
	hs, err := r.Headings(2)
	if err != nil || len(hs) != 2 || len(r.Warnings()) != 1 {
		t.Fatalf("%v, %v, %q", hs, err, r.Warnings())
	}
	for i, uid := range order {
		events, err := r.Load(uid)
		if err != nil {
			t.Fatal(err)
		}
		if i > 0 { // the last event says that nothing tells where it ended
			intact(t, events[:len(kept[uid])], kept[uid])
		}
		replays(t, events)
		if lines, err := r.Lines(uid); err != nil || !slices.EqualFunc(events, lines, storetest.Is) {
			t.Errorf("%d lines of %d events: %v", len(lines), len(events), err)
		}
		if _, err := r.Keep(uid, record.Event{Body: record.Note{Text: "x"}}); !errors.Is(err, store.ErrRescued) {
			t.Errorf("keep: %v", err)
		}
	}
	if err := r.Append(order[0], kept[order[0]]); !errors.Is(err, store.ErrRescued) {
		t.Errorf("append: %v", err)
	}
	if _, err := r.Load("nobody"); !errors.Is(err, store.ErrNoSession) {
		t.Errorf("load: %v", err)
	}
	if shop, err := r.Load(""); err != nil || len(shop) != 2 {
		t.Errorf("the shop: %v, %v", shop, err)
	}
	if !bytes.Equal(read(t, path), data) {
		t.Error("the file was written")
	}
}
