package store_test

import (
	"context"
	"fmt"
	"path/filepath"
	"runtime"
	"testing"

	"borewright/engine/record"
	"borewright/engine/record/recordtest"
	"borewright/store"
)

// BenchmarkLoad times the loading of a session from a database that is open, and
// says what of it is alive afterwards, for each event.
func BenchmarkLoad(b *testing.B) {
	for _, events := range []int{500, 100_000} {
		b.Run(fmt.Sprint(events), func(b *testing.B) { benchmarkLoad(b, events) })
	}
}

func benchmarkLoad(b *testing.B, n int) {
	b.Helper()
	path := filepath.Join(b.TempDir(), "bench.db")
	filled(b, path, n)
	db, err := store.Open(path, store.Options{})
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { _ = db.Close() })
	loaded := func() []record.Sealed {
		events, err := db.Load("many")
		if err != nil || len(events) != n {
			b.Fatalf("%d events are loaded of %d: %v", len(events), n, err)
		}
		return events
	}
	loaded()
	bytes, objects := alive()
	events := loaded()
	bytesThen, objectsThen := alive()
	runtime.KeepAlive(events)
	b.ReportAllocs()
	for b.Loop() {
		loaded()
	}
	b.ReportMetric((bytesThen-bytes)/float64(n), "live-B/event")
	b.ReportMetric((objectsThen-objects)/float64(n), "live-objects/event")
}

// alive returns how many bytes and objects are in use once the garbage is gone.
func alive() (bytes, objects float64) {
	runtime.GC()
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return float64(m.HeapAlloc), float64(m.HeapObjects)
}

// filled makes a database with a session of n events in it.
func filled(b *testing.B, path string, n int) {
	b.Helper()
	db, err := store.Open(path, store.Options{})
	if err != nil {
		b.Fatal(err)
	}
	if _, err := db.Keep("many", recordtest.Events(recordtest.Long("many", n))...); err != nil {
		b.Fatal(err)
	}
	if err := db.Wait(context.Background()); err != nil {
		b.Fatal(err)
	}
	if err := db.Close(); err != nil {
		b.Fatal(err)
	}
}
