//go:build unix

package main

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"slices"
	"testing"
	"time"

	"github.com/creack/pty"
)

// frameGap ends a frame: a program that has written nothing for so long has
// drawn all of it. Two frames are 8 ms apart at least.
const frameGap = 2500 * time.Microsecond

// timed is a program on a terminal of its own whose output is timed as it is
// read, and not looked at.
type timed struct {
	program *exec.Cmd
	tty     *os.File
	output  chan chunk
}

// chunk is what one read brought, and when.
type chunk struct {
	at   time.Time
	data []byte
}

// startTimed starts a program on a terminal of w columns and h rows.
func startTimed(b *testing.B, w, h int, program string, args ...string) *timed {
	b.Helper()
	t := &timed{program: exec.Command(program, args...), output: make(chan chunk, 1<<16)}
	t.program.Env = append(append(os.Environ(), storyVars...), "BOREWRIGHT_BY=ek")
	tty, err := pty.StartWithSize(t.program, &pty.Winsize{Cols: uint16(w), Rows: uint16(h)})
	if err != nil {
		b.Fatal(err)
	}
	t.tty = tty
	go t.pump()
	b.Cleanup(func() { t.kill() })
	return t
}

func (t *timed) pump() {
	defer close(t.output)
	buf := make([]byte, 1<<16)
	for {
		n, err := t.tty.Read(buf)
		if n > 0 {
			t.output <- chunk{time.Now(), bytes.Clone(buf[:n])}
		}
		if err != nil {
			return
		}
	}
}

// kill ends the program and waits until its output is read.
func (t *timed) kill() {
	_ = t.program.Process.Kill() // it may have ended by itself
	_ = t.program.Wait()         // however it ended
	for range t.output {
		continue
	}
	_ = t.tty.Close() // nothing is left to be said on it
}

var errSilent = errors.New("the program wrote nothing for so long")

// frame waits for output and returns when the last of the first frame came, and
// all of it.
func (t *timed) frame() (chunk, error) {
	var got chunk
	select {
	case c, ok := <-t.output:
		if !ok {
			return got, errors.New("the program ended")
		}
		got = c
	case <-time.After(4 * patience):
		return got, errSilent
	}
	for {
		select {
		case c := <-t.output:
			got.at, got.data = c.at, append(got.data, c.data...)
		case <-time.After(frameGap):
			return got, nil
		}
	}
}

// until reads frames until one has a text, and returns when that came.
func (t *timed) until(b *testing.B, text string) time.Time {
	b.Helper()
	var all []byte
	for {
		f, err := t.frame()
		if err != nil {
			b.Fatalf("waiting for %q: %v; it wrote %d bytes", text, err, len(all))
		}
		if all = append(all, f.data...); bytes.Contains(all, []byte(text)) {
			return f.at
		}
	}
}

// quiet waits until nothing has come for so long and forgets what did.
func (t *timed) quiet(long time.Duration) {
	for {
		select {
		case _, ok := <-t.output:
			if !ok {
				return
			}
		case <-time.After(long):
			return
		}
	}
}

// press writes keys and returns how long it took until the frame that follows
// was read back.
func (t *timed) press(b *testing.B, keys string) time.Duration {
	b.Helper()
	t.quiet(0)
	start := time.Now()
	t.write(b, keys)
	f, err := t.frame()
	if err != nil {
		b.Fatalf("after %q: %v", keys, err)
	}
	return f.at.Sub(start)
}

func (t *timed) write(b *testing.B, keys string) {
	b.Helper()
	if _, err := t.tty.WriteString(keys); err != nil {
		b.Fatal(err)
	}
}

// share returns the value below which that share of the durations lies, in
// milliseconds.
func share(ds []time.Duration, of float64) float64 {
	sorted := slices.Sorted(slices.Values(ds))
	return float64(sorted[min(len(sorted)-1, int(of*float64(len(sorted))))]) / float64(time.Millisecond)
}

// median returns the middle one of some figures.
func median(xs []float64) float64 {
	sorted := slices.Sorted(slices.Values(xs))
	return sorted[len(sorted)/2]
}
