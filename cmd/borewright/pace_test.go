package main

import (
	"testing"
	"testing/synctest"
	"time"
)

// TestPace: what is done beside the hand takes a quarter of the time, a fiftieth while
// keys come, and all of it once the station is left.
func TestPace(t *testing.T) {
	for _, tt := range []struct {
		name            string
		keyed, left     bool
		atLeast, atMost time.Duration
	}{
		{name: "nobody keys", atLeast: 2490 * time.Millisecond, atMost: 2510 * time.Millisecond},
		{name: "somebody keys", keyed: true, atLeast: 190 * time.Millisecond, atMost: 210 * time.Millisecond},
		{name: "left", left: true, atLeast: 10 * time.Second, atMost: 10 * time.Second},
	} {
		t.Run(tt.name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				h := newHand()
				left := make(chan struct{})
				if tt.left {
					close(left)
				}
				over := time.Now().Add(10 * time.Second)
				if tt.keyed {
					go func() {
						for time.Now().Before(over) {
							h.keyed()
							time.Sleep(20 * time.Millisecond)
						}
					}()
				}
				pace, worked := h.pace(left), time.Duration(0)
				for time.Now().Before(over) {
					time.Sleep(time.Millisecond) // the work of a page
					worked += time.Millisecond
					pace()
				}
				if worked < tt.atLeast || worked > tt.atMost {
					t.Errorf("worked for %v of 10 s", worked)
				}
			})
		})
	}
}

// TestPaceAfterKeys: the backup goes on as before once the hand rests.
func TestPaceAfterKeys(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		h := newHand()
		for wait, want := range map[time.Duration]time.Duration{0: paceKeyed, handRest - 1: paceKeyed, handRest: paceRest} {
			h.keyed()
			time.Sleep(wait)
			if got := h.rest(); got != want {
				t.Errorf("%v after a key it rests for %v, want %v", wait, got, want)
			}
		}
	})
}
