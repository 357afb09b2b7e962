package store

import (
	"os"
	"path/filepath"
	"strings"

	"golang.org/x/sys/windows"
)

// fullCodes, readOnlyCodes, longCodes and unfitCodes are the system's errors of a
// full disk, of a place that must not be written, of a name that is too long and of
// a place that cannot do what a database needs.
var (
	fullCodes     = []error{windows.ERROR_DISK_FULL, windows.ERROR_HANDLE_DISK_FULL, windows.ERROR_DISK_QUOTA_EXCEEDED}
	readOnlyCodes = []error{windows.ERROR_WRITE_PROTECT}
	longCodes     = []error{windows.ERROR_FILENAME_EXCED_RANGE}
	unfitCodes    = []error{windows.ERROR_NOT_SUPPORTED, windows.ERROR_INVALID_FUNCTION}
)

// networkDisk returns "a network drive" for a folder on another computer,
// empty for a local one.
func networkDisk(path string) (string, error) {
	volume := filepath.VolumeName(path)
	if strings.HasPrefix(volume, `\\`) && !strings.HasPrefix(volume, `\\?\`) && !strings.HasPrefix(volume, `\\.\`) {
		return "a network drive", nil
	}
	root, err := windows.UTF16PtrFromString(volume + `\`)
	if err != nil {
		return "", err
	}
	if windows.GetDriveType(root) == windows.DRIVE_REMOTE {
		return "a network drive", nil
	}
	return "", nil
}

// freeSpace returns the bytes that the user can still fill beside the path.
func freeSpace(path string) (uint64, error) {
	dir, err := windows.UTF16PtrFromString(filepath.Dir(path))
	if err != nil {
		return 0, err
	}
	var free uint64
	if err := windows.GetDiskFreeSpaceEx(dir, &free, nil, nil); err != nil {
		return 0, os.NewSyscallError("GetDiskFreeSpaceEx", err)
	}
	return free, nil
}

// renameNew gives a file a name that nothing has: else fs.ErrExist.
func renameNew(from, to string) error {
	f, err := windows.UTF16PtrFromString(from)
	if err != nil {
		return err
	}
	t, err := windows.UTF16PtrFromString(to)
	if err != nil {
		return err
	}
	if err := windows.MoveFileEx(f, t, windows.MOVEFILE_WRITE_THROUGH); err != nil {
		return &os.LinkError{Op: "rename", Old: from, New: to, Err: err}
	}
	return nil
}

// syncFolder does nothing: the system writes names through.
func syncFolder(string) error { return nil }
