//go:build unix

package main

import (
	"fmt"
	"math/rand/v2"
	"runtime"
	"slices"
	"testing"
	"time"

	"borewright/engine/record"
	"borewright/store"
)

// The figures of the whole program, each on a terminal of its own. Machines are
// noisy: what is compared takes turns, key by key or start by start, and the
// figure is a ratio. The table of all of them is what .ci/bench prints.

// longEvents is how many events the session has on which keys are timed.
const longEvents = 100_000

// keyed is a way to key one bore place: what is typed, and what leaves it.
var keyed = []string{"6", "/"}

// rounds is how often something is timed: fewer times when -short is given.
func rounds(full, short int) int {
	if testing.Short() {
		return short
	}
	return full
}

// BenchmarkKeyToScreen times keys from the byte written to the terminal to the
// last changed cell read back, in turns with the least program that echoes: at
// the station's own 120 frames a second, and at the usual 60.
func BenchmarkKeyToScreen(b *testing.B) {
	station, echo := built(b, "cmd/borewright"), built(b, "testdata/bench/echo")
	long := shop(b, 1, longEvents)
	for _, size := range [][2]int{{80, 24}, {200, 60}} {
		b.Run(fmt.Sprintf("%dx%d", size[0], size[1]), func(b *testing.B) {
			b.ReportMetric(0, "ns/op")
			same := startTimed(b, size[0], size[1], echo, "120")
			usual := startTimed(b, size[0], size[1], echo, "60")
			ours := startTimed(b, size[0], size[1], station, "--db", copyOf(b, long))
			resume(b, ours)
			same.until(b, "typed")
			usual.until(b, "typed")
			var all [3][]time.Duration
			for i := range rounds(400, 60) {
				for k, t := range []*timed{ours, same, usual} {
					time.Sleep(rand.N(17 * time.Millisecond))
					all[k] = append(all[k], t.press(b, keyed[i%2]))
				}
			}
			for k, name := range []string{"station", "echo120", "echo60"} {
				b.ReportMetric(share(all[k], 0.5), name+"-p50-ms")
				b.ReportMetric(share(all[k], 0.99), name+"-p99-ms")
			}
			b.ReportMetric(share(all[0], 0.5)/share(all[1], 0.5), "p50-x")
			b.ReportMetric(share(all[0], 0.99)/share(all[1], 0.99), "p99-x")
			b.ReportMetric(share(all[0], 0.5)/share(all[2], 0.5), "p50-x60")
			b.ReportMetric(share(all[0], 0.99)/share(all[2], 0.99), "p99-x60")
		})
	}
}

// resume opens the session that the bench marks.
func resume(b *testing.B, t *timed) {
	b.Helper()
	t.until(b, "Vee eight")
	t.quiet(100 * time.Millisecond)
	t.write(b, "\r")
	t.until(b, " of 423")
	t.quiet(200 * time.Millisecond)
}

// bellRest is for how long the bell is quiet after it rang.
const bellRest = 480 * time.Millisecond

// BenchmarkEnterToScreen times Enter to the frame with the reading, pending, and
// to the bell that says it is kept.
func BenchmarkEnterToScreen(b *testing.B) {
	station, long := built(b, "cmd/borewright"), shop(b, 1, longEvents)
	for _, size := range [][2]int{{80, 24}, {200, 60}} {
		b.Run(fmt.Sprintf("%dx%d", size[0], size[1]), func(b *testing.B) {
			b.ReportMetric(0, "ns/op")
			t := startTimed(b, size[0], size[1], station, "--db", copyOf(b, long))
			resume(b, t)
			var pending, kept []time.Duration
			for range rounds(60, 10) {
				t.press(b, "6")
				time.Sleep(bellRest + rand.N(17*time.Millisecond))
				t.quiet(0)
				start := time.Now()
				t.write(b, "\r")
				drawn, rang := t.drawnAndRang(b)
				pending, kept = append(pending, drawn.Sub(start)), append(kept, rang.Sub(start))
			}
			for name, ds := range map[string][]time.Duration{"pending": pending, "kept": kept} {
				b.ReportMetric(share(ds, 0.5), name+"-p50-ms")
				b.ReportMetric(share(ds, 0.99), name+"-p99-ms")
			}
		})
	}
}

// drawnAndRang returns when the next frame came and when the bell rang, which
// may be before it.
func (t *timed) drawnAndRang(b *testing.B) (drawn, rang time.Time) {
	b.Helper()
	late := time.After(5 * time.Second)
	for drawn.IsZero() || rang.IsZero() {
		select {
		case c := <-t.output:
			frame := len(c.data)
			for _, x := range c.data {
				if x == '\a' {
					rang = c.at
					frame--
				}
			}
			if frame > 0 && drawn.IsZero() {
				drawn = c.at
			}
		case <-late:
			b.Fatalf("drawn %v, rang %v", drawn, rang)
		}
	}
	return drawn, rang
}

// tick is the time between two frames.
const tick = time.Second / 120

// BenchmarkBurst keys readings at 50 keys a second and counts what is lost, and how
// many frames the latest key was behind. The least program is keyed as fast before it:
// what it is behind more than its one frame is the machine's own, and the bench's.
func BenchmarkBurst(b *testing.B) {
	station, echo := built(b, "cmd/borewright"), built(b, "testdata/bench/echo")
	long := shop(b, 1, longEvents)
	for _, size := range [][2]int{{80, 24}, {200, 60}} {
		b.Run(fmt.Sprintf("%dx%d", size[0], size[1]), func(b *testing.B) {
			b.ReportMetric(0, "ns/op")
			path, readings := copyOf(b, long), rounds(150, 50)
			least := startTimed(b, size[0], size[1], echo, "120")
			least.until(b, "typed")
			b.ReportMetric(frames(least.burst(b, readings)), "echo-frames-behind")
			least.kill()
			t := startTimed(b, size[0], size[1], station, "--db", path)
			resume(b, t)
			behind := t.burst(b, readings)
			b.ReportMetric(share(behind, 1), "most-ms")
			b.ReportMetric(share(behind, 0.5), "p50-ms")
			b.ReportMetric(frames(behind), "frames-behind")
			t.quiet(700 * time.Millisecond)
			t.kill()
			b.ReportMetric(float64(readings-readSince(b, path)), "lost")
		})
	}
}

// frames is how many frames the slowest of some keys took.
func frames(behind []time.Duration) float64 {
	return float64(slices.Max(behind)) / float64(tick)
}

// burst keys readings of a digit and Enter, a key each 20 ms, and returns how long
// after each key the first output came that is no bell. It only looks at the output
// when all is keyed, so that nothing of its own is in the way.
func (t *timed) burst(b *testing.B, readings int) []time.Duration {
	b.Helper()
	runtime.GC() // what made the database is not collected while keys are timed
	t.quiet(0)
	clock := time.NewTicker(20 * time.Millisecond)
	defer clock.Stop()
	keyed := make([]time.Time, 2*readings)
	for i := range keyed {
		<-clock.C
		keyed[i] = time.Now()
		t.write(b, []string{"6", "\r"}[i%2])
	}
	drawn := t.drawn(300 * time.Millisecond)
	behind := make([]time.Duration, len(keyed))
	for i, at := range keyed {
		next, _ := slices.BinarySearchFunc(drawn, at, time.Time.Compare)
		if next == len(drawn) {
			b.Fatalf("no output after key %d of %d", i+1, len(keyed))
		}
		behind[i] = drawn[next].Sub(at)
	}
	return behind
}

// drawn returns when each output came that is no bell, until nothing comes for so
// long.
func (t *timed) drawn(long time.Duration) (at []time.Time) {
	for {
		select {
		case c := <-t.output:
			if string(c.data) != "\a" {
				at = append(at, c.at)
			}
		case <-time.After(long):
			return at
		}
	}
}

// readSince counts the readings behind the honing that ends a long session.
func readSince(b *testing.B, path string) int {
	b.Helper()
	db, err := store.Open(path, store.Options{})
	if err != nil {
		b.Fatal(err)
	}
	defer db.Close() //nolint:errcheck // it was only read
	events, err := db.Load("00000")
	if err != nil {
		b.Fatal(err)
	}
	n := 0
	for _, e := range events[longEvents:] {
		if e.Is() == record.IsReading {
			n++
		}
	}
	waitFor(b, db)
	return n
}
