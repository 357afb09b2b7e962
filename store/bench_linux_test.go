package store_test

import (
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	bolt "go.etcd.io/bbolt"
	"golang.org/x/sys/unix"

	"borewright/engine/record/recordtest"
	"borewright/store"
	"borewright/store/storetest"
)

// BenchmarkKept times from the call that Enter makes to the word that the
// reading is kept, in turns with a bare append and fdatasync of the same bytes
// to a file beside the database. It says what a reading takes of the file.
func BenchmarkKept(b *testing.B) {
	sizes := []int{1000, 100_000, 1_000_000}
	if testing.Short() {
		sizes = sizes[:1]
	}
	for _, events := range sizes {
		b.Run(fmt.Sprint(events), func(b *testing.B) { benchmarkKept(b, events) })
	}
}

func benchmarkKept(b *testing.B, events int) {
	b.Helper()
	b.ReportMetric(0, "ns/op")
	k := newKeeper(b, events)
	var took [3][]float64
	var overBare, overBolt []float64
	for range rounds(15, 5) {
		var now [3][]float64
		for i, keep := range []func(){k.keep, k.append, k.bolt} {
			for range 60 {
				start := time.Now()
				keep()
				now[i] = append(now[i], float64(time.Since(start).Microseconds()))
			}
			took[i] = append(took[i], now[i]...)
		}
		overBare = append(overBare, middle(now[0])/middle(now[1]))
		overBolt = append(overBolt, middle(now[0])/middle(now[2]))
	}
	for i, name := range []string{"kept", "bare", "bolt"} {
		b.ReportMetric(middle(took[i]), name+"-p50-us")
	}
	b.ReportMetric(middle(overBare), "p50-x")
	b.ReportMetric(middle(overBolt), "bolt-x")
}

// keeper keeps one reading after another in three ways, each until it is safe.
type keeper struct {
	b     *testing.B
	db    *store.DB
	kept  chan store.Outcome
	bytes []byte // of the last reading kept
	raw   *os.File
	plain *bolt.DB
	n     uint64
}

// newKeeper makes a store of so many events, an empty file and a bare database.
func newKeeper(b *testing.B, events int) *keeper {
	b.Helper()
	dir := b.TempDir()
	k := &keeper{b: b, kept: make(chan store.Outcome, 1)}
	loading := true
	var err error
	k.db, err = store.Open(filepath.Join(dir, "bench.db"), store.Options{Notify: func(o store.Outcome) {
		if !loading {
			k.kept <- o
		}
	}})
	k.must(err)
	fillMany(b, k.db, events)
	loading = false
	info, err := os.Stat(k.db.Path())
	k.must(err)
	b.ReportMetric(float64(info.Size())/float64(events), "B/event")
	k.raw, err = os.OpenFile(filepath.Join(dir, "raw"), os.O_CREATE|os.O_WRONLY|os.O_APPEND, 0o600)
	k.must(err)
	k.plain, err = bolt.Open(filepath.Join(dir, "plain.db"), 0o600, nil)
	k.must(err)
	b.Cleanup(func() { k.must(errors.Join(k.db.Close(), k.raw.Close(), k.plain.Close())) })
	return k
}

func (k *keeper) must(err error) {
	k.b.Helper()
	if err != nil {
		k.b.Fatal(err)
	}
}

// keep is what Enter does, until the store says that it is kept.
func (k *keeper) keep() {
	sealed, err := k.db.Keep("many", storetest.Reading(int(k.n)))
	k.must(err)
	o := <-k.kept
	k.must(o.Err)
	k.bytes = sealed[0].Bytes
	k.n++
}

// append is the floor of the disk: the same bytes at the end of a file.
func (k *keeper) append() {
	_, err := k.raw.Write(k.bytes)
	k.must(errors.Join(err, unix.Fdatasync(int(k.raw.Fd()))))
}

// bolt is the floor of the database: the same bytes in a bucket.
func (k *keeper) bolt() {
	k.n++
	k.must(k.plain.Update(func(tx *bolt.Tx) error {
		bucket, err := tx.CreateBucketIfNotExists([]byte("events"))
		if err != nil {
			return err
		}
		return bucket.Put(binary.BigEndian.AppendUint64(nil, k.n), k.bytes)
	}))
}

// rounds is how often something is timed: fewer times when -short is given.
func rounds(full, short int) int {
	if testing.Short() {
		return short
	}
	return full
}

func middle(xs []float64) float64 {
	return slices.Sorted(slices.Values(xs))[len(xs)/2]
}

// fillMany keeps a session of so many events, each in a transaction of its own
// as far as a thousand, then many at once.
func fillMany(b *testing.B, db *store.DB, n int) {
	b.Helper()
	events := recordtest.Events(recordtest.Long("many", n))
	for i := 0; i < n; {
		next := events[i : i+1]
		if i >= 1000 {
			next = events[i:min(i+1000, n)]
		}
		if _, err := db.Keep("many", next...); err != nil {
			b.Fatal(err)
		}
		if err := db.Wait(context.Background()); err != nil {
			b.Fatal(err)
		}
		i += len(next)
	}
}
