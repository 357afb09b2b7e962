package store_test

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"testing"
	"time"

	bolt "go.etcd.io/bbolt"

	"borewright/store"
	"borewright/store/storetest"
)

// backedUp makes a database and a backup of it, and returns the backup with what
// it holds.
func backedUp(t *testing.T) (backup string, kept map[string][][]byte) {
	t.Helper()
	path := temp(t)
	kept = build(t, path, 2, 20)
	db := open(t, path, store.Options{})
	backup, err := db.BackupNow(storetest.Start, 3)
	if err != nil {
		t.Fatal(err)
	}
	return backup, kept
}

// refuses fails unless a database takes nothing and says that it is a backup.
func refuses(t *testing.T, db *store.DB) {
	t.Helper()
	if err := db.ReadOnly(); !errors.Is(err, store.ErrBackup) {
		t.Errorf("it is read only because of %v", err)
	}
	if _, err := db.Keep("s1", storetest.Reading(1)); !errors.Is(err, store.ErrBackup) {
		t.Errorf("keep: %v", err)
	}
	if err := db.Append("new", storetest.Lines(storetest.Begin("new")...)); !errors.Is(err, store.ErrBackup) {
		t.Errorf("append: %v", err)
	}
	if to, err := db.BackupOfDay(storetest.Start.AddDate(0, 0, 1), 3, nil); to != "" || err != nil {
		t.Errorf("backup of the day: %q, %v", to, err)
	}
	if _, err := db.BackupNow(storetest.Start, 3); !errors.Is(err, store.ErrBackup) {
		t.Errorf("backup now: %v", err)
	}
}

// TestBackupIsOnlyRead: nothing is kept in a backup and not a byte of it changes;
// others may read it meanwhile, also through a link.
func TestBackupIsOnlyRead(t *testing.T) {
	backup, kept := backedUp(t)
	before := read(t, backup)
	first := open(t, backup, store.Options{Ballast: true})
	refuses(t, first)
	link := filepath.Join(t.TempDir(), "link.db")
	if err := os.Symlink(backup, link); err != nil {
		link = backup
	}
	second := open(t, link, quick(store.Options{}))
	refuses(t, second)
	for uid, lines := range kept {
		intact(t, load(t, second, uid), lines)
	}
	if hs, err := second.Headings(0); err != nil || len(hs) != len(kept)-1 { // without the shop
		t.Errorf("%d sessions are listed: %v", len(hs), err)
	}
	for _, db := range []*store.DB{first, second} {
		if err := db.Close(); err != nil {
			t.Error(err)
		}
	}
	if string(read(t, backup)) != string(before) {
		t.Error("the backup was changed")
	}
	if names, err := os.ReadDir(filepath.Dir(backup)); err != nil || len(names) != 1 {
		t.Errorf("beside it lie %v", names)
	}
}

// TestBackupThatNobodyMayWrite is read all the same.
func TestBackupThatNobodyMayWrite(t *testing.T) {
	backup, _ := backedUp(t)
	refusing := store.Options{}.WithOpenFile(func(name string, flag int, mode os.FileMode) (*os.File, error) {
		if flag&os.O_RDWR != 0 {
			return nil, &os.PathError{Op: "open", Path: name, Err: os.ErrPermission}
		}
		return os.OpenFile(name, flag, mode)
	})
	refuses(t, open(t, backup, refusing))
	copied := filepath.Join(t.TempDir(), "borewright.db")
	write(t, copied, read(t, backup))
	if _, err := store.Open(copied, refusing); !errors.Is(err, store.ErrReadOnly) {
		t.Errorf("a database: %v", err)
	}
}

// TestBackupOnANetworkFolder is read there, where no database may be.
func TestBackupOnANetworkFolder(t *testing.T) {
	backup, kept := backedUp(t)
	far := store.Options{}.WithNetwork("nfs")
	db := open(t, backup, far)
	refuses(t, db)
	for uid, lines := range kept {
		intact(t, load(t, db, uid), lines)
	}
	copied := write(t, filepath.Join(t.TempDir(), "borewright.db"), read(t, backup))
	for _, path := range []string{copied, filepath.Join(t.TempDir(), "new.db")} {
		if _, err := store.Open(path, far); !errors.Is(err, store.ErrNetwork) {
			t.Errorf("%s: %v", path, err)
		}
	}
}

// TestBackupWhereNothingCanBeLocked is made without a mark: the copy is whole, and
// that is what counts.
func TestBackupWhereNothingCanBeLocked(t *testing.T) {
	path := temp(t)
	build(t, path, 2, 20)
	unfit := store.ErrUnfit
	db := open(t, path, store.Options{}.WithOpenFile(func(name string, flag int, mode os.FileMode) (*os.File, error) {
		if name != path {
			return nil, &store.FileError{Path: name, Kind: unfit}
		}
		return os.OpenFile(name, flag, mode)
	}))
	to := filepath.Join(t.TempDir(), "far.db")
	if err := db.Backup(to); err != nil {
		t.Fatal(err)
	}
	soundFile(t, to)
	unfit = store.ErrDisk
	if err := db.Backup(to + "2"); !errors.Is(err, store.ErrDisk) {
		t.Errorf("where it cannot be opened: %v", err)
	}
}

// TestBackupIsRestored by copying it under another name: it is a database then,
// and so is a copy that was made under the name of the database itself.
func TestBackupIsRestored(t *testing.T) {
	backup, kept := backedUp(t)
	copied := filepath.Join(t.TempDir(), "borewright.db")
	write(t, copied, read(t, backup))
	db := open(t, copied, store.Options{})
	for uid, lines := range kept {
		intact(t, load(t, db, uid), lines)
	}
	if err := keepAndWait(t, db, "s1"); err != nil || db.ReadOnly() != nil {
		t.Errorf("keep: %v", err)
	}
	again, same := filepath.Join(t.TempDir(), "usb.db"), filepath.Join(t.TempDir(), "borewright.db")
	for _, to := range []string{again, same} {
		if err := db.Backup(to); err != nil {
			t.Fatal(err)
		}
	}
	refuses(t, open(t, again, store.Options{}))
	db = open(t, same, store.Options{})
	if err := keepAndWait(t, db, "s1"); err != nil {
		t.Errorf("a copy under the same name: %v", err)
	}
	if err := db.Close(); err != nil {
		t.Error(err)
	}
	for _, path := range []string{backup, again, same} {
		soundFile(t, path)
	}
}

// TestBackupOfAnOlderForm: its list of sessions is made from the events at each
// look, and the file stays as it is.
func TestBackupOfAnOlderForm(t *testing.T) {
	backup, kept := backedUp(t)
	raw, err := bolt.Open(backup, 0o600, nil)
	if err != nil {
		t.Fatal(err)
	}
	err = raw.Update(func(tx *bolt.Tx) error {
		key := []byte("index")
		c := tx.Bucket([]byte("headings")).Cursor()
		for k, _ := c.First(); k != nil; k, _ = c.Next() {
			if err := tx.Bucket([]byte("headings")).Put(k, store.Frame(k, []byte(`{"title":"of an older form"}`))); err != nil {
				return err
			}
		}
		return tx.Bucket([]byte("meta")).Put(key, store.Frame(key, []byte("0")))
	})
	if err := errors.Join(err, raw.Close()); err != nil {
		t.Fatal(err)
	}
	before := read(t, backup)
	db := open(t, backup, store.Options{})
	hs, err := db.Headings(0)
	if err != nil || len(hs) != len(kept)-1 { // without the shop
		t.Fatalf("%d sessions are listed: %v", len(hs), err)
	}
	for _, h := range hs {
		if h.UID == "" || h.Title == "of an older form" || h.Head.N != int64(len(kept[h.UID])) {
			t.Errorf("listed %+v", h)
		}
	}
	if err := db.Close(); err != nil {
		t.Error(err)
	}
	if string(read(t, backup)) != string(before) {
		t.Error("the backup was changed")
	}
}

// TestBackupHoldsNothingUp: events are kept while a copy is being made.
func TestBackupHoldsNothingUp(t *testing.T) {
	path := temp(t)
	build(t, path, 1, 20)
	copying, goOn := make(chan struct{}), make(chan struct{})
	db := open(t, path, store.Options{}.WithFault(func(stage string) error {
		if stage == "copy" {
			close(copying)
			<-goOn
		}
		return nil
	}))
	to, made := filepath.Join(t.TempDir(), "copy.db"), make(chan error, 1)
	go func() { made <- db.Backup(to) }()
	select {
	case <-copying:
	case err := <-made:
		t.Fatalf("it was made at once: %v", err)
	}
	if _, err := db.Keep("s1", storetest.Reading(1)); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(t.Context(), 10*time.Second)
	defer cancel()
	if err := db.Wait(ctx); err != nil {
		t.Errorf("while it is copied: %v", err)
	}
	close(goOn)
	if err := <-made; err != nil {
		t.Fatal(err)
	}
	if n := count(t, open(t, to, store.Options{}), "s1"); n != count(t, db, "s1")-1 {
		t.Errorf("the copy holds %d events, want those from before it", n)
	}
	storetest.Proof(t, "a backup is made while a reading is taken", 1, 0, "the reading is kept before the copy is made, and the copy is sound")
}

// TestBackupsAtOnce: two copies at once do not take each other's place in the file.
func TestBackupsAtOnce(t *testing.T) {
	path := temp(t)
	build(t, path, 3, 200)
	db := open(t, path, store.Options{})
	folder, made := t.TempDir(), make(chan error)
	for _, name := range []string{"a.db", "b.db", "c.db", "d.db"} {
		go func() { made <- db.Backup(filepath.Join(folder, name)) }()
	}
	for range 4 {
		if err := <-made; err != nil {
			t.Error(err)
		}
	}
}
