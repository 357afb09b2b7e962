package store_test

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"borewright/store"
	"borewright/store/storetest"
)

// TestBackup copies a database in use: the copy is whole, opens, and nothing is
// written over.
func TestBackup(t *testing.T) {
	path := temp(t)
	kept := build(t, path, 2, 20)
	db := open(t, path, store.Options{})
	to := filepath.Join(t.TempDir(), "copy.db")
	if err := db.Backup(to); err != nil {
		t.Fatal(err)
	}
	if err := db.Backup(to); !errors.Is(err, store.ErrExists) {
		t.Errorf("over the copy: %v", err)
	}
	if err := db.Backup(filepath.Join(to, "no", "x.db")); !errors.Is(err, store.ErrNoFolder) {
		t.Errorf("into no folder: %v", err)
	}
	if err := keepAndWait(t, db, "s1"); err != nil {
		t.Errorf("after the copy: %v", err)
	}
	if r := verified(t, to); !r.Sound {
		t.Errorf("the copy: %v", r.Faults)
	}
	backed := open(t, to, store.Options{})
	for uid, lines := range kept {
		intact(t, load(t, backed, uid), lines)
	}
}

// TestBackupOfADamagedDatabase: a copy that is not sound is not called a backup.
func TestBackupOfADamagedDatabase(t *testing.T) {
	path := temp(t)
	kept, order := demo(t, path)
	write(t, path, spoiled(read(t, path), store.EventKey(1, 9), kept[order[0]][8]))
	db := open(t, path, store.Options{})
	to := filepath.Join(t.TempDir(), "copy.db")
	if err := db.Backup(to); !errors.Is(err, store.ErrDamaged) || !strings.Contains(err.Error(), path) || !strings.Contains(err.Error(), "event 9 ") {
		t.Errorf("it says %v", err)
	}
	if _, err := os.Stat(to); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("it was made: %v", err)
	}
}

// TestBackupCutOff: what a backup that was cut off left behind is gone after the
// next, and nothing else.
func TestBackupCutOff(t *testing.T) {
	path := temp(t)
	build(t, path, 1, 3)
	db := open(t, path, store.Options{})
	folder := store.BackupFolder(path)
	if err := os.Mkdir(folder, 0o700); err != nil {
		t.Fatal(err)
	}
	write(t, filepath.Join(folder, ".saving-12345"), []byte("half"))
	other := write(t, filepath.Join(folder, "notes.txt"), []byte("mine"))
	made, err := db.BackupNow(storetest.Start, 3)
	if err != nil {
		t.Fatal(err)
	}
	left, err := filepath.Glob(filepath.Join(folder, "*"))
	hidden, _ := filepath.Glob(filepath.Join(folder, ".*"))
	if err != nil || !slices.Equal(left, []string{made, other}) || len(hidden) != 0 {
		t.Errorf("there are %q and %q, %v", left, hidden, err)
	}
}

// TestBackupOfDay makes one a day, keeps so many, and goes by their numbers when
// the clock is set back.
func TestBackupOfDay(t *testing.T) {
	path := temp(t)
	build(t, path, 1, 3)
	db := open(t, path, store.Options{})
	day := storetest.Start
	for i := range 5 {
		made, err := db.BackupOfDay(day.AddDate(0, 0, -i), 3, nil) // the clock runs backwards
		if err != nil || made == "" {
			t.Fatalf("day %d: %q, %v", i, made, err)
		}
		if again, err := db.BackupOfDay(day.AddDate(0, 0, -i).Add(time.Hour), 3, nil); err != nil || again != "" {
			t.Errorf("the same day: %q, %v", again, err)
		}
	}
	have := store.Backups(path)
	if len(have) != 3 || filepath.Base(have[2]) != "000005-2026-02-26.db" || filepath.Base(have[0]) != "000003-2026-02-28.db" {
		t.Errorf("kept %v", have)
	}
	storetest.Proof(t, "backups of five days, of which three are kept, the clock running backwards", 5, 0, "the newest three, by their numbers")
	for p, want := range map[string]os.FileMode{store.BackupFolder(path): 0o700, have[0]: 0o600} {
		if info, err := os.Stat(p); err != nil || info.Mode().Perm() != want {
			t.Errorf("%s: %v, %v", p, info.Mode(), err)
		}
	}
}

// TestBackupNow makes one more on the same day, and keeps no more than so many.
func TestBackupNow(t *testing.T) {
	path := temp(t)
	build(t, path, 1, 5)
	db := open(t, path, store.Options{})
	day := time.Date(2026, 3, 2, 8, 0, 0, 0, time.UTC)
	var made []string
	for range 3 {
		to, err := db.BackupNow(day, 2)
		if err != nil {
			t.Fatal(err)
		}
		made = append(made, to)
	}
	if to, err := db.BackupOfDay(day, 2, nil); to != "" || err != nil {
		t.Errorf("with one of today there it made %q, %v", to, err)
	}
	if got := store.Backups(path); len(got) != 2 || got[0] != made[1] || got[1] != made[2] {
		t.Errorf("of %v stayed %v", made, got)
	}
}
