package store_test

import (
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"borewright/engine/record"
	"borewright/store"
	"borewright/store/storetest"
	"borewright/store/storetest/powercut"
)

var cuts = flag.Int("cuts", 400, "in how many states TestPowerCut finds the disk")

// keptTrace is what a store asked of its disk while it was made, took readings,
// was closed, opened again and took more. TestRecordPowerCut -keep-trace makes
// it anew.
const keptTrace = "testdata/powercut.trace.gz"

// cutDB is the name of the database in a trace.
const cutDB = "borewright.db"

// TestPowerCut cuts the power at every flush and at every other step of a
// recorded trace, creation included: the database opens, every event that was
// acknowledged is there, and it goes on.
func TestPowerCut(t *testing.T) {
	ops := readTrace(t)
	b := cutBench{t: t, path: filepath.Join(t.TempDir(), "bench", cutDB)}
	powercut.Each(ops, *cuts, 1, func(s powercut.State) bool {
		if _, err := b.find(s); err != nil {
			t.Errorf("cut before step %d, turn %d: %v", s.Step, s.Turn, err)
		}
		return b.lost == 0 && !t.Failed()
	})
	storetest.Proof(t, fmt.Sprintf("power cut at %d flushes and between, sectors torn (kept trace)", flushes(ops)),
		b.states, b.lost, b.saw())
}

// TestPowerCutCatchesMissingSyncs: were the flushes left out, TestPowerCut would
// find events lost, or a database that does not open.
func TestPowerCutCatchesMissingSyncs(t *testing.T) {
	catches(t, powercut.WithoutSyncs(readTrace(t)), "the same with every flush of the database removed")
}

// catches replays a trace that cannot hold what it promises.
func catches(t *testing.T, ops []powercut.Op, what string) {
	t.Helper()
	b := cutBench{t: t, path: filepath.Join(t.TempDir(), "bench", cutDB)}
	bad := 0
	powercut.Each(ops, min(*cuts, 1000), 1, func(s powercut.State) bool {
		lost := b.lost
		if _, err := b.find(s); err != nil || b.lost > lost {
			bad++
		}
		return true
	})
	if b.lost == 0 || bad == 0 {
		t.Fatalf("%s: nothing was lost in %d states", what, b.states)
	}
	storetest.Caught(t, what, b.states, fmt.Sprintf("%d states lose acknowledged events or do not open", bad))
}

func readTrace(t *testing.T) []powercut.Op {
	t.Helper()
	f, err := os.Open(keptTrace)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	ops, err := powercut.Unpack(f)
	if err != nil {
		t.Fatal(err)
	}
	return ops
}

// flushes counts the steps that make something durable.
func flushes(ops []powercut.Op) int {
	n := 0
	for _, o := range ops {
		if o.Kind == powercut.Sync || o.Kind == powercut.SyncFolder {
			n++
		}
	}
	return n
}

// cutBench finds databases after power cuts.
type cutBench struct {
	t      *testing.T
	path   string
	want   [][]byte // every event of the trace
	states int
	acked  int64
	lost   int
	unmade int // states in which there was no database yet
	torn   int // states in which what was being kept was cut off, and said so
}

func (b *cutBench) saw() string {
	return fmt.Sprintf("it opens, %d acknowledged events all there, and it goes on (%d cuts before there was a file, %d tell of a cut in a reading)", b.acked, b.unmade, b.torn)
}

// find lays the state out as files, opens the database and looks at what is
// left: it returns how many events.
func (b *cutBench) find(s powercut.State) (kept int, err error) {
	b.states++
	b.acked += s.Acked
	if err := b.lay(s.Files); err != nil {
		b.t.Fatal(err)
	}
	if s.Files[cutDB] == nil {
		b.unmade++
	}
	defer func() { b.lost += max(0, int(s.Acked)-kept) }()
	db, err := store.Open(b.path, quick(store.Options{}))
	if err != nil {
		return 0, err
	}
	kept, err = b.look(db)
	if closing := db.Close(); err == nil {
		err = closing
	}
	return kept, err
}

// look compares what is in the database with what was taken, and lets it take
// one more.
func (b *cutBench) look(db *store.DB) (kept int, err error) {
	for _, w := range db.Warnings() {
		if !strings.HasPrefix(w, store.TornText) {
			return 0, fmt.Errorf("it warns %q", w)
		}
		b.torn++
	}
	headings, err := db.Headings(0)
	if err != nil {
		return 0, err
	}
	if len(headings) == 0 {
		_, err = db.Keep("a", storetest.Begin("a")...)
	} else {
		if kept, err = b.compare(db); err != nil {
			return kept, err
		}
		_, err = db.Keep("a", storetest.Reading(kept-2))
	}
	if err != nil {
		return kept, err
	}
	return kept, db.Wait(b.t.Context())
}

// compare returns how many events are there, all as they were taken.
func (b *cutBench) compare(db *store.DB) (int, error) {
	events, err := db.Load("a")
	if err != nil {
		return len(events), err
	}
	for i, e := range events {
		if want := b.event(i); !storetest.Is(e, want) {
			return i, fmt.Errorf("event %d is not %s", i+1, want)
		}
	}
	return len(events), nil
}

// event returns the stored bytes of the i-th event of the session in a trace.
func (b *cutBench) event(i int) []byte {
	for len(b.want) <= i {
		n := len(b.want) + 256
		events := storetest.Begin("a")
		for r := range n {
			events = append(events, storetest.Reading(r))
		}
		b.want = storetest.Lines(events...)
	}
	return b.want[i]
}

// lay makes the folder hold these files alone.
func (b *cutBench) lay(files map[string][]byte) error {
	dir := filepath.Dir(b.path)
	if err := os.RemoveAll(dir); err != nil {
		return err
	}
	if err := os.Mkdir(dir, 0o700); err != nil {
		return err
	}
	for name, data := range files {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o600); err != nil {
			return err
		}
	}
	return nil
}

// recordDB makes the test binary the program of which a trace is recorded.
const recordDB = "STORE_TEST_RECORD"

// recordedReadings is how many readings the program of a trace takes in each of
// its two lives.
const recordedReadings = 80

// recorded makes a database, takes readings, closes it, opens it again and
// takes more; it prints the number of each event that is kept.
func recorded(path string) int {
	taken := 0
	for range 2 {
		if err := recordedLife(path, &taken); err != nil {
			fmt.Fprintln(os.Stderr, err)
			return 1
		}
	}
	return 0
}

func recordedLife(path string, taken *int) (err error) {
	db, err := store.Open(path, store.Options{Notify: func(o store.Outcome) { fmt.Println(o.Last) }})
	if err != nil {
		return err
	}
	defer func() {
		if closing := db.Close(); err == nil {
			err = closing
		}
	}()
	ctx := context.Background()
	keep := func(events ...record.Event) error {
		if _, err := db.Keep("a", events...); err != nil {
			return err
		}
		return nil
	}
	if *taken == 0 {
		if err := keep(storetest.Begin("a")...); err != nil {
			return err
		}
	}
	for i := range recordedReadings {
		if err := keep(storetest.Reading(*taken)); err != nil {
			return err
		}
		*taken++
		if i%4 != 0 { // now and then several are committed together
			if err := db.Wait(ctx); err != nil {
				return err
			}
		}
	}
	return db.Wait(ctx)
}
