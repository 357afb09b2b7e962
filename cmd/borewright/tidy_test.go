package main

import (
	"runtime"
	"runtime/debug"
	"sync/atomic"
	"testing"
	"testing/synctest"
	"time"
)

// TestTidier: garbage that is worth it is collected once the hand rests, not before, and
// no more is looked at some time after.
func TestTidier(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		h, done := newHand(), make(chan struct{})
		var waste atomic.Uint64
		var looked, collected atomic.Int64
		x := tidier{h, func() (uint64, uint64) { looked.Add(1); return waste.Load(), 80 << 20 }, func() { collected.Add(1); waste.Store(0) }}
		go x.run(done)
		key := func(times int) {
			for range times {
				h.keyed()
				time.Sleep(tidyEvery / 3)
				waste.Add(1 << 20)
			}
		}
		expect := func(when string, want int64) {
			t.Helper()
			synctest.Wait()
			if got := collected.Load(); got != want {
				t.Errorf("%s it was collected %d times, want %d", when, got, want)
			}
		}
		time.Sleep(time.Hour)
		if n := looked.Load(); n != 0 {
			t.Errorf("where nobody keyed it looked %d times", n)
		}
		key(50)
		expect("while keys come", 0)
		time.Sleep(2 * tidyEvery)
		expect("once the hand rests", 1)
		key(9)
		time.Sleep(time.Minute)
		expect("with an eighth of the room not filled", 1)
		key(1)
		time.Sleep(2 * tidyEvery)
		expect("with an eighth of the room filled", 2)
		before := looked.Load()
		time.Sleep(time.Hour)
		if n, most := looked.Load()-before, int64(tidyFor/tidyEvery); n > most {
			t.Errorf("it looked %d times after the last key, want %d at most", n, most)
		}
		waste.Store(80 << 20)
		close(done)
		h.keyed()
		time.Sleep(time.Minute)
		expect("when it is over", 2)
	})
}

func TestWorthIt(t *testing.T) {
	for _, tt := range []struct {
		garbage, room uint64
		want          bool
	}{
		{leastGarbage - 1, 0, false},
		{leastGarbage, 0, true},
		{leastGarbage, 8 * leastGarbage, true},
		{leastGarbage, 8*leastGarbage + 8, false},
		{leastGarbage + 1, 8*leastGarbage + 8, true},
	} {
		if got := worthIt(tt.garbage, tt.room); got != tt.want {
			t.Errorf("%d bytes of %d: %v", tt.garbage, tt.room, got)
		}
	}
}

// TestGarbage: what was taken is seen, and is gone when it is collected.
func TestGarbage(t *testing.T) {
	const piece = 64 << 20
	defer debug.SetGCPercent(debug.SetGCPercent(-1))
	runtime.GC()
	held := make([]byte, piece)
	if taken, room := garbage(); taken < piece/2 || room < piece {
		t.Errorf("%d bytes are taken of %d", taken, room)
	}
	runtime.KeepAlive(held)
	runtime.GC()
	if taken, _ := garbage(); taken >= piece/2 {
		t.Errorf("%d bytes are left", taken)
	}
}
