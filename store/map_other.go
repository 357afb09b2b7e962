//go:build !linux

package store

// release does nothing where the system does not need it.
func release(uintptr, uintptr) {}
