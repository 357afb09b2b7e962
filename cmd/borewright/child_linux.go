package main

import "golang.org/x/sys/unix"

// limitSystem has the system refuse memory beyond so many bytes. A system that
// sets no limit leaves the collector's own.
func limitSystem(bytes int64) {
	_ = unix.Setrlimit(unix.RLIMIT_DATA, &unix.Rlimit{Cur: uint64(bytes), Max: uint64(bytes)})
}
