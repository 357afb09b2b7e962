package store

import (
	"fmt"
	"math/rand/v2"
	"os"
)

// ballastSize is how many bytes the reserve takes: room for some 30,000 events.
const ballastSize = 8 << 20

// lowSpace is the free space, in bytes, below which the user is warned and no
// reserve is made.
const lowSpace = 100 << 20

// reserve looks at the free space and keeps the reserve beside the database if
// that is wanted. Failing is no error: the database works without.
func (f *file) reserve(wanted bool) {
	free, err := f.hooks.free(f.path)
	if err == nil && free < lowSpace {
		f.warn(fmt.Sprintf("only %d MiB are free where the database lies: make room before you measure", free>>20))
	}
	if !wanted {
		return
	}
	path := f.path + ".ballast"
	if info, err := os.Stat(path); err == nil && info.Mode().IsRegular() && info.Size() == ballastSize {
		f.ballast = path
		return
	}
	if err != nil || free < lowSpace {
		return
	}
	if err := publish(path, true, fillBallast); err != nil {
		f.warn(fmt.Sprintf("no reserve could be kept for a full disk: %v", explain(path, err)))
		return
	}
	f.ballast = path
}

// fillBallast writes noise, which no file system can store in less.
func fillBallast(path string) error {
	noise := rand.NewChaCha8([32]byte{})
	data := make([]byte, ballastSize)
	_, _ = noise.Read(data)
	return os.WriteFile(path, data, 0o600)
}

// spend gives the reserve up and reports whether there was one.
func (f *file) spend() bool {
	if f.ballast == "" {
		return false
	}
	path := f.ballast
	f.ballast = ""
	if err := os.Remove(path); err != nil {
		return false
	}
	f.warn("the disk is full: the reserve beside the database was used up, so finish the session and make room")
	return true
}
