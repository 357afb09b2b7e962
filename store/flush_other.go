//go:build !linux

package store

import "os"

// flushData returns when what the file holds is safe.
func flushData(f *os.File) error { return f.Sync() }
