package main

import (
	"runtime"
	"runtime/debug"
	"testing"
	"time"
)

func TestPercentFor(t *testing.T) {
	t.Parallel()
	for used, want := range map[uint64]int{
		0: 400, 1 << 20: 400, 4 << 20: 300, 8 << 20: 100, 9 << 20: 100, longHeap - 1: 100, longHeap: longPercent, 1 << 30: longPercent,
	} {
		if got := percentFor(used); got != want {
			t.Errorf("%d bytes in use: %d %%, want %d", used, got, want)
		}
	}
}

// TestRoomyHeap: what is in use decides after each collection, and it is as before
// once it is stopped.
func TestRoomyHeap(t *testing.T) {
	const odd = 123
	defer debug.SetGCPercent(debug.SetGCPercent(odd))
	stop := roomyHeap()
	held := make([]byte, leastHeap)
	for end := time.Now().Add(20 * time.Second); ; {
		runtime.GC()
		if gcPercent() == usualPercent {
			break
		}
		if time.Now().After(end) {
			t.Fatalf("with %d bytes in use it is %d %%", len(held), gcPercent())
		}
	}
	runtime.KeepAlive(held)
	stop()
	runtime.GC()
	if got := gcPercent(); got != odd {
		t.Errorf("stopped it is %d %%", got)
	}
}

// gcPercent returns what is set.
func gcPercent() int {
	is := debug.SetGCPercent(usualPercent)
	debug.SetGCPercent(is)
	return is
}
