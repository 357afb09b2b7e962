package store_test

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"borewright/engine/record"
	"borewright/store"
	"borewright/store/storetest"
)

// log collects outcomes.
type log struct {
	mu  sync.Mutex
	all []store.Outcome
}

func (l *log) add(o store.Outcome) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.all = append(l.all, o)
}

func (l *log) last(t *testing.T) store.Outcome {
	t.Helper()
	l.mu.Lock()
	defer l.mu.Unlock()
	if len(l.all) == 0 {
		t.Fatal("nothing was reported")
	}
	return l.all[len(l.all)-1]
}

// keepAndWait keeps one reading and returns what became of it.
func keepAndWait(t *testing.T, db *store.DB, uid string) error {
	t.Helper()
	if _, err := db.Keep(uid, storetest.Reading(1)); err != nil {
		t.Fatal(err)
	}
	return db.Wait(t.Context())
}

func count(t *testing.T, db *store.DB, uid string) int {
	t.Helper()
	return len(load(t, db, uid))
}

func load(t *testing.T, db *store.DB, uid string) []record.Sealed {
	t.Helper()
	events, err := db.Load(uid)
	if err != nil {
		t.Fatal(err)
	}
	return events
}

// TestGone: what is written to a file that nothing leads to is lost, so it is
// not called kept.
func TestGone(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("an open file cannot be moved or deleted here")
	}
	path := temp(t)
	build(t, path, 1, 3)
	db := open(t, path, store.Options{})
	if err := os.Rename(path, path+".away"); err != nil {
		t.Fatal(err)
	}
	if err := keepAndWait(t, db, "s1"); !errors.Is(err, store.ErrGone) {
		t.Errorf("moved away: %v", err)
	}
	build(t, path, 1, 3)
	if err := keepAndWait(t, db, "s1"); !errors.Is(err, store.ErrGone) || db.Pending("s1") != 2 {
		t.Errorf("replaced: %v, %d pending", err, db.Pending("s1"))
	}
	if err := os.Rename(path+".away", path); err != nil {
		t.Fatal(err)
	}
	db.Retry()
	if err := db.Wait(t.Context()); err != nil {
		t.Errorf("put back: %v", err)
	}
	if n := count(t, db, "s1"); n != 8 {
		t.Errorf("%d events", n)
	}
}

// TestGoneWhileItCommits moves the file after the look before the commit.
func TestGoneWhileItCommits(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("an open file cannot be moved or deleted here")
	}
	path := temp(t)
	build(t, path, 1, 1)
	var x fault
	db := open(t, path, store.Options{}.WithFault(x.ask))
	x.set(func(stage string) error {
		if stage == "write" {
			return os.Rename(path, path+".away")
		}
		return nil
	})
	if err := keepAndWait(t, db, "s1"); !errors.Is(err, store.ErrGone) {
		t.Errorf("wait: %v", err)
	}
	x.set(nil)
	if err := os.Rename(path+".away", path); err != nil {
		t.Fatal(err)
	}
	db.Retry()
	if err := db.Wait(t.Context()); err != nil {
		t.Error(err)
	}
}

// TestFault cuts the file short under the open database: reading its memory
// map faults, which would end the process.
func TestFault(t *testing.T) {
	path := temp(t)
	build(t, path, 2, 60)
	var l log
	db := open(t, path, store.Options{Notify: l.add})
	if _, err := db.Head("s1"); err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(path, int64(2*pageSize)); err != nil {
		t.Skipf("an open file cannot be cut here: %v", err)
	}
	short := read(t, path)
	if _, err := db.Load("s1"); !errors.Is(err, store.ErrDamaged) {
		t.Fatalf("load: %v", err)
	}
	if err := keepAndWait(t, db, "s1"); !errors.Is(err, store.ErrDamaged) {
		t.Errorf("wait: %v", err)
	}
	if o := l.last(t); !errors.Is(o.Err, store.ErrDamaged) || o.First != 64 || db.Pending("s1") != 1 {
		t.Errorf("reported %+v, %d pending", o, db.Pending("s1"))
	}
	if _, err := db.Headings(5); !errors.Is(err, store.ErrDamaged) {
		t.Errorf("headings: %v", err)
	}
	if err := db.Close(); !errors.Is(err, store.ErrDamaged) {
		t.Errorf("close: %v", err)
	}
	if !bytes.Equal(read(t, path), short) {
		t.Error("the file was touched again")
	}
}

// TestFaultWithNothingToKeep: closing has nothing to complain of, and leaves
// the handle alone.
func TestFaultWithNothingToKeep(t *testing.T) {
	path := temp(t)
	build(t, path, 2, 60)
	db := open(t, path, store.Options{})
	if err := os.Truncate(path, int64(2*pageSize)); err != nil {
		t.Skipf("an open file cannot be cut here: %v", err)
	}
	if _, err := db.Load("s1"); !errors.Is(err, store.ErrDamaged) {
		t.Fatalf("load: %v", err)
	}
	if err := db.Close(); err != nil {
		t.Errorf("close: %v", err)
	}
	write(t, path+".copy", read(t, path))
	if _, err := store.Open(path+".copy", quick(store.Options{})); !errors.Is(err, store.ErrDamaged) {
		t.Errorf("open a copy: %v", err)
	}
}

// TestPanicInACommit: after a panic inside bbolt nothing is written any more.
func TestPanicInACommit(t *testing.T) {
	path := temp(t)
	build(t, path, 1, 3)
	var x fault
	db := open(t, path, store.Options{}.WithFault(x.ask))
	x.set(func(string) error { panic("page 7: assertion failed") })
	err := keepAndWait(t, db, "s1")
	if !errors.Is(err, store.ErrDamaged) || !strings.Contains(err.Error(), "page 7") {
		t.Errorf("wait: %v", err)
	}
	x.set(nil)
	db.Retry()
	if err := db.Wait(t.Context()); !errors.Is(err, store.ErrDamaged) {
		t.Errorf("wait again: %v", err)
	}
	if err := db.Close(); !errors.Is(err, store.ErrDamaged) {
		t.Errorf("close: %v", err)
	}
}

// TestLostMapping: bbolt drops its memory map when it cannot grow it, and is of
// no use from then on.
func TestLostMapping(t *testing.T) {
	path := temp(t)
	build(t, path, 1, 3)
	db := open(t, path, store.Options{})
	for range 2 {
		if err := db.LoseMapping(); err != nil {
			t.Fatal(err)
		}
		if err := keepAndWait(t, db, "s1"); err != nil {
			t.Errorf("wait: %v", err)
		}
		if err := db.LoseMapping(); err != nil {
			t.Fatal(err)
		}
		if _, err := db.Load("s1"); err != nil {
			t.Errorf("load: %v", err)
		}
	}
	if n := count(t, db, "s1"); n != 8 {
		t.Errorf("%d events", n)
	}
}

// TestLostMappingOfAnother: what lies at the path now is not opened instead.
func TestLostMappingOfAnother(t *testing.T) {
	path := temp(t)
	build(t, path, 1, 3)
	var x fault
	db := open(t, path, store.Options{}.WithFault(x.ask))
	if _, err := db.Head("s1"); err != nil {
		t.Fatal(err)
	}
	if err := db.LoseMapping(); err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(path, path+".away"); err != nil {
		t.Skipf("an open file cannot be moved here: %v", err)
	}
	build(t, path, 1, 3)
	before := read(t, path)
	if _, err := db.Load("s1"); !errors.Is(err, store.ErrGone) {
		t.Errorf("load: %v", err)
	}
	if err := keepAndWait(t, db, "s1"); !errors.Is(err, store.ErrGone) {
		t.Errorf("wait: %v", err)
	}
	if !bytes.Equal(read(t, path), before) {
		t.Error("another file was written")
	}
}

// TestCloseDoesNotWaitForEver leaves a disk that does not answer.
func TestCloseDoesNotWaitForEver(t *testing.T) {
	path := temp(t)
	build(t, path, 1, 3)
	var x fault
	db, err := store.Open(path, store.Options{}.WithFault(x.ask).WithWaits(10*time.Millisecond, 10*time.Millisecond))
	if err != nil {
		t.Fatal(err)
	}
	release, gone := make(chan struct{}), make(chan struct{})
	x.set(func(stage string) error {
		<-release
		if stage == "written" {
			close(gone)
		}
		return nil
	})
	if _, err := db.Keep("s1", storetest.Reading(1)); err != nil {
		t.Fatal(err)
	}
	var unkept *store.UnkeptError
	if err := db.Close(); !errors.As(err, &unkept) || unkept.Events != 1 {
		t.Errorf("close: %v", err)
	}
	close(release)
	<-gone
}

// TestFileThatCannotGrow lets bbolt itself fail in the middle of a commit and
// go on with the same handle.
func TestFileThatCannotGrow(t *testing.T) {
	path := temp(t)
	var l log
	db := open(t, path, store.Options{Notify: l.add}.WithMaxSize(1<<18))
	keep := func(events ...record.Event) error {
		t.Helper()
		if _, err := db.Keep("a", events...); err != nil {
			t.Fatal(err)
		}
		return db.Wait(t.Context())
	}
	if err := keep(storetest.Begin("a")...); err != nil {
		t.Fatal(err)
	}
	n, err := 2, error(nil)
	for ; err == nil; n++ {
		if n > 1000 {
			t.Fatal("the file grows without end")
		}
		err = keep(storetest.Reading(n))
	}
	if !errors.Is(err, store.ErrFull) || db.Pending("a") != 1 || count(t, db, "a") != n {
		t.Fatalf("after %d events: %v, %d pending", n, err, db.Pending("a"))
	}
	if err := db.Close(); !errors.Is(err, store.ErrFull) {
		t.Errorf("close: %v", err)
	}
	db = open(t, path, store.Options{})
	if got := count(t, db, "a"); got != n-1 {
		t.Errorf("%d events, want %d", got, n-1)
	}
	storetest.Check(t, db)
}

// TestBallast gives the reserve up when the disk is full.
func TestBallast(t *testing.T) {
	path := temp(t)
	ballast := path + ".ballast"
	var x fault
	var l log
	o := store.Options{Ballast: true, Notify: l.add}.WithFault(x.ask).WithSpace(1 << 30)
	db := open(t, path, o)
	info, err := os.Stat(ballast)
	if err != nil || info.Size() != 8<<20 || runtime.GOOS != "windows" && info.Mode().Perm() != 0o600 {
		t.Fatalf("the reserve is %v, %v", info, err)
	}
	x.set(func(stage string) error {
		if _, err := os.Stat(ballast); stage == "write" && err == nil {
			return errors.New("file resize error: truncate borewright.db: no space left on device")
		}
		return nil
	})
	if _, err := db.Keep("a", storetest.Begin("a")...); err != nil {
		t.Fatal(err)
	}
	if err := db.Wait(t.Context()); err != nil {
		t.Errorf("wait: %v", err)
	}
	if o := l.last(t); !o.Reserve || o.Err != nil {
		t.Errorf("reported %+v", o)
	}
	if w := db.Warnings(); len(w) != 1 || !strings.Contains(w[0], "disk is full") {
		t.Errorf("warnings %q", w)
	}
	x.set(func(string) error {
		return errors.New("mmap allocate error: truncate: There is not enough space on the disk.")
	})
	if err := keepAndWait(t, db, "a"); !errors.Is(err, store.ErrFull) || l.last(t).Reserve {
		t.Errorf("without a reserve: %v", err)
	}
	x.set(nil)
	if err := db.Close(); err != nil {
		t.Error(err)
	}
	open(t, path, o)
	if _, err := os.Stat(ballast); err != nil {
		t.Errorf("no new reserve: %v", err)
	}
	names, err := filepath.Glob(filepath.Join(filepath.Dir(path), "*"))
	if err != nil || len(names) != 2 {
		t.Errorf("the folder holds %v", names)
	}
}
