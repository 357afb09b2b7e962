package store

import (
	"path/filepath"

	"golang.org/x/sys/unix"
)

// networkDisk returns the name of the network file system of the path's
// folder, empty for a local one.
func networkDisk(path string) (string, error) {
	var st unix.Statfs_t
	if err := unix.Statfs(filepath.Dir(path), &st); err != nil {
		return "", err
	}
	if st.Flags&unix.MNT_LOCAL != 0 {
		return "", nil
	}
	return unix.ByteSliceToString(st.Fstypename[:]), nil
}

// freeSpace returns the bytes that the user can still fill beside the path.
func freeSpace(path string) (uint64, error) {
	var st unix.Statfs_t
	if err := unix.Statfs(filepath.Dir(path), &st); err != nil {
		return 0, err
	}
	return st.Bavail * uint64(st.Bsize), nil
}

// renameNew gives a file a name that nothing has: else fs.ErrExist.
func renameNew(from, to string) error { return linkNew(from, to) }
