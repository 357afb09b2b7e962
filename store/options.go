package store

import (
	"os"
	"time"
)

// Options say how a store behaves. The zero value is ready for use.
type Options struct {
	// Notify hears the outcome of every attempt to keep events, in their
	// order, from the writer's goroutine. It may call Keep, Retry and Pending;
	// it must not wait for the writer by Wait, Append, Rebuild or Close.
	Notify func(Outcome)
	// Ballast keeps a file of 8 MiB beside the database, which is given up
	// when the disk is full so that the session can be finished.
	Ballast bool
	// Crash writes down a panic in the writer's goroutine, with its stack, and
	// returns where, or "" when it cannot. It is called from that goroutine.
	Crash func(report string) (where string)
	// Damaged hears, from the writer's goroutine, of damage that was found while the
	// store was idle: the pages of a large file are walked after it is open.
	Damaged func(err error)

	hooks hooks
}

// Outcome is what became of events that Keep or Append took: kept when Err is
// nil, else still waiting.
type Outcome struct {
	UID         string
	First, Last int64
	Err         error
	// Took is how long the attempt took, flushes included.
	Took time.Duration
	// Reserve says that the ballast was given up for it: the disk is full.
	Reserve bool
}

// hooks let the tests of this package stand between the store and the system.
// The zero value is the system itself.
type hooks struct {
	openFile func(name string, flag int, mode os.FileMode) (*os.File, error)
	// fault is asked inside every transaction that writes ("write"), after its
	// commit ("written"), inside one that a copy is made in ("copy"), and before the
	// pages of a large file are walked ("walk"); what it returns is the error of that.
	fault func(stage string) error
	// free returns the bytes free for the user beside the path.
	free func(path string) (uint64, error)
	// network returns the name of the network file system below the path.
	network func(path string) (string, error)
	// walkAtOnce is how many pages are walked before a file is open.
	walkAtOnce uint64
	maxSize    int
	lockWait   time.Duration
	// closeWait is how long Close waits for an attempt under way.
	closeWait time.Duration
	// rest is how long the writer rests before it begins.
	rest time.Duration
}

func (h hooks) filled() hooks {
	if h.openFile == nil {
		h.openFile = os.OpenFile
	}
	if h.fault == nil {
		h.fault = func(string) error { return nil }
	}
	if h.free == nil {
		h.free = freeSpace
	}
	if h.network == nil {
		h.network = networkDisk
	}
	if h.walkAtOnce == 0 {
		h.walkAtOnce = uint64(walkAtOnce)
	}
	if h.lockWait == 0 {
		h.lockWait = time.Second
	}
	if h.closeWait == 0 {
		h.closeWait = 30 * time.Second
	}
	if h.rest == 0 {
		h.rest = restFor
	}
	return h
}
