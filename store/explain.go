package store

import (
	"errors"
	"fmt"
	"io/fs"
	"strings"

	berrors "go.etcd.io/bbolt/errors"
)

// errHandle means that the handle, not the file, is of no use any more: the
// file has to be opened again.
var errHandle = fmt.Errorf("%w: it has to be opened again", ErrDisk)

// full are the texts of a full disk: bbolt wraps the errors of growing, syncing
// and mapping with their text alone.
var full = []string{
	"no space left on device",
	"disk quota exceeded",
	"not enough space on the disk",
	"the disk is full",
}

// readOnly are the texts of a place that must not be written.
var readOnly = []string{"read-only file system", "permission denied", "access is denied"}

// explain turns what the system or bbolt said of the file into an error of
// this package.
func explain(path string, err error) error {
	if err == nil {
		return nil
	}
	var known *FileError
	if errors.As(err, &known) {
		return err
	}
	return &FileError{Path: path, Kind: kindOf(err), Cause: err}
}

// unread is explain for what the system said when the file was only to be read.
func unread(path string, err error) error {
	if errors.Is(err, fs.ErrPermission) {
		return &FileError{Path: path, Kind: ErrUnreadable, Cause: err}
	}
	return explain(path, err)
}

func kindOf(err error) error {
	var p *panicError
	switch {
	case errors.As(err, &p):
		return ErrDamaged
	case isAny(err, errHandle, berrors.ErrInvalidMapping, berrors.ErrDatabaseNotOpen):
		return errHandle
	case errors.Is(err, berrors.ErrTimeout):
		return ErrBusy
	case isAny(err, berrors.ErrMaxSizeReached) || isAny(err, fullCodes...) || says(err, full):
		return ErrFull
	case isAny(err, fs.ErrPermission, berrors.ErrDatabaseReadOnly) || isAny(err, readOnlyCodes...) || says(err, readOnly):
		return ErrReadOnly
	case isAny(err, berrors.ErrChecksum, berrors.ErrInvalid, berrors.ErrVersionMismatch):
		return ErrDamaged
	case isAny(err, longCodes...):
		return ErrLongName
	case isAny(err, unfitCodes...):
		return ErrUnfit
	default:
		return ErrDisk
	}
}

func isAny(err error, kinds ...error) bool {
	for _, k := range kinds {
		if errors.Is(err, k) {
			return true
		}
	}
	return false
}

func says(err error, texts []string) bool {
	said := strings.ToLower(err.Error())
	for _, t := range texts {
		if strings.Contains(said, t) {
			return true
		}
	}
	return false
}
