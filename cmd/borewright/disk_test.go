//go:build unix

package main

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"borewright/store"
	"borewright/store/storetest"
)

func TestRenameNeverOverwrites(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	a, b, c := filepath.Join(dir, "a"), filepath.Join(dir, "b"), filepath.Join(dir, "c")
	for _, name := range []string{a, b} {
		if err := os.WriteFile(name, []byte(name), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if err := rename(a, b); !errors.Is(err, fs.ErrExist) {
		t.Errorf("over a file it says %v", err)
	}
	if got, err := os.ReadFile(b); string(got) != b || err != nil {
		t.Errorf("the file holds %q, %v", got, err)
	}
	if err := rename(a, c); err != nil || exists(a) || !exists(c) {
		t.Errorf("a free name gives %v", err)
	}
}

func TestProcessWorldReadsAndOpens(t *testing.T) {
	t.Parallel()
	w, dir := processWorld(), t.TempDir()
	path := filepath.Join(dir, "a.json")
	if _, err := w.Read(path); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("reading nothing gives %v", err)
	}
	if _, err := w.Write(dir, "a.json", []byte("text"), false); err != nil {
		t.Fatal(err)
	}
	in, err := w.Read(path)
	if err != nil {
		t.Fatal(err)
	}
	if data, err := io.ReadAll(in); string(data) != "text" || err != nil {
		t.Errorf("read %q, %v", data, err)
	}
	if err := in.Close(); err != nil {
		t.Error(err)
	}
	if book, err := w.Open(path, store.Options{}); !errors.Is(err, store.ErrNotOurs) || book != nil {
		t.Errorf("opening another file gives %v, %v", book, err)
	}
}

// A file is read once, to its end, and its name stands before what is wrong.
func TestFileErrorNamesTheFileOnce(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	for name, want := range map[string]string{
		filepath.Join(dir, "gone"): filepath.Join(dir, "gone") + ": no such file or directory",
		dir:                        dir + ": is a directory",
	} {
		if _, err := readFile(diskWorld(), name); err == nil || err.Error() != want {
			t.Errorf("said %v, want %q", err, want)
		}
	}
}

// TestFilesAreTheirOwners: whatever command made a file or a folder, nobody else
// may read it.
func TestFilesAreTheirOwners(t *testing.T) {
	t.Parallel()
	b := newBusyBench(t)
	for _, args := range [][2]string{
		{"sheet", "demo-launch --to pdf -o FOLDER/out.pdf"},
		{"export", "demo-launch -o FOLDER/out.json"},
		{"backup", "FOLDER/copy.db"},
		{"salvage", "FOLDER/salvaged.db"},
		{"import", "FOLDER/other.json"},
	} {
		if errs, code := b.run(t, b.path, args[0], args[1]); code != 0 {
			t.Fatalf("%s: %s", args[0], errs)
		}
	}
	(&crashes{w: diskWorld(), folder: b.folder}).note("out of true")
	made := 0
	err := filepath.WalkDir(b.folder, func(path string, d fs.DirEntry, err error) error {
		if err != nil || path == b.folder {
			return err
		}
		info, err := d.Info()
		if err == nil && info.Mode().Perm()&0o077 != 0 {
			t.Errorf("%s may be opened by others: %v", path, info.Mode())
		}
		made++
		return err
	})
	if err != nil || made < 14 {
		t.Errorf("%d files were made: %v", made, err)
	}
	storetest.Proof(t, "files and folders that the commands make", made, 0, "0600 and 0700: their owner's alone")
}
