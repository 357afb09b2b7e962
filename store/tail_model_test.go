package store_test

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/record"
	"borewright/store"
	"borewright/store/storetest"
)

// modelBench keeps events in a database, whatever fails, and knows which were called kept.
type modelBench struct {
	*rapid.T
	dir   string
	path  string
	db    *store.DB
	fault fault
	// taken is every event in its order, kept how many of a session's were kept.
	taken truth
	kept  map[string]int
	files int
}

// TestTailModel keeps events of all sizes in some sessions while writing fails now and
// then, and looks at what a kill would leave, with its newest or its older meta page
// damaged or none: what was kept is there, in the same list of sessions.
func TestTailModel(t *testing.T) {
	dir := fastDir(t)
	tries := 0
	fewer(t, "6")
	rapid.Check(t, func(r *rapid.T) {
		tries++
		b := &modelBench{T: r, dir: filepath.Join(dir, fmt.Sprint(tries)), taken: truth{}, kept: map[string]int{}}
		if err := os.Mkdir(b.dir, 0o700); err != nil {
			r.Fatal(err)
		}
		b.path = filepath.Join(b.dir, "live.db")
		if rapid.Bool().Draw(r, "older pages") {
			b.no(store.MakeWithPages(b.path, olderPageSize))
		}
		b.open()
		defer func() {
			b.fault.set(nil)
			_ = b.db.Close()
			_ = os.RemoveAll(b.dir)
		}()
		r.Repeat(map[string]func(*rapid.T){
			"reading": func(r *rapid.T) { b.keep(1) },
			"several": func(r *rapid.T) { b.keep(rapid.IntRange(2, 70).Draw(r, "events")) },
			"shift": func(r *rapid.T) {
				for range rapid.IntRange(1, 20).Draw(r, "readings") {
					b.keep(1)
				}
			},
			"fault":   func(r *rapid.T) { b.fails() },
			"again":   func(r *rapid.T) { b.again() },
			"rebuild": func(r *rapid.T) { b.again(); b.no(b.db.Rebuild()) },
			"close":   func(r *rapid.T) { b.again(); b.no(b.db.Close()); b.open() },
			"kill":    func(r *rapid.T) { b.kill() },
			"backup":  func(r *rapid.T) { b.backup() },
			"":        func(r *rapid.T) { b.look() },
		})
	})
	storetest.Proof(t, "kills and damaged beginnings at any point of random work, writing failing now and then", tries, 0,
		"every reading that was called kept is there, and the list of sessions is the same")
}

// fewer makes the usual number of checks a smaller one: each is a shift of work, and
// the tests are to end soon. Another number can be asked for with -rapid.checks.
func fewer(t *testing.T, checks string) {
	t.Helper()
	f := flag.Lookup("rapid.checks")
	if f.Value.String() != f.DefValue {
		return
	}
	if err := f.Value.Set(checks); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = f.Value.Set(f.DefValue) })
}

func (b *modelBench) no(err error) {
	b.Helper()
	if err != nil {
		b.Fatal(err)
	}
}

func (b *modelBench) open() {
	b.Helper()
	db, err := store.Open(b.path, quick(store.Options{}).WithFault(b.fault.ask))
	b.no(err)
	if w := db.Warnings(); len(w) > 0 {
		b.Fatalf("it warns %q", w)
	}
	b.db = db
}

// keep keeps so many events, at once, in some session.
func (b *modelBench) keep(n int) {
	b.Helper()
	uid := rapid.SampledFrom([]string{"a", "b", "c", record.ShopUID}).Draw(b.T, "session")
	var events []record.Event
	if uid != record.ShopUID && len(b.taken[uid]) == 0 {
		events = storetest.Begin(uid)
	}
	for i := range n {
		if uid == record.ShopUID || rapid.IntRange(0, 9).Draw(b.T, "what") == 0 {
			text := strings.Repeat("said ", rapid.SampledFrom([]int{1, 30, 800}).Draw(b.T, "words"))
			events = append(events, storetest.Note(text[:len(text)-1]))
		} else {
			events = append(events, storetest.Reading(len(b.taken[uid])+i))
		}
	}
	sealed, err := b.db.Keep(uid, events...)
	b.no(err)
	for _, s := range sealed {
		b.taken[uid] = append(b.taken[uid], s.Bytes)
	}
	b.settled()
}

// settled waits until the queue is empty or stands, and notes what was kept.
func (b *modelBench) settled() {
	b.Helper()
	var unkept *store.UnkeptError
	if err := b.db.Wait(b.Context()); err != nil && !errors.As(err, &unkept) {
		b.Fatal(err)
	}
	for uid, lines := range b.taken {
		b.kept[uid] = len(lines) - b.db.Pending(uid)
	}
}

// fails makes a stage of some attempt to come fail, once.
func (b *modelBench) fails() {
	stage := rapid.SampledFrom([]string{"write", "written"}).Draw(b.T, "stage")
	after := rapid.IntRange(0, 25).Draw(b.T, "after")
	b.fault.set(func(is string) error {
		if is != stage {
			return nil
		}
		if after--; after >= 0 {
			return nil
		}
		b.fault.set(nil)
		return errors.New("the disk is sick")
	})
}

// again lets what waits be kept.
func (b *modelBench) again() {
	b.Helper()
	b.fault.set(nil)
	b.db.Retry()
	b.no(b.db.Wait(b.Context()))
	b.settled()
}

// copied copies the file as a kill would leave it, changed if change says so.
func (b *modelBench) copied(change func([]byte)) string {
	b.Helper()
	data, err := os.ReadFile(b.path)
	b.no(err)
	if change != nil {
		change(data)
	}
	b.files++
	path := filepath.Join(b.dir, fmt.Sprintf("%d.db", b.files))
	b.no(os.WriteFile(path, data, 0o600))
	return path
}

// kill goes on with the file as it is, and without what waits.
func (b *modelBench) kill() {
	b.Helper()
	path := b.copied(nil)
	b.fault.set(nil)
	_ = b.db.Close()
	b.path = path
	b.open()
	for uid := range b.taken {
		h, err := b.db.Head(uid)
		b.no(err)
		if int(h.N) < b.kept[uid] {
			b.Fatalf("%q ends at %d of %d", uid, h.N, b.kept[uid])
		}
		b.taken[uid] = b.taken[uid][:h.N]
	}
	b.settled()
}

// backup makes a copy and reads it.
func (b *modelBench) backup() {
	b.Helper()
	b.files++
	path := filepath.Join(b.dir, fmt.Sprintf("%d.db", b.files))
	b.no(b.db.Backup(path))
	db, err := store.Open(path, quick(store.Options{}))
	b.no(err)
	b.whole(db)
	b.no(db.Close())
	b.no(os.Remove(path))
}

// look looks at a copy of the file as a kill would leave it, sound or with a damaged
// meta page.
func (b *modelBench) look() {
	b.Helper()
	bad := rapid.SampledFrom([]string{"", "newer", "older"}).Draw(b.T, "damage")
	if b.nothing() || rapid.IntRange(0, 2).Draw(b.T, "look") > 0 {
		return
	}
	path := b.copied(func(data []byte) {
		switch at := newestMeta(data); bad {
		case "newer":
			data[at+20] ^= 1
		case "older":
			data[16+pageSizeOf(data)+16-at+20] ^= 1
		}
	})
	r, err := store.Verify(path)
	b.no(err)
	if r.Sound != (bad == "") {
		b.Errorf("with its %q beginning damaged: sound %v, %v", bad, r.Sound, r.Faults)
	}
	walk := rapid.SampledFrom([]uint64{0, 1}).Draw(b.T, "walked at once")
	db, err := store.Open(path, quick(store.Options{}).WithWalkAtOnce(walk))
	b.no(err)
	if told := len(db.Warnings()) > 0; told != (bad != "") {
		b.Errorf("with its %q beginning damaged it warns %q", bad, db.Warnings())
	}
	// Of a transaction that was not of the tail alone one meta page knows.
	if bad != "newer" || b.db.TailRows() > 0 {
		b.whole(db)
	}
	b.no(db.Close())
	b.no(os.Remove(path))
}

// nothing reports whether nothing is kept yet: of a file that was just made only one
// meta page knows.
func (b *modelBench) nothing() bool {
	for _, kept := range b.kept {
		if kept > 0 {
			return false
		}
	}
	return true
}

// whole fails unless a database has all that was kept, in the same list of sessions
// when nothing waits.
func (b *modelBench) whole(db *store.DB) {
	b.Helper()
	waits := false
	for uid, lines := range b.taken {
		waits = waits || b.kept[uid] < len(lines)
		events, err := db.Load(uid)
		if errors.Is(err, store.ErrNoSession) && b.kept[uid] == 0 {
			continue
		}
		b.no(err)
		if len(events) < b.kept[uid] {
			b.Errorf("%q has %d events of %d", uid, len(events), b.kept[uid])
		}
		for i, e := range events {
			if !storetest.Is(e, lines[i]) {
				b.Fatalf("event %d of %q is another", i+1, uid)
			}
		}
	}
	mine, err := b.db.Headings(0)
	b.no(err)
	theirs, err := db.Headings(0)
	b.no(err)
	if !waits && !reflect.DeepEqual(mine, theirs) {
		b.Errorf("the list of sessions is %v, not %v", theirs, mine)
	}
}
