package main

import (
	"runtime"
	"runtime/debug"
	"runtime/metrics"
	"sync"
)

// leastHeap is to how many bytes the heap grows before garbage is collected, where
// twice what is in use is less. With the usual 4 MB it was collected twice while a
// session of 500 events was resumed, which came a frame later. With a block that is
// taken and never touched, to raise the heap, it was a frame later too.
const leastHeap = 16 << 20

// Twice what is in use, and at least usualHeap: so it is left alone.
const usualPercent, usualHeap = 100, 4 << 20

// From longHeap in use on it grows to three times that: a session of 100,000 events is
// 42 MB, and with twice as much 300 keys at 50 a second met a collection.
const longPercent, longHeap = 200, 32 << 20

// roomyHeap collects garbage at leastHeap until it is stopped. Where half of that
// is in use it changes nothing, up to longHeap.
func roomyHeap() (stop func()) {
	var mu sync.Mutex
	stopped := false
	before := debug.SetGCPercent(percentFor(0))
	var arm func()
	arm = func() {
		runtime.SetFinalizer(new([64]byte), func(*[64]byte) { // after each collection
			mu.Lock()
			defer mu.Unlock()
			if !stopped {
				debug.SetGCPercent(percentFor(heapInUse()))
				arm()
			}
		})
	}
	arm()
	return func() {
		mu.Lock()
		defer mu.Unlock()
		stopped = true
		debug.SetGCPercent(before)
	}
}

// percentFor returns by how many hundredths of the bytes in use the heap grows: to
// leastHeap, but not below the usual, and no more than four times that, because the
// least heap grows with it; longPercent from longHeap on.
func percentFor(used uint64) int {
	switch {
	case used >= longHeap:
		return longPercent
	case used >= leastHeap/2:
		return usualPercent
	}
	return int(min(usualPercent*leastHeap/usualHeap, 100*(leastHeap-used)/max(used, 1)))
}

// heapInUse returns how many bytes the last collection left.
func heapInUse() uint64 {
	live := []metrics.Sample{{Name: "/gc/heap/live:bytes"}}
	metrics.Read(live)
	return live[0].Value.Uint64()
}
