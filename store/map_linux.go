package store

import "golang.org/x/sys/unix"

// release gives back a mapping of a file that is not written through it. That
// it cannot is no harm.
func release(at, size uintptr) {
	_, _, _ = unix.Syscall(unix.SYS_MADVISE, at, size, unix.MADV_DONTNEED)
}
