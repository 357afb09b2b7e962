package store_test

import (
	"os"
	"path/filepath"
	"sync/atomic"
	"testing"
	"time"

	"borewright/store"
	"borewright/store/storetest"
)

// fault is a fault hook that can be exchanged while a store is open.
type fault struct {
	f atomic.Pointer[func(string) error]
}

func (x *fault) set(f func(string) error) {
	if f == nil {
		x.f.Store(nil)
		return
	}
	x.f.Store(&f)
}

func (x *fault) ask(stage string) error {
	if f := x.f.Load(); f != nil {
		return (*f)(stage)
	}
	return nil
}

func TestDB(t *testing.T) {
	storetest.Run(t, func(t *testing.T) storetest.Bench {
		t.Helper()
		path := filepath.Join(fastDir(t), "shop", "borewright.db")
		var x fault
		return storetest.Bench{
			Fault: x.set,
			Open: func(t *testing.T, notify func(store.Outcome)) storetest.Store {
				t.Helper()
				db, err := store.Open(path, store.Options{Notify: notify}.WithFault(x.ask))
				if err != nil {
					t.Fatal(err)
				}
				return db
			},
		}
	})
}

func TestMemory(t *testing.T) {
	storetest.Run(t, func(*testing.T) storetest.Bench {
		var x fault
		var d store.Drawer
		return storetest.Bench{
			Fault: x.set,
			Open: func(_ *testing.T, notify func(store.Outcome)) storetest.Store {
				return d.Open(store.Options{Notify: notify}.WithFault(x.ask))
			},
		}
	})
}

// quick are waits for tests in which a file may be opened twice.
func quick(o store.Options) store.Options { return o.WithWaits(10*time.Millisecond, 5*time.Second) }

// fastDir returns a new folder whose disk is memory, where there is one, for
// tests of many commits that are not about the disk.
func fastDir(t *testing.T) string {
	t.Helper()
	dir, err := os.MkdirTemp("/dev/shm", "store-test-")
	if err != nil {
		return t.TempDir()
	}
	t.Cleanup(func() {
		if err := os.RemoveAll(dir); err != nil {
			t.Error(err)
		}
	})
	return dir
}
