//go:build !windows

package store

import (
	"errors"
	"io/fs"
	"os"
	"syscall"
)

// fullCodes, readOnlyCodes, longCodes and unfitCodes are the system's errors of a
// full disk, of a place that must not be written, of a name that is too long and of
// a place that cannot do what a database needs.
var (
	fullCodes     = []error{syscall.ENOSPC, syscall.EDQUOT}
	readOnlyCodes = []error{syscall.EROFS}
	longCodes     = []error{syscall.ENAMETOOLONG}
	unfitCodes    = []error{syscall.ENOLCK, syscall.ENOSYS, syscall.EOPNOTSUPP}
)

// linkNew gives a file a name that nothing has by a second link, or, where
// there are none, after a look.
func linkNew(from, to string) error {
	err := os.Link(from, to)
	if err == nil {
		return os.Remove(from)
	}
	if errors.Is(err, fs.ErrExist) {
		return err
	}
	if _, err := os.Lstat(to); err == nil {
		return &os.LinkError{Op: "rename", Old: from, New: to, Err: fs.ErrExist}
	}
	return os.Rename(from, to)
}

// syncFolder makes the names in the folder durable. Some file systems cannot
// be asked to.
func syncFolder(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	err = d.Sync()
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, errors.ErrUnsupported) {
		err = nil
	}
	return errors.Join(err, d.Close())
}
