package store_test

import (
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"borewright/engine"
	"borewright/engine/record"
	"borewright/engine/record/recordtest"
	"borewright/store"
	"borewright/store/storetest"
)

var longLife = flag.Bool("long", false, "let TestLong keep 100,000 events in a session and 10,000 sessions")

// lifelong returns few, or many with -long.
func lifelong(few, many int) int {
	if *longLife {
		return many
	}
	return few
}

// TestLongSession keeps a session of 100,000 events, opens it again and finds
// every event, and what they come to.
func TestLongSession(t *testing.T) {
	n := lifelong(3000, 100_000)
	path := temp(t)
	events := recordtest.Events(recordtest.Long("long", n))
	want, err := recordtest.Seal(events)
	if err != nil {
		t.Fatal(err)
	}
	db := open(t, path, store.Options{})
	for some := range slices.Chunk(events, 500) {
		if _, err := db.Keep("long", some...); err != nil {
			t.Fatal(err)
		}
	}
	closed(t, db)
	db = open(t, path, store.Options{})
	storetest.Check(t, db)
	got, err := db.Load("long")
	if err != nil {
		t.Fatal(err)
	}
	closed(t, db)
	lost := unlike(got, want)
	if lost > 0 || !reflect.DeepEqual(assess(t, got), assess(t, want)) {
		t.Errorf("%d events of %d are not what was kept, or come to something else", lost, n)
	}
	soundFile(t, path)
	storetest.Proof(t, fmt.Sprintf("%d events in one session", n), n, lost, "all of them, and the same figures")
}

// TestLongYears keeps 10,000 sessions and touches them in any order.
func TestLongYears(t *testing.T) {
	n := lifelong(300, 10_000)
	path := temp(t)
	db := open(t, path, store.Options{})
	want := make([]string, n)
	for i := range n {
		want[i] = fmt.Sprintf("session-%d", i)
		touch(t, db, want[i], append(storetest.Begin(want[i]), storetest.Reading(i))...)
	}
	for _, i := range rand.New(rand.NewPCG(1, 2)).Perm(n)[:n/3] {
		uid := fmt.Sprintf("session-%d", i)
		touch(t, db, uid, storetest.Reading(i+1))
		at := slices.Index(want, uid)
		want = append(slices.Delete(want, at, at+1), uid)
	}
	closed(t, db)
	db = open(t, path, store.Options{})
	storetest.Check(t, db)
	hs, err := db.Headings(0)
	if err != nil {
		t.Fatal(err)
	}
	closed(t, db)
	slices.Reverse(want)
	lost := n - len(hs)
	for i := range hs {
		if hs[i].UID != want[i] {
			t.Fatalf("session %d of the list is %s, want %s", i+1, hs[i].UID, want[i])
		}
	}
	if lost != 0 {
		t.Errorf("%d sessions of %d are not listed", lost, n)
	}
	soundFile(t, path)
	storetest.Proof(t, fmt.Sprintf("%d sessions", n), n, lost, "all of them, the newest touched first")
}

// touch keeps events of a session; the queue is let run out now and then.
func touch(t *testing.T, db *store.DB, uid string, events ...record.Event) {
	t.Helper()
	sealed, err := db.Keep(uid, events...)
	if err != nil {
		t.Fatal(err)
	}
	if sealed[0].N%100 == 0 {
		if err := db.Wait(context.Background()); err != nil {
			t.Fatal(err)
		}
	}
}

// unlike counts the events that are missing, are too many or are not what they
// should be.
func unlike(got, want []record.Sealed) int {
	n := max(len(got), len(want)) - min(len(got), len(want))
	for i := range min(len(got), len(want)) {
		if got[i].Head != want[i].Head {
			n++
		}
	}
	return n
}

func assess(t *testing.T, events []record.Sealed) *engine.Assessment {
	t.Helper()
	s, err := engine.Replay(events)
	if err != nil {
		t.Fatal(err)
	}
	return engine.Assess(s)
}

func closed(t *testing.T, db *store.DB) {
	t.Helper()
	if err := db.Wait(context.Background()); err != nil {
		t.Fatal(err)
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
}

// soundFile verifies a database in which nothing may be wrong.
func soundFile(t *testing.T, path string) {
	t.Helper()
	if r := verified(t, path); len(r.Faults) > 0 {
		t.Errorf("it is not sound: %v", r.Faults)
	}
}
