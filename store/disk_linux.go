package store

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"golang.org/x/sys/unix"
)

// networkNames are the file systems of other computers, by the number that
// statfs gives them (linux/magic.h). The plan 9 protocol is not among them: it
// is mostly another folder of the same computer, shown to a virtual one. Of
// those that a program serves the list of mounts tells more.
var networkNames = map[uint32]string{
	0x6969:     "nfs",
	0x517B:     "smb",
	0xFE534D42: "smb2",
	0xFF534D42: "cifs",
	0x564C:     "ncp",
	0x5346414F: "afs",
	0x73757245: "coda",
	0x00C36400: "ceph",
	0x0BD00BD0: "lustre",
	0x01161970: "gfs2",
	0x7461636F: "ocfs2",
}

// networkDisk returns the name of the network file system of the path's
// folder, empty for a local one.
func networkDisk(path string) (string, error) {
	var st unix.Statfs_t
	if err := unix.Statfs(filepath.Dir(path), &st); err != nil {
		return "", err
	}
	if uint32(st.Type) == fuseNumber {
		return servedFrom(filepath.Dir(path))
	}
	return networkNames[uint32(st.Type)], nil
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
func renameNew(from, to string) error {
	err := unix.Renameat2(unix.AT_FDCWD, from, unix.AT_FDCWD, to, unix.RENAME_NOREPLACE)
	if err == nil || errors.Is(err, fs.ErrExist) {
		return linkError(err, from, to)
	}
	return linkNew(from, to) // not every file system knows the first way
}

func linkError(err error, from, to string) error {
	if err == nil {
		return nil
	}
	return &os.LinkError{Op: "rename", Old: from, New: to, Err: err}
}
