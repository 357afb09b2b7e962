package main

import (
	"sync/atomic"
	"time"

	"borewright/store"
)

// A backup works for paceWork and then leaves the machine alone for paceRest, and for
// paceKeyed within handRest of a key. On two processors one made at a stretch kept the
// slowest key in a hundred waiting for 24 ms; with paceRest alone it was at work, for 2
// to 4 ms, beside each of the first eleven keys of a burst that took more than 8 ms.
const (
	paceWork  = 2 * time.Millisecond
	paceRest  = 6 * time.Millisecond
	paceKeyed = 100 * time.Millisecond
	handRest  = time.Second
)

// hand is when the last keys came, from whichever goroutine.
type hand struct {
	last atomic.Pointer[time.Time]
	come chan struct{} // has one in it when keys came
}

func newHand() *hand { return &hand{come: make(chan struct{}, 1)} }

// keyed notes that keys come.
func (h *hand) keyed() {
	now := time.Now()
	h.last.Store(&now)
	select {
	case h.come <- struct{}{}:
	default: // nobody has heard of the last yet
	}
}

// still is for how long no key came.
func (h *hand) still() time.Duration {
	if last := h.last.Load(); last != nil {
		return time.Since(*last)
	}
	return 1<<63 - 1
}

// rest is for how long what works beside the hand leaves the machine alone.
func (h *hand) rest() time.Duration {
	if h.still() < handRest {
		return paceKeyed
	}
	return paceRest
}

// pace returns the pace of one backup; there is none from when left is closed on.
func (h *hand) pace(left <-chan struct{}) store.Pace {
	begun := time.Now()
	return func() {
		if time.Since(begun) < paceWork {
			return
		}
		select {
		case <-left:
		case <-time.After(h.rest()):
		}
		begun = time.Now()
	}
}
