package store

import (
	"os"

	"golang.org/x/sys/unix"
)

// flushData returns when what the file holds is safe, whatever of its times is not.
func flushData(f *os.File) error {
	for {
		if err := unix.Fdatasync(int(f.Fd())); err != unix.EINTR {
			return os.NewSyscallError("fdatasync", err)
		}
	}
}
