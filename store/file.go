package store

import (
	"errors"
	"fmt"
	"os"
	"strconv"
	"sync"
	"sync/atomic"

	bolt "go.etcd.io/bbolt"
)

// formatNumber is the number of the file's format.
const formatNumber = 2

// indexNumber is the number of the form of headings, uids and recent. Raise it
// when record.Heading changes: a file with another number gets them anew.
const indexNumber = 1

// growth is by how many bytes a file beyond so many grows at once: room for some
// 200 readings, where the library's own step is 16 MiB. A step of 1 MiB left up to
// ten bytes a reading empty in a file of 100,000, one of 256 KiB two.
const growth = 1 << 16

// newPageSize is how many bytes the pages of a new file have; an older file keeps its
// own. One of 4 KiB has room for 13.7 readings and takes 13 or 14, so that a file of a
// million took 300.4 bytes a reading; with 8 KiB it takes 290.9, and with 16 KiB 287.9.
// But a session that goes on when others came after it leaves about a page empty: where
// all did, with 4 KiB a reading took 327 to 333 bytes, with 8 KiB 334 to 346, and with
// 16 KiB 413 to 430. A page is no smaller than the system's, which the system writes
// whole: each of the file's two beginnings is a page, and a cut in the writing of one
// must not reach the other.
var newPageSize = max(8<<10, os.Getpagesize())

// The buckets, and the keys of the first.
var (
	metaBucket     = []byte("meta")
	eventsBucket   = []byte("events")
	headingsBucket = []byte("headings")
	uidsBucket     = []byte("uids")
	recentBucket   = []byte("recent")
	formatKey      = []byte("format")
	indexKey       = []byte("index")
)

// file is the shelf of a DB.
type file struct {
	path  string
	hooks hooks
	warn  func(string)
	// ballast is the path of the reserve, empty when none is kept.
	ballast string
	index   *index
	// doubtful means that one of the file's two meta pages is bad: the last
	// transaction may be lost.
	doubtful bool
	// tail is what is kept and not in its buckets, nil until the file is open. Only
	// the writer changes it, or before it who reads the index late.
	tail atomic.Pointer[tail]
	// torn means that the end of the tail is damaged, or the power was cut in it.
	torn bool
	// backup means that the file is a backup, which is only read.
	backup bool
	// oldForm means that its headings are of an older form: events make them anew
	// at each look.
	oldForm bool
	// unindexed means that the index is still to be read, by who holds indexing.
	unindexed atomic.Bool
	indexing  sync.Mutex
	// leaving means that the file is about to be closed.
	leaving atomic.Bool
	// stale means that the index may not be what the file holds.
	stale bool
	// unwalked is the meta page of a large file whose pages are still to be
	// walked before anything is written, else nil.
	unwalked atomic.Pointer[meta]
	// through counts the pages that were walked.
	through atomic.Int64
	// last is what this process found in the file or wrote there last, nil until
	// the file is open. Only the writer changes it, or before it who reads the index
	// late, and has unsure set from before a commit until it is known whether the
	// file holds that commit.
	last   atomic.Pointer[own]
	unsure atomic.Bool

	copying sync.Mutex
	dating  sync.Mutex // one dated backup is made at a time

	// handle guards bolt, data and info: held for reading by every transaction, for
	// writing while the file is opened or closed.
	handle sync.RWMutex
	bolt   *bolt.DB
	data   *os.File // bbolt's own, for reading what it maps
	info   os.FileInfo
	closed bool
	// dead is set once the file is found damaged: nothing reads or writes it again.
	// jammed is set with it after a panic inside bbolt, which can hold a lock.
	dead, jammed atomic.Bool
}

// open opens the existing file and checks what can be checked at once.
func (f *file) open() error {
	l, err := lookTwice(f.path)
	if err != nil {
		return f.explain(err)
	}
	f.doubtful = l.doubtful
	f.handle.Lock()
	defer f.handle.Unlock()
	err = f.run(func() error { return f.openBolt(false) })
	if isAny(err, ErrReadOnly, ErrBusy) && f.openReading() {
		return nil
	}
	if err != nil {
		return err
	}
	if err := f.checkLocked(); err != nil {
		return errors.Join(err, f.closeBolt())
	}
	if !f.backup {
		return nil
	}
	if err := f.closeBolt(); err != nil {
		return err
	}
	return f.run(func() error { return f.openBolt(false) })
}

// lookTwice looks again when the first look fails: another window may have
// been writing under it.
func lookTwice(path string) (looked, error) {
	l, err := look(path)
	if errors.Is(err, ErrDamaged) {
		return look(path)
	}
	return l, err
}

// openBolt opens the file with bbolt. An empty one is made a database only when
// it is fresh; one that is not there is never made. Call it with handle, in run.
func (f *file) openBolt(fresh bool) error {
	var data *os.File
	var info os.FileInfo
	o := &bolt.Options{
		ReadOnly: f.backup,
		PageSize: newPageSize, // of a fresh file; any other says its own
		Timeout:  f.hooks.lockWait,
		MaxSize:  f.hooks.maxSize,
		OpenFile: func(name string, flag int, mode os.FileMode) (*os.File, error) {
			file, err := f.hooks.openFile(name, flag&^os.O_CREATE, mode)
			if err != nil {
				return nil, err
			}
			if info, err = file.Stat(); err == nil && info.Size() == 0 && !fresh {
				err = &FileError{Path: f.path, Kind: ErrEmptyFile}
			}
			if err != nil {
				return nil, errors.Join(err, file.Close())
			}
			data = file
			return file, nil
		},
	}
	db, err := bolt.Open(f.path, 0o600, o)
	if err != nil {
		return err
	}
	db.AllocSize = growth
	f.bolt, f.data, f.info = db, data, info
	return nil
}

// checkLocked checks the file once nobody else can write it: the look again,
// its pages and its format. Call it with handle.
func (f *file) checkLocked() error {
	info, err := f.data.Stat()
	if err != nil {
		return f.explain(err)
	}
	l, err := lookAt(f.data, info.Size())
	switch {
	case err != nil:
	case l.pages > f.hooks.walkAtOnce:
		f.unwalked.Store(&l.meta)
	default:
		err = checkPages(f.data, l.meta, never)
	}
	if err != nil {
		return &FileError{Path: f.path, Kind: ErrDamaged, Cause: err}
	}
	if err := f.run(func() error { return f.reading(f.checkFormat) }); err != nil {
		return err
	}
	if err := f.run(func() error {
		return f.reading(func(tx *readTx) error { f.backup = f.isBackup(tx); return nil })
	}); err != nil {
		return err
	}
	f.note(l.meta, f.markOn(l.meta))
	return f.run(func() error { return f.readTailOf(l.meta, f.doubtful) })
}

func (f *file) checkFormat(tx *readTx) error {
	if !tx.has(metaBucket) || tx.get(metaBucket, formatKey) == nil {
		return &FileError{Path: f.path, Kind: ErrNotOurs}
	}
	text, err := unframe(formatKey, tx.get(metaBucket, formatKey))
	if err != nil {
		return &FileError{Path: f.path, Kind: ErrDamaged, Cause: fmt.Errorf("its format number: %w", err)}
	}
	n, err := strconv.Atoi(string(text))
	switch {
	case err != nil || n < 1:
		return &FileError{Path: f.path, Kind: ErrDamaged, Cause: fmt.Errorf("its format number is %q", text)}
	case n > formatNumber:
		return &FileError{Path: f.path, Kind: ErrNewer}
	}
	for _, name := range [][]byte{eventsBucket, headingsBucket, uidsBucket, recentBucket} {
		if !tx.has(name) {
			return &FileError{Path: f.path, Kind: ErrDamaged, Cause: fmt.Errorf("its %s are missing", name)}
		}
	}
	return nil
}

// ready implements shelf: it reads the index of a large file and walks its pages.
func (f *file) ready(stop func() bool) error {
	if stop() {
		return errStopped
	}
	if err := f.indexed(); err != nil {
		return err
	}
	return f.walk(stop)
}

// progress implements shelf.
func (f *file) progress() int64 { return f.through.Load() }

// walk walks the pages of a large file, once. Damage ends all work on it.
func (f *file) walk(stop func() bool) error {
	m := f.unwalked.Load()
	if m == nil {
		return nil
	}
	if err := f.hooks.fault("walk"); err != nil {
		return f.explain(err)
	}
	err := f.with(func() error {
		err := checkPages(f.data, *m, func() bool { f.through.Add(1); return stop() })
		if err == nil || errors.Is(err, errStopped) {
			return err
		}
		if err = f.damaged(err); errors.Is(err, ErrDamaged) {
			f.warn(err.Error())
		}
		return err
	})
	if err == nil {
		f.unwalked.Store(nil)
	}
	return err
}

// damaged ends all work on the file for what is wrong with a page, and returns it
// as an error of this package. That bbolt closed the file meanwhile is no damage.
func (f *file) damaged(cause error) error {
	if errors.Is(cause, os.ErrClosed) {
		return errHandle
	}
	f.dead.Store(true)
	return &FileError{Path: f.path, Kind: ErrDamaged, Cause: cause}
}

// with calls use, which is about bbolt alone, with the handle held. A handle
// that is of no use refuses before use begins anything: the file is opened
// again, once.
func (f *file) with(use func() error) error {
	tried, err := f.once(use)
	if !errors.Is(err, errHandle) {
		return err
	}
	if err := f.reopen(tried); err != nil {
		return err
	}
	_, err = f.once(use)
	return err
}

// once calls use with the handle held and returns the handle.
func (f *file) once(use func() error) (*bolt.DB, error) {
	f.handle.RLock()
	defer f.handle.RUnlock()
	switch {
	case f.closed:
		return nil, ErrClosed
	case f.bolt == nil:
		return nil, f.explain(errHandle)
	}
	return f.bolt, f.run(use)
}

// run guards a call of bbolt. The first panic ends all work on the file.
func (f *file) run(use func() error) error {
	if f.dead.Load() {
		return &FileError{Path: f.path, Kind: ErrDamaged, Cause: errDead}
	}
	return f.guarded(use)
}

func (f *file) guarded(use func() error) error {
	err := guard(use)
	var p *panicError
	if errors.As(err, &p) {
		f.dead.Store(true)
		f.jammed.Store(true)
	}
	return f.explain(err)
}

var errDead = errors.New("it is not touched again: close this program and look at a copy of the file")

func (f *file) explain(err error) error { return explain(f.path, err) }

// reopen opens the file anew after bbolt lost its mapping, which makes its
// handle useless, unless somebody did so already.
func (f *file) reopen(tried *bolt.DB) error {
	f.handle.Lock()
	defer f.handle.Unlock()
	switch {
	case f.closed:
		return ErrClosed
	case f.bolt != tried:
		return nil
	}
	if err := f.present(); err != nil {
		return f.explain(err)
	}
	if err := f.closeBolt(); err != nil {
		return err
	}
	return f.run(func() error { return f.openBolt(false) })
}

// closeBolt closes bbolt's handle. After a panic it leaves everything as it is:
// closing could wait for ever for a lock. Call it with handle.
func (f *file) closeBolt() error {
	if f.bolt == nil || f.jammed.Load() {
		return nil
	}
	err := f.guarded(f.bolt.Close)
	f.bolt = nil
	return err
}

func (f *file) close() error {
	f.leaving.Store(true)
	f.handle.Lock()
	defer f.handle.Unlock()
	f.closed = true
	return f.closeBolt()
}
