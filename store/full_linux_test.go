package store_test

import (
	"errors"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"golang.org/x/sys/unix"

	"borewright/store"
	"borewright/store/storetest"
)

// ownDisk makes the test binary run one test with a small disk of its own.
const ownDisk = "STORE_TEST_DISK"

// onOwnDisk runs the test again in a process that may mount, and there calls
// test with the folder of an empty disk of so many bytes. It skips where the
// system does not let us.
func onOwnDisk(t *testing.T, size string, test func(dir string)) {
	t.Helper()
	if dir := os.Getenv(ownDisk); dir != "" {
		if err := unix.Mount("tmpfs", dir, "tmpfs", 0, "size="+size); err != nil {
			t.Skipf("no disk of our own: %v", err)
		}
		test(dir)
		return
	}
	apart(t, 0, syscall.CLONE_NEWNS, ownDisk+"="+t.TempDir())
}

// apart runs the test again as the user with the number among users of its own, with
// what more is its own and in its environment. It skips where the system does not let
// us, or the test does.
func apart(t *testing.T, user int, own uintptr, env ...string) {
	t.Helper()
	cmd := exec.CommandContext(t.Context(), os.Args[0], "-test.v", "-test.run=^"+t.Name()+"$")
	cmd.Env = append(os.Environ(), env...)
	cmd.SysProcAttr = &syscall.SysProcAttr{
		Cloneflags:  syscall.CLONE_NEWUSER | own,
		UidMappings: []syscall.SysProcIDMap{{ContainerID: user, HostID: os.Getuid(), Size: 1}},
		GidMappings: []syscall.SysProcIDMap{{ContainerID: user, HostID: os.Getgid(), Size: 1}},
	}
	out, err := cmd.CombinedOutput()
	var failed *exec.ExitError
	switch {
	case err != nil && !errors.As(err, &failed):
		t.Skipf("no process of other users is made here: %v", err)
	case err != nil:
		t.Errorf("%v\n%s", err, out)
	case strings.Contains(string(out), "--- SKIP"):
		t.Skipf("%s", out)
	}
}

// fill takes all space that is left and returns the file that holds it.
func fill(t *testing.T, dir string) string {
	t.Helper()
	f, err := os.CreateTemp(dir, "filler")
	if err != nil {
		t.Fatal(err)
	}
	for chunk := make([]byte, 4096); err == nil; {
		_, err = f.Write(chunk)
	}
	if !errors.Is(err, syscall.ENOSPC) || f.Close() != nil {
		t.Fatal(err)
	}
	return f.Name()
}

// untilFull keeps readings until one is not kept and returns how many were.
func untilFull(t *testing.T, db *store.DB) (kept int, err error) {
	t.Helper()
	for ; err == nil; kept++ {
		if kept > 60_000 {
			t.Fatal("the disk does not fill")
		}
		for range 50 {
			if _, err := db.Keep("a", storetest.Reading(kept)); err != nil {
				t.Fatal(err)
			}
		}
		err = db.Wait(t.Context())
	}
	return kept, err
}

// TestFullDisk fills a real disk: the reserve carries on, then the readings
// wait, and room makes them kept with the same handle.
func TestFullDisk(t *testing.T) {
	onOwnDisk(t, "10m", func(dir string) {
		path := filepath.Join(dir, "borewright.db")
		var l log
		db := open(t, path, store.Options{Ballast: true, Notify: l.add}.WithSpace(1<<30))
		if _, err := db.Keep("a", storetest.Begin("a")...); err != nil {
			t.Fatal(err)
		}
		if err := db.Wait(t.Context()); err != nil {
			t.Fatal(err)
		}
		first := fill(t, dir)
		for range 2000 {
			if err := keepAndWait(t, db, "a"); err != nil {
				t.Fatal(err)
			}
			if l.last(t).Reserve {
				break
			}
		}
		if !l.last(t).Reserve {
			t.Error("the reserve was not used")
		}
		if _, err := os.Stat(path + ".ballast"); !errors.Is(err, fs.ErrNotExist) {
			t.Errorf("the reserve is still there: %v", err)
		}
		second := fill(t, dir)
		if _, err := untilFull(t, db); !errors.Is(err, store.ErrFull) {
			t.Fatalf("wait: %v", err)
		}
		waiting, all := db.Pending("a"), count(t, db, "a")
		if _, err := store.WriteFile(dir, "sheet.html", make([]byte, 1<<20), false); !errors.Is(err, store.ErrFull) {
			t.Errorf("write a file: %v", err)
		}
		if err := errors.Join(os.Remove(first), os.Remove(second)); err != nil {
			t.Fatal(err)
		}
		db.Retry()
		if err := db.Wait(t.Context()); err != nil || waiting == 0 || db.Pending("a") != 0 {
			t.Errorf("after there was room: %v, %d waited", err, waiting)
		}
		if err := db.Close(); err != nil {
			t.Error(err)
		}
		db = open(t, path, store.Options{})
		if n := count(t, db, "a"); n != all {
			t.Errorf("%d events, want %d", n, all)
		}
		storetest.Check(t, db)
	})
}

// TestFullDiskAtFirst makes a database where there is no room: nothing is left
// behind.
func TestFullDiskAtFirst(t *testing.T) {
	onOwnDisk(t, "64k", func(dir string) {
		filler := fill(t, dir)
		path := filepath.Join(dir, "borewright.db")
		if _, err := store.Open(path, quick(store.Options{})); !errors.Is(err, store.ErrFull) {
			t.Errorf("open: %v", err)
		}
		names, err := os.ReadDir(dir)
		if err != nil || len(names) != 1 || names[0].Name() != filepath.Base(filler) {
			t.Errorf("left behind: %v, %v", names, err)
		}
	})
}

// TestReadOnlyDisk opens a database on a disk that must not be written.
func TestReadOnlyDisk(t *testing.T) {
	onOwnDisk(t, "4m", func(dir string) {
		path := filepath.Join(dir, "borewright.db")
		build(t, path, 1, 3)
		if err := unix.Mount("", dir, "", unix.MS_REMOUNT|unix.MS_RDONLY, ""); err != nil {
			t.Skipf("it cannot be made read-only: %v", err)
		}
		for _, p := range []string{path, filepath.Join(dir, "new.db"), filepath.Join(dir, "new", "new.db")} {
			if _, err := store.Open(p, quick(store.Options{})); !errors.Is(err, store.ErrReadOnly) {
				t.Errorf("open %s: %v", p, err)
			}
		}
		if _, err := store.WriteFile(dir, "sheet.html", nil, true); !errors.Is(err, store.ErrReadOnly) {
			t.Errorf("write a file: %v", err)
		}
	})
}
