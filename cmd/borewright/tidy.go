package main

import (
	"runtime"
	"runtime/metrics"
	"time"
)

// Garbage is collected while the hand rests. In a session of 100,000 events a collection
// takes both of two processors for 60 to 80 ms: the keys of a burst that met one were
// shown 17 to 28 ms late, and without one the latest is 8 to 15.
//
// It is looked at each tidyEvery until tidyFor after the last key, and collected where
// no key came for tidyEvery. Nothing wakes up where nobody keys.
const (
	tidyEvery = 150 * time.Millisecond
	tidyFor   = 3 * time.Second
)

// Garbage is worth collecting when it fills a tidyShare of the room that is left for it
// until it has to be collected, and leastGarbage.
const tidyShare, leastGarbage = 8, 4 << 20

// tidier collects garbage while nobody keys.
type tidier struct {
	hand    *hand
	look    func() (garbage, room uint64) // in bytes
	collect func()
}

// newTidier returns one for this process.
func newTidier(h *hand) *tidier { return &tidier{h, garbage, runtime.GC} }

// run collects until done is closed.
func (t *tidier) run(done <-chan struct{}) {
	for {
		select {
		case <-t.hand.come:
		case <-done:
			return
		}
		for t.hand.still() < tidyFor {
			select {
			case <-time.After(tidyEvery):
			case <-done:
				return
			}
			if t.hand.still() >= tidyEvery && worthIt(t.look()) {
				t.collect()
			}
		}
	}
}

func worthIt(garbage, room uint64) bool { return garbage >= max(leastGarbage, room/tidyShare) }

// garbage returns how many bytes were taken since the last collection, and how many may
// be until the next.
func garbage() (taken, room uint64) {
	of := []metrics.Sample{
		{Name: "/gc/heap/live:bytes"}, {Name: "/memory/classes/heap/objects:bytes"}, {Name: "/gc/heap/goal:bytes"},
	}
	metrics.Read(of)
	live, now, goal := of[0].Value.Uint64(), of[1].Value.Uint64(), of[2].Value.Uint64()
	return now - min(live, now), goal - min(live, goal)
}
