package store_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"borewright/store"
)

// asUser calls test in a process that may not read what its owner forbids, as the
// system's own user may. It skips where there is none.
func asUser(t *testing.T, test func()) {
	t.Helper()
	if os.Getuid() != 0 {
		test()
		return
	}
	apart(t, 1000, 0)
}

// TestUnreadableFile: a file that may not be read is told to be that, not one that
// may not be written.
func TestUnreadableFile(t *testing.T) {
	asUser(t, func() {
		path := temp(t)
		build(t, path, 1, 3)
		shut := filepath.Join(t.TempDir(), "shut")
		if err := errors.Join(os.Chmod(path, 0), os.Mkdir(shut, 0)); err != nil {
			t.Fatal(err)
		}
		out := filepath.Join(t.TempDir(), "out.db")
		for what, try := range map[string]func(path string) error{
			"open":    func(path string) error { _, err := store.Open(path, store.Options{}); return err },
			"verify":  func(path string) error { _, err := store.Verify(path); return err },
			"salvage": func(path string) error { _, err := store.Salvage(path, out, nil); return err },
			"rescue":  func(path string) error { _, err := store.Rescue(path, store.ErrDamaged); return err },
		} {
			for _, path := range []string{path, filepath.Join(shut, "x.db")} {
				err := try(path)
				if !errors.Is(err, store.ErrUnreadable) || !strings.HasPrefix(err.Error(), "this file may not be read: "+path) {
					t.Errorf("%s says %v", what, err)
				}
			}
		}
	})
}
