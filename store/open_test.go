package store_test

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	bolt "go.etcd.io/bbolt"

	"borewright/store"
	"borewright/store/storetest"
)

func TestOpenMakesWhatIsMissing(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new", "shop")
	db := open(t, filepath.Join(dir, "borewright.db"), store.Options{})
	if db.Path() != filepath.Join(dir, "borewright.db") || len(db.Warnings()) != 0 {
		t.Errorf("path %s, warnings %q", db.Path(), db.Warnings())
	}
	names, err := os.ReadDir(dir)
	if err != nil || len(names) != 1 {
		t.Errorf("the folder holds %v, %v", names, err)
	}
	if runtime.GOOS == "windows" {
		return
	}
	for path, want := range map[string]fs.FileMode{dir: 0o700, filepath.Dir(dir): 0o700, db.Path(): 0o600} {
		if info, err := os.Stat(path); err != nil || info.Mode().Perm() != want {
			t.Errorf("%s has mode %v, want %v (%v)", path, info.Mode().Perm(), want, err)
		}
	}
}

// spoil puts one thing into a bbolt database, which it makes if it is missing.
func spoil(path, bucket, key string, value []byte) error {
	db, err := bolt.Open(path, 0o600, &bolt.Options{Timeout: time.Second})
	if err != nil {
		return err
	}
	err = db.Update(func(tx *bolt.Tx) error {
		b, err := tx.CreateBucketIfNotExists([]byte(bucket))
		if err != nil {
			return err
		}
		return b.Put([]byte(key), value)
	})
	return errors.Join(err, db.Close())
}

func TestOpenRefuses(t *testing.T) {
	good := temp(t)
	build(t, good, 1, 1)
	ours := read(t, good)
	holding := func(data []byte) func(string) error {
		return func(path string) error { return os.WriteFile(path, data, 0o600) }
	}
	format := func(value []byte, before func(string) error) func(string) error {
		return func(path string) error { return errors.Join(before(path), spoil(path, "meta", "format", value)) }
	}
	nothing := func(string) error { return nil }
	for name, try := range map[string]struct {
		make func(path string) error
		want error
	}{
		"an empty file":   {holding(nil), store.ErrEmptyFile},
		"a text":          {holding([]byte("a shopping list\n")), store.ErrNotOurs},
		"a long text":     {holding(bytes.Repeat([]byte("shells "), 9999)), store.ErrNotOurs},
		"nothing but 0":   {holding(make([]byte, 1<<17)), store.ErrNotOurs},
		"another program": {func(path string) error { return spoil(path, "songs", "1", []byte("a waltz")) }, store.ErrNotOurs},
		"a bare database": {func(path string) error { return spoil(path, "meta", "other", nil) }, store.ErrNotOurs},
		"a bad format":    {format([]byte("1"), holding(ours)), store.ErrDamaged},
		"no format":       {format(store.Frame([]byte("format"), []byte("one")), holding(ours)), store.ErrDamaged},
		"a newer format":  {format(store.Frame([]byte("format"), []byte("3")), holding(ours)), store.ErrNewer},
		"no events":       {format(store.Frame([]byte("format"), []byte("1")), nothing), store.ErrDamaged},
		"a folder":        {func(path string) error { return os.Mkdir(path, 0o700) }, store.ErrNotOurs},
	} {
		t.Run(name, func(t *testing.T) {
			path := temp(t)
			if err := try.make(path); err != nil {
				t.Fatal(err)
			}
			before, _ := os.ReadFile(path)
			_, err := store.Open(path, quick(store.Options{}))
			var f *store.FileError
			if !errors.Is(err, try.want) || !errors.As(err, &f) || f.Path != path || !strings.Contains(err.Error(), path) {
				t.Fatalf("open: %v, want %v", err, try.want)
			}
			if after, _ := os.ReadFile(path); !bytes.Equal(before, after) {
				t.Error("the file was changed")
			}
		})
	}
}

func TestOpenRefusesPlaces(t *testing.T) {
	path := temp(t)
	_, err := store.Open(path, quick(store.Options{}.WithNetwork("nfs")))
	if !errors.Is(err, store.ErrNetwork) {
		t.Errorf("a new file on a network disk: %v", err)
	}
	if _, err := os.Stat(path); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("it was made: %v", err)
	}
	build(t, path, 1, 1)
	if _, err := store.Open(path, quick(store.Options{}.WithNetwork("smb"))); !errors.Is(err, store.ErrNetwork) {
		t.Errorf("a file on a network disk: %v", err)
	}
	if _, err := store.Open(filepath.Join(path, "below", "x.db"), quick(store.Options{})); err == nil {
		t.Error("a file is no folder")
	}
	denied := func(string, int, os.FileMode) (*os.File, error) { return nil, os.ErrPermission }
	if _, err := store.Open(path, quick(store.Options{}.WithOpenFile(denied))); !errors.Is(err, store.ErrReadOnly) {
		t.Errorf("a file that must not be written: %v", err)
	}
}

// TestOpenAfterTheLook changes the file after it was looked at: it is neither
// made nor made a new database.
func TestOpenAfterTheLook(t *testing.T) {
	path := temp(t)
	build(t, path, 1, 1)
	after := func(change func() error) store.Options {
		return quick(store.Options{}.WithOpenFile(func(name string, flag int, mode os.FileMode) (*os.File, error) {
			if err := change(); err != nil {
				t.Error(err)
			}
			return os.OpenFile(name, flag, mode)
		}))
	}
	if _, err := store.Open(path, after(func() error { return os.Truncate(path, 0) })); !errors.Is(err, store.ErrEmptyFile) {
		t.Errorf("emptied: %v", err)
	}
	if got := read(t, path); len(got) != 0 {
		t.Errorf("a database was made of an empty file")
	}
	build(t, path+"2", 1, 1)
	if _, err := store.Open(path+"2", after(func() error { return os.Remove(path + "2") })); err == nil {
		t.Error("a file that is gone was opened")
	}
	if _, err := os.Stat(path + "2"); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a file that is gone was made again: %v", err)
	}
}

func TestOpenIsBusy(t *testing.T) {
	path := temp(t)
	db := open(t, path, store.Options{})
	if _, err := store.Open(path, quick(store.Options{})); !errors.Is(err, store.ErrBusy) {
		t.Errorf("open twice: %v", err)
	}
	if _, err := db.Keep("a", storetest.Begin("a")...); err != nil {
		t.Fatal(err)
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	db = open(t, path, store.Options{})
	if events, err := db.Load("a"); err != nil || len(events) != 2 {
		t.Errorf("%d events, %v", len(events), err)
	}
}

// TestOpenAtOnce lets many make the same new database: one does, and nobody
// writes over it.
func TestOpenAtOnce(t *testing.T) {
	path := temp(t)
	results := make(chan error)
	for range 4 {
		go func() {
			db, err := store.Open(path, quick(store.Options{}))
			if err == nil {
				_, err = db.Keep("a", storetest.Begin("a")...)
				err = errors.Join(err, db.Close())
			}
			results <- err
		}()
	}
	done := 0
	for range 4 {
		switch err := <-results; {
		case err == nil:
			done++
		case !errors.Is(err, store.ErrBusy) && !errors.Is(err, store.ErrOtherSession):
			t.Errorf("open: %v", err)
		}
	}
	db := open(t, path, store.Options{})
	if events, err := db.Load("a"); err != nil || len(events) != 2*done || done == 0 {
		t.Errorf("%d events of %d writers, %v", len(events), done, err)
	}
}

func TestOpenThroughALink(t *testing.T) {
	path := temp(t)
	build(t, path, 1, 3)
	link := filepath.Join(t.TempDir(), "link.db")
	if err := os.Symlink(path, link); err != nil {
		t.Skipf("no links here: %v", err)
	}
	db := open(t, link, store.Options{})
	if _, err := db.Keep("s1", storetest.Reading(8)); err != nil {
		t.Fatal(err)
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	db = open(t, path, store.Options{})
	if events, err := db.Load("s1"); err != nil || len(events) != 7 {
		t.Errorf("%d events, %v", len(events), err)
	}
}

func TestOpenWarnsOfLittleSpace(t *testing.T) {
	path := temp(t)
	db := open(t, path, store.Options{Ballast: true}.WithSpace(99<<20))
	if w := db.Warnings(); len(w) != 1 || !strings.Contains(w[0], "99 MiB") {
		t.Errorf("warnings %q", w)
	}
	if _, err := os.Stat(path + ".ballast"); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a reserve was made of little space: %v", err)
	}
}
