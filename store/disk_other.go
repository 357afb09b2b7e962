//go:build !linux && !darwin && !windows

package store

import "errors"

// networkDisk does not know on this system.
func networkDisk(string) (string, error) { return "", errors.ErrUnsupported }

// freeSpace does not know on this system.
func freeSpace(string) (uint64, error) { return 0, errors.ErrUnsupported }

// renameNew gives a file a name that nothing has: else fs.ErrExist.
func renameNew(from, to string) error { return linkNew(from, to) }
