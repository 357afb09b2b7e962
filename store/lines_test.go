package store_test

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	bolt "go.etcd.io/bbolt"

	"borewright/engine/record"
	"borewright/store"
	"borewright/store/storetest"
)

// TestDamageBetweenReads: a stream is read in several pieces; whichever event is
// damaged, missing or followed by a strange key, the ones before it are read and
// the error names it.
func TestDamageBetweenReads(t *testing.T) {
	events := storetest.Begin("a")
	for i := range 20 { // of 3,000 bytes each, so that five fill a piece
		events = append(events, storetest.Note(strings.Repeat(string(rune('a'+i)), 3000)))
	}
	last := int64(len(events))
	for name, spoil := range map[string]struct {
		change func(b *bolt.Bucket, key []byte) error
		whole  int64 // of the events before the spoiled one and it
	}{
		"flipped": {garble, -1},
		"missing": {(*bolt.Bucket).Delete, -1},
		"a longer key behind it": {func(b *bolt.Bucket, key []byte) error {
			return b.Put(append(bytes.Clone(key), 0), []byte("x"))
		}, 0},
	} {
		for n := int64(1); n <= last; n++ {
			path := temp(t)
			db := open(t, path, store.Options{})
			sealed, err := db.Keep("a", events...)
			if err != nil {
				t.Fatal(err)
			}
			closed(t, db)
			tamper(t, path, func(tx *bolt.Tx) error { return spoil.change(tx.Bucket([]byte("events")), store.EventKey(1, n)) })
			db = open(t, path, store.Options{})
			read, err := db.Load("a")
			var bad *store.SessionError
			if whole := n + spoil.whole; !errors.As(err, &bad) || bad.N != whole+1 || int64(len(read)) != whole {
				t.Fatalf("%s, event %d: %d events and %v", name, n, len(read), err)
			}
			for i, s := range read {
				if !storetest.Is(s, sealed[i].Bytes) {
					t.Fatalf("%s, event %d: event %d is another", name, n, i+1)
				}
			}
			closed(t, db)
		}
	}
}

// TestLoadMany: a stream that is read in many pieces is what was kept, and so are
// its stored bytes; one line alone may be longer than a piece.
func TestLoadMany(t *testing.T) {
	rows := make([]map[string]string, 300)
	for i := range rows {
		rows[i] = map[string]string{"size": strings.Repeat("9", 150)}
	}
	events := append(storetest.Begin("a"), record.Event{At: storetest.Start, Body: record.Table{Name: record.Shells, Rows: rows}})
	for i := range 400 {
		events = append(events, storetest.Reading(i))
	}
	db := open(t, temp(t), store.Options{})
	sealed, err := db.Keep("a", events...)
	if err != nil {
		t.Fatal(err)
	}
	if err := db.Wait(t.Context()); err != nil {
		t.Fatal(err)
	}
	lines, err := db.Lines("a")
	if err != nil || len(lines) != len(sealed) {
		t.Fatalf("%d lines of %d: %v", len(lines), len(sealed), err)
	}
	read := load(t, db, "a")
	for i, s := range read {
		if !storetest.Is(s, sealed[i].Bytes) || !bytes.Equal(lines[i], sealed[i].Bytes) {
			t.Fatalf("event %d is another", i+1)
		}
	}
	if len(read) != len(sealed) || len(sealed[len(storetest.Begin("a"))].Bytes) < 1<<15 {
		t.Fatalf("%d events of %d", len(read), len(sealed))
	}
}
