package store

import (
	"errors"
	"os"
	"time"

	bolt "go.etcd.io/bbolt"

	"borewright/engine/record"
)

// TornText is for a tail that was cut off.
const TornText = tornText

// The tests stand outside the package, because the suite imports it. These let
// them stand between a store and the system.

// WithFault returns the options with a fault hook.
func (o Options) WithFault(f func(stage string) error) Options { o.hooks.fault = f; return o }

// WithSpace returns the options with so many bytes free, as the store sees it.
func (o Options) WithSpace(free uint64) Options {
	o.hooks.free = func(string) (uint64, error) { return free, nil }
	return o
}

// WithNetwork returns the options with the path on that file system.
func (o Options) WithNetwork(name string) Options {
	o.hooks.network = func(string) (string, error) { return name, nil }
	return o
}

// WithMaxSize returns the options with a file that cannot grow beyond.
func (o Options) WithMaxSize(bytes int) Options { o.hooks.maxSize = bytes; return o }

// WithWalkAtOnce returns the options with so many pages walked before a file is
// open.
func (o Options) WithWalkAtOnce(pages uint64) Options { o.hooks.walkAtOnce = pages; return o }

// WithWaits returns the options with other waits for the lock and at Close.
func (o Options) WithWaits(lock, closing time.Duration) Options {
	o.hooks.lockWait, o.hooks.closeWait = lock, closing
	return o
}

// WithRest returns the options with another rest of the writer.
func (o Options) WithRest(rest time.Duration) Options { o.hooks.rest = rest; return o }

// WithOpenFile returns the options with another way to open files.
func (o Options) WithOpenFile(f func(string, int, os.FileMode) (*os.File, error)) Options {
	o.hooks.openFile = f
	return o
}

// NewPageSize is how many bytes the pages of a new file have.
var NewPageSize = newPageSize

// MakeWithPages makes an empty database with pages of so many bytes.
func MakeWithPages(path string, size int) error {
	db, err := bolt.Open(path, 0o600, &bolt.Options{PageSize: size})
	if err != nil {
		return err
	}
	return errors.Join(db.Update(createBuckets), db.Close())
}

// Drawer is what a Mem leaves when it is closed.
type Drawer struct{ d drawer }

// Open opens a store on what the drawer holds.
func (d *Drawer) Open(o Options) *Mem { return memory(&d.d, o) }

// Frame returns the value that is stored under the key.
func Frame(key, payload []byte) []byte { return frame(key, payload) }

// LoseMapping leaves the store with a handle that bbolt cannot use any more.
func (d *DB) LoseMapping() error { return d.file.bolt.Close() }

// WarnRebuilt is the warning of a list that was made again.
const WarnRebuilt = warnRebuilt

// EventKey is the key of an event.
func EventKey(id uint64, n int64) []byte { return eventKey(id, n) }

// Number is an 8-byte key or payload.
func Number(n uint64) []byte { return number(n) }

// CleanName returns what of a name can name a file.
func CleanName(name string) string { return cleanName(name) }

// ForgetStreams makes the store stumble over what it has waiting.
func (m *Mem) ForgetStreams() {
	m.mu.Lock()
	defer m.mu.Unlock()
	clear(m.streams)
}

// Indexed reports whether the index is read.
func (d *DB) Indexed() bool { return !d.file.unindexed.Load() }

// TailRows returns how many rows are kept and not in their buckets.
func (d *DB) TailRows() int { return len(d.file.tailNow().rows) }

// TailEnd returns where in the file the next frame goes.
func (d *DB) TailEnd() int64 { return d.file.tailNow().at() }

// MostInTail is the longest change that is kept in the tail.
const MostInTail = mostInTail

// NextFrame returns the frame that keeps an event of a session next.
func (d *DB) NextFrame(uid string, e record.Event) []byte {
	h, err := d.file.heading(uid)
	if err != nil {
		panic(err)
	}
	s, err := record.Seal(e, h.Head)
	if err != nil {
		panic(err)
	}
	rows, err := d.file.index.draft().rows([]*job{{uid: uid, heading: h.Apply(s), sealed: []record.Sealed{s}}})
	if err != nil {
		panic(err)
	}
	return d.file.tailNow().frame(rows)
}
