//go:build unix

package main

import (
	"fmt"
	"os"
	"testing"
	"time"

	"borewright/store"
)

// storyLook is what the clock gains each time it is looked at, as it is once for
// each run of characters and each other key: a burst's last characters and its
// Enter are one look apart, which is a cable's speed, and two are a hand's.
const storyLook = 25 * time.Millisecond

// storyWorld is the process's world with a clock and identities that are the
// same in every run.
func storyWorld() World {
	w := processWorld()
	start, err := time.Parse(time.RFC3339, os.Getenv("STORY_CLOCK"))
	if err != nil {
		panic("STORY_CLOCK: " + err.Error())
	}
	w.Now = steppingClock(start, time.Second)
	w.Watch = steppingClock(start, storyLook)
	w.UID = countedUID(os.Getenv("STORY_UID"))
	breakOff(&w, os.Getenv("STORY_PANIC"))
	if os.Getenv(earlyVariable) != "" {
		open := w.Open
		w.Open = func(path string, o store.Options) (Book, error) { return openEarly(open, path, o) }
	}
	return w
}

// steppingClock returns start, then a step more at each call.
func steppingClock(start time.Time, step time.Duration) func() time.Time {
	next := start
	return func() time.Time {
		now := next
		next = next.Add(step)
		return now
	}
}

// countedUID returns base, base-2, base-3 and so on.
func countedUID(base string) func() string {
	given := 0
	return func() string {
		given++
		if given == 1 {
			return base
		}
		return fmt.Sprintf("%s-%d", base, given)
	}
}

func TestStoryWorldRepeats(t *testing.T) {
	t.Parallel()
	start := time.Date(2026, 3, 2, 8, 0, 0, 0, time.FixedZone("", 3600))
	now, uid := steppingClock(start, time.Second), countedUID("x")
	for i, want := range []string{"x", "x-2", "x-3"} {
		if got := uid(); got != want {
			t.Errorf("identity %d is %q, want %q", i+1, got, want)
		}
		if got := now().Sub(start); got != time.Duration(i)*time.Second {
			t.Errorf("reading %d of the clock is %v after the start", i+1, got)
		}
	}
}
