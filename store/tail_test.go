package store_test

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	bolt "go.etcd.io/bbolt"

	"borewright/engine/record"
	"borewright/store"
	"borewright/store/storetest"
)

// keepAll keeps events one by one, each of which must be kept, and adds them to
// what was kept.
func keepAll(t *testing.T, db *store.DB, kept truth, uid string, events ...record.Event) {
	t.Helper()
	for _, e := range events {
		keepAtOnce(t, db, kept, uid, e)
	}
}

// keepAtOnce is keepAll of events that are one change.
func keepAtOnce(t *testing.T, db *store.DB, kept truth, uid string, events ...record.Event) {
	t.Helper()
	sealed, err := db.Keep(uid, events...)
	if err != nil {
		t.Fatal(err)
	}
	if err := db.Wait(t.Context()); err != nil {
		t.Fatal(err)
	}
	for _, s := range sealed {
		kept[uid] = append(kept[uid], s.Bytes)
	}
}

// long is a change that goes into the buckets at once.
var long = readingsFrom(0, store.MostInTail/150)

// readingsFrom returns so many readings from the i-th on.
func readingsFrom(i, n int) []record.Event {
	var out []record.Event
	for at := range n {
		out = append(out, storetest.Reading(i+at))
	}
	return out
}

// killedCopy writes the file as a kill would leave it to another path.
func killedCopy(t *testing.T, path string) string {
	t.Helper()
	return write(t, filepath.Join(t.TempDir(), "killed.db"), read(t, path))
}

// allThere fails unless everything that was kept is in the database.
func allThere(t *testing.T, db *store.DB, kept truth) {
	t.Helper()
	for uid, lines := range kept {
		events, err := db.Load(uid)
		if err != nil {
			t.Errorf("%q: %v", uid, err)
		}
		if len(events) != len(lines) {
			t.Errorf("%q has %d events of %d", uid, len(events), len(lines))
			continue
		}
		intact(t, events, lines)
	}
}

// TestLostMetaBehindATail damages the newest meta page of a killed file whatever
// made the buckets that it leads to: what lies in the tail behind them is there.
func TestLostMetaBehindATail(t *testing.T) {
	for name, begin := range map[string]func(t *testing.T, path string, kept truth) *store.DB{
		"a new file": func(t *testing.T, path string, kept truth) *store.DB {
			t.Helper()
			db := open(t, path, store.Options{})
			keepAll(t, db, kept, "a", storetest.Begin("a")...)
			return db
		},
		"a file of the format before": func(t *testing.T, path string, kept truth) *store.DB {
			t.Helper()
			write(t, path, read(t, "../testdata/databases/v1.db"))
			db := open(t, path, store.Options{})
			keepAll(t, db, kept, "a", storetest.Begin("a")...)
			return db
		},
		"behind one too long": func(t *testing.T, path string, kept truth) *store.DB {
			t.Helper()
			db := open(t, path, store.Options{})
			keepAll(t, db, kept, "a", storetest.Begin("a")...)
			keepAtOnce(t, db, kept, "a", long...)
			return db
		},
		"behind a list made again": func(t *testing.T, path string, kept truth) *store.DB {
			t.Helper()
			db := open(t, path, store.Options{})
			keepAll(t, db, kept, "a", storetest.Begin("a")...)
			if err := db.Rebuild(); err != nil {
				t.Fatal(err)
			}
			return db
		},
		"opened again": func(t *testing.T, path string, kept truth) *store.DB {
			t.Helper()
			db := open(t, path, store.Options{})
			keepAll(t, db, kept, "a", storetest.Begin("a")...)
			keepAtOnce(t, db, kept, "a", long...)
			if err := db.Close(); err != nil {
				t.Fatal(err)
			}
			return open(t, path, store.Options{})
		},
	} {
		t.Run(name, func(t *testing.T) {
			path, kept := filepath.Join(fastDir(t), "x.db"), truth{}
			db := begin(t, path, kept)
			keepAll(t, db, kept, "a", readingsFrom(0, 5)...)
			if db.TailRows() == 0 {
				t.Fatal("nothing is in the tail")
			}
			copied := killedCopy(t, path)
			good := read(t, copied)
			write(t, copied, flipped(good, newestMeta(good)+20, 1))
			allThere(t, open(t, copied, store.Options{}), kept)
		})
	}
}

// TestBackupOfALostMeta: the copy has what lies in both rooms.
func TestBackupOfALostMeta(t *testing.T) {
	path, kept := temp(t), truth{}
	db := open(t, path, store.Options{})
	keepAll(t, db, kept, "a", append(storetest.Begin("a"), readingsFrom(0, 40)...)...)
	copied := killedCopy(t, path)
	good := read(t, copied)
	write(t, copied, flipped(good, newestMeta(good)+20, 1))
	db = open(t, copied, store.Options{})
	allThere(t, db, kept)
	to := filepath.Join(t.TempDir(), "backup.db")
	if err := db.Backup(to); err != nil {
		t.Fatal(err)
	}
	backed := open(t, to, store.Options{})
	allThere(t, backed, kept)
	if w := backed.Warnings(); len(w) != 0 {
		t.Errorf("the backup warns %q", w)
	}
}

// TestLostMetaGoesOn loses the newest meta page over and over: rounds that were
// lost are not taken for those that come after.
func TestLostMetaGoesOn(t *testing.T) {
	path, kept := filepath.Join(fastDir(t), "x.db"), truth{}
	for life := range 12 {
		db := open(t, path, store.Options{})
		if life == 0 {
			keepAll(t, db, kept, "a", storetest.Begin("a")...)
		}
		allThere(t, db, kept)
		for i := range 1 + life%4 {
			keepAll(t, db, kept, "a", readingsFrom(life, 2+12*(i%2))...)
			if life%3 == 1 {
				keepAtOnce(t, db, kept, "a", long...)
			}
		}
		keepAll(t, db, kept, "a", readingsFrom(life, 1+life%3)...)
		good := read(t, path)
		if err := db.Close(); err != nil {
			t.Fatal(err)
		}
		write(t, path, flipped(good, newestMeta(good)+20, 1))
		if t.Failed() {
			t.Fatalf("in life %d", life)
		}
	}
}

// TestCopiedOverWithMoreInItsTail copies a file over the open one that is a copy of
// it with more in it: nothing of it is written over, by keeping or closing.
func TestCopiedOverWithMoreInItsTail(t *testing.T) {
	for _, keep := range []bool{false, true} {
		path, kept := temp(t), truth{}
		build(t, path, 1, 3)
		db := open(t, path, store.Options{})
		keepAll(t, db, kept, "s1", readingsFrom(9, 3)...)
		copied := killedCopy(t, path)
		other := open(t, copied, store.Options{})
		keepAll(t, other, kept, "s1", storetest.Reading(70))
		theirs := read(t, copied)
		over(t, path, theirs)
		if keep {
			if err := keepAndWait(t, db, "s1"); !errors.Is(err, store.ErrGone) {
				t.Errorf("keep: %v", err)
			}
		}
		_ = db.Close() // what waits is not kept
		if !bytes.Equal(read(t, path), theirs) {
			t.Error("the other file was written")
		}
	}
}

// TestDamagedEndStays: a damaged reading at the end of the tail is not written over
// at once, so that salvage can read what is left of it.
func TestDamagedEndStays(t *testing.T) {
	path, kept := temp(t), truth{}
	db := open(t, path, store.Options{})
	keepAll(t, db, kept, "a", append(storetest.Begin("a"), readingsFrom(0, 5)...)...)
	copied := killedCopy(t, path)
	last := kept["a"][len(kept["a"])-1]
	data := read(t, copied)
	at := bytes.LastIndex(data, last)
	write(t, copied, flipped(data, at+len(last)/2, 1))
	db = open(t, copied, store.Options{})
	if w := db.Warnings(); len(w) != 1 || !strings.HasPrefix(w[0], store.TornText) {
		t.Errorf("warnings %q", w)
	}
	if err := keepAndWait(t, db, "a"); err != nil {
		t.Fatal(err)
	}
	if n := count(t, db, "a"); n != len(kept["a"]) {
		t.Errorf("%d events", n)
	}
	if is := read(t, copied); !bytes.Equal(is[at+len(last)/2+1:at+len(last)], last[len(last)/2+1:]) {
		t.Error("what was left of the last reading is written over")
	}
}

// newestTx returns the number of the last transaction of a file.
func newestTx(t *testing.T, path string) byte {
	t.Helper()
	data := read(t, path)
	return data[newestMeta(data)+48]
}

// TestTransactionBehindAFailedOne: what a transaction left that failed late may not
// be on the disk, so the next reading is kept in one more, and not in the tail.
func TestTransactionBehindAFailedOne(t *testing.T) {
	path, kept := temp(t), truth{}
	var x fault
	db := open(t, path, store.Options{}.WithFault(x.ask))
	keepAll(t, db, kept, "a", append(storetest.Begin("a"), readingsFrom(0, 3)...)...)
	before := newestTx(t, path)
	x.set(func(stage string) error {
		if stage == "written" && newestTx(t, path) != before {
			return errors.New("the disk is sick")
		}
		return nil
	})
	for i := 0; keepAndWait(t, db, "a") == nil; i++ {
		if i > 100 {
			t.Fatal("the tail is never full")
		}
	}
	x.set(nil)
	failed := newestTx(t, path)
	db.Retry()
	if err := db.Wait(t.Context()); err != nil {
		t.Fatal(err)
	}
	if newestTx(t, path) == failed {
		t.Error("it is in the tail alone")
	}
}

// TestVerifyAKilledFile: a file with a tail is sound, and one that has lost the
// number of its round is not.
func TestVerifyAKilledFile(t *testing.T) {
	path, kept := temp(t), truth{}
	db := open(t, path, store.Options{})
	keepAll(t, db, kept, "a", append(storetest.Begin("a"), readingsFrom(0, 30)...)...)
	copied := killedCopy(t, path)
	if r := verified(t, copied); !r.Sound || r.Events != int64(len(kept["a"])) {
		t.Errorf("%d events, %v", r.Events, r.Faults)
	}
	tamper(t, copied, deletesRound)
	if r := verified(t, copied); r.Sound {
		t.Error("it is sound without its round")
	}
	if _, err := store.Open(copied, quick(store.Options{})); !errors.Is(err, store.ErrDamaged) {
		t.Errorf("without its round: %v", err)
	}
}

// TestBackupWithATail: a backup is read with its tail, backed up again with it, and
// not written.
func TestBackupWithATail(t *testing.T) {
	path, kept := temp(t), truth{}
	db := open(t, path, store.Options{})
	keepAll(t, db, kept, "a", append(storetest.Begin("a"), readingsFrom(0, 9)...)...)
	to := filepath.Join(t.TempDir(), "backup.db")
	if err := db.Backup(to); err != nil {
		t.Fatal(err)
	}
	before := read(t, to)
	backed, err := store.Open(to, quick(store.Options{}))
	if err != nil {
		t.Fatal(err)
	}
	allThere(t, backed, kept)
	again := filepath.Join(t.TempDir(), "again.db")
	if err := backed.Backup(again); err != nil {
		t.Fatal(err)
	}
	allThere(t, open(t, again, store.Options{}), kept)
	if err := backed.Close(); err != nil {
		t.Error(err)
	}
	if !bytes.Equal(read(t, to), before) {
		t.Error("the backup was written")
	}
}

// deletesRound takes the number of the round out.
func deletesRound(tx *bolt.Tx) error { return tx.Bucket([]byte("meta")).Delete([]byte("round")) }

// TestReadWhileItFolds reads while readings go into the tail and from there into the
// buckets: what was kept when a reading began is there, with no gap.
func TestReadWhileItFolds(t *testing.T) {
	path, kept := filepath.Join(fastDir(t), "x.db"), truth{}
	db := open(t, path, store.Options{})
	keepAll(t, db, kept, "a", storetest.Begin("a")...)
	var done atomic.Bool
	var last atomic.Int64
	var readers sync.WaitGroup
	for range 3 {
		readers.Go(func() {
			for !done.Load() {
				least := last.Load()
				events, err := db.Load("a")
				if err != nil || int64(len(events)) < least {
					t.Errorf("%d events of %d, %v", len(events), least, err)
				}
				if h, err := db.Headings(1); err != nil || len(h) != 1 || h[0].Head.N < least {
					t.Errorf("headings %v, %v", h, err)
				}
			}
		})
	}
	for i := range 150 {
		keepAll(t, db, kept, "a", storetest.Reading(i))
		last.Store(int64(len(kept["a"])))
	}
	done.Store(true)
	readers.Wait()
}

// TestBackupWhileItFolds makes a backup so slowly that both rooms are written over
// meanwhile: it is what was kept when it began.
func TestBackupWhileItFolds(t *testing.T) {
	path, kept := filepath.Join(fastDir(t), "x.db"), truth{}
	db := open(t, path, store.Options{})
	keepAll(t, db, kept, "a", storetest.Begin("a")...)
	for range 3 * pageSize >> 10 { // so that the file need not be mapped anew, which waits for the backup
		keepAtOnce(t, db, kept, "a", readingsFrom(0, 100)...)
	}
	keepAll(t, db, kept, "a", readingsFrom(0, 9)...)
	begun := truth{"a": slices.Clone(kept["a"])}
	more := 0
	to, err := db.BackupOfDay(storetest.Start, 3, func() {
		if more < 90 {
			more++
			keepAll(t, db, kept, "a", storetest.Reading(more))
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	if r := verified(t, to); !r.Sound || more < 90 {
		t.Errorf("the backup after %d readings more: %v", more, r.Faults)
	}
	allThere(t, open(t, to, store.Options{}), begun)
	allThere(t, db, kept)
}

// TestUnwalkedWithATail reads a large killed file and closes it before its pages are
// walked: it is left as it is, with what was kept.
func TestUnwalkedWithATail(t *testing.T) {
	path, kept := temp(t), truth{}
	db := open(t, path, store.Options{})
	keepAll(t, db, kept, "a", append(storetest.Begin("a"), readingsFrom(0, 30)...)...)
	copied := killedCopy(t, path)
	before := read(t, copied)
	db, err := store.Open(copied, quick(store.Options{}).WithWalkAtOnce(1).WithRest(time.Minute))
	if err != nil {
		t.Fatal(err)
	}
	allThere(t, db, kept)
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(read(t, copied), before) {
		t.Error("it was written before its pages were walked")
	}
	db = open(t, copied, store.Options{}.WithWalkAtOnce(1))
	keepAll(t, db, kept, "a", readingsFrom(0, 30)...)
	allThere(t, db, kept)
}

// TestUpgradeThatFails: a file of the format before stays one until its first write
// is kept.
func TestUpgradeThatFails(t *testing.T) {
	for _, stage := range []string{"write", "written"} {
		path, kept := temp(t), truth{}
		write(t, path, read(t, "../testdata/databases/v1.db"))
		var x fault
		db := open(t, path, store.Options{}.WithFault(x.ask))
		was, err := db.Headings(0)
		if err != nil {
			t.Fatal(err)
		}
		x.set(func(is string) error {
			if is == stage {
				return errors.New("the disk is sick")
			}
			return nil
		})
		sealed, err := db.Keep("a", storetest.Begin("a")...)
		if err != nil {
			t.Fatal(err)
		}
		if err := db.Wait(t.Context()); err == nil {
			t.Fatal("it is kept")
		}
		if headings, err := open(t, killedCopy(t, path), store.Options{}).Headings(0); err != nil || len(headings) < len(was) {
			t.Errorf("%s: %d sessions, %v", stage, len(headings), err)
		}
		x.set(nil)
		db.Retry()
		if err := db.Wait(t.Context()); err != nil {
			t.Fatal(err)
		}
		for _, s := range sealed {
			kept["a"] = append(kept["a"], s.Bytes)
		}
		keepAll(t, db, kept, "a", readingsFrom(0, 3)...)
		copied := killedCopy(t, path)
		if r := verified(t, copied); !r.Sound {
			t.Errorf("%s: %v", stage, r.Faults)
		}
		db = open(t, copied, store.Options{})
		allThere(t, db, kept)
		if headings, err := db.Headings(0); err != nil || len(headings) != len(was)+1 {
			t.Errorf("%s: %d sessions, %v", stage, len(headings), err)
		}
	}
}

// TestCutOffWrite: a frame that was written in part, or whole and not flushed, is no
// matter to what was kept, and is kept at the next attempt.
func TestCutOffWrite(t *testing.T) {
	for _, part := range []float64{0, 0.01, 0.1, 0.9, 1} {
		path, kept := filepath.Join(fastDir(t), "x.db"), truth{}
		var x fault
		db := open(t, path, store.Options{}.WithFault(x.ask))
		keepAll(t, db, kept, "a", append(storetest.Begin("a"), readingsFrom(0, 5)...)...)
		frame := db.NextFrame("a", storetest.Reading(5))
		frame = frame[:int(part*float64(len(frame)))]
		x.set(func(string) error {
			return errors.Join(errors.New("the disk is sick"), writeAt(path, frame, db.TailEnd()))
		})
		sealed, err := db.Keep("a", storetest.Reading(5))
		if err != nil {
			t.Fatal(err)
		}
		if err := db.Wait(t.Context()); err == nil {
			t.Fatal("it is kept")
		}
		allThere(t, db, truth{"a": append(slices.Clone(kept["a"]), sealed[0].Bytes)}) // one waits
		cut := open(t, killedCopy(t, path), store.Options{})
		if n := count(t, cut, "a"); n < len(kept["a"]) {
			t.Errorf("%g of a frame: %d events", part, n)
		}
		if torn := len(cut.Warnings()) > 0; torn != (part > 0.05 && part < 1) {
			t.Errorf("%g of a frame: it warns %q", part, cut.Warnings())
		}
		x.set(nil)
		db.Retry()
		if err := db.Wait(t.Context()); err != nil {
			t.Fatal(err)
		}
		kept["a"] = append(kept["a"], sealed[0].Bytes)
		keepAll(t, db, kept, "a", readingsFrom(6, 3)...)
		copied := killedCopy(t, path)
		if r := verified(t, copied); !r.Sound {
			t.Errorf("%g of a frame: %v", part, r.Faults)
		}
		allThere(t, open(t, copied, store.Options{}), kept)
	}
}

func writeAt(path string, data []byte, at int64) error {
	f, err := os.OpenFile(path, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	_, err = f.WriteAt(data, at)
	return errors.Join(err, f.Close())
}
