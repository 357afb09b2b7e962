package store_test

import (
	"os"
	"path/filepath"
	"testing"

	"borewright/store"
	"borewright/store/storetest"
)

// olderPageSize is that of the files that this program made before its pages had the
// size they have.
const olderPageSize = 4 << 10

// TestPagesOfANewFile: they have the size that is stated, whatever makes the file, and
// no page of the system's holds both of its beginnings.
func TestPagesOfANewFile(t *testing.T) {
	path := temp(t)
	kept := build(t, path, 2, 30)
	salvaged := filepath.Join(filepath.Dir(path), "salvaged.db")
	if _, err := store.Salvage(path, salvaged, nil); err != nil {
		t.Fatal(err)
	}
	for _, made := range []string{path, salvaged, backupOf(t, path)} {
		if is := pageSizeOf(read(t, made)); is != store.NewPageSize || is < 8<<10 || is%os.Getpagesize() != 0 {
			t.Errorf("%s has pages of %d bytes", made, is)
		}
		holds(t, made, kept)
		soundFile(t, made)
	}
}

// TestFileOfOlderPages takes a file of smaller pages, which an older program made,
// through what a file is used for: its pages stay as they are, and so do its copies'.
func TestFileOfOlderPages(t *testing.T) {
	path := temp(t)
	if err := store.MakeWithPages(path, olderPageSize); err != nil {
		t.Fatal(err)
	}
	kept := build(t, path, 3, 60)
	soundFile(t, path)
	left := cutShort(t, path, kept)
	killed := write(t, temp(t), left)
	lost := write(t, temp(t), flipped(left, newestMeta(left)+20, 1))
	backup := backupOf(t, write(t, temp(t), left))
	restored := write(t, filepath.Join(t.TempDir(), "restored.db"), read(t, backup))
	salvaged := filepath.Join(t.TempDir(), "salvaged.db")
	if _, err := store.Salvage(lost, salvaged, nil); err != nil {
		t.Fatal(err)
	}
	for file, size := range map[string]int{
		path: olderPageSize, killed: olderPageSize, lost: olderPageSize,
		backup: olderPageSize, restored: olderPageSize, salvaged: store.NewPageSize,
	} {
		if is := pageSizeOf(read(t, file)); is != size {
			t.Errorf("%s has pages of %d bytes, not %d", file, is, size)
		}
		holds(t, file, kept)
		if file != lost {
			soundFile(t, file)
		}
	}
}

// cutShort goes on with a session and returns what a kill would leave, with readings
// in the tail.
func cutShort(t *testing.T, path string, kept truth) []byte {
	t.Helper()
	db := open(t, path, store.Options{})
	for i := range 40 {
		sealed, err := db.Keep("s1", storetest.Reading(i))
		if err != nil {
			t.Fatal(err)
		}
		kept["s1"] = append(kept["s1"], sealed[0].Bytes)
		if err := db.Wait(t.Context()); err != nil {
			t.Fatal(err)
		}
	}
	if db.TailRows() == 0 {
		t.Error("nothing is in its tail")
	}
	left := read(t, path)
	closed(t, db)
	return left
}

// backupOf returns a backup of the database.
func backupOf(t *testing.T, path string) string {
	t.Helper()
	db := open(t, path, store.Options{})
	backup := filepath.Join(t.TempDir(), "backup.db")
	if err := db.Backup(backup); err != nil {
		t.Fatal(err)
	}
	closed(t, db)
	return backup
}

// holds fails the test unless the database opens with what was kept in it, and takes
// more if it is no backup.
func holds(t *testing.T, path string, kept truth) {
	t.Helper()
	db := open(t, path, store.Options{})
	for uid, lines := range kept {
		intact(t, load(t, db, uid), lines)
	}
	if db.ReadOnly() == nil {
		if err := keepAndWait(t, db, "s2"); err != nil {
			t.Error(err)
		}
	}
	closed(t, db)
}
