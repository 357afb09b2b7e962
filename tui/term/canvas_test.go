package term

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/charmbracelet/x/ansi"
	"github.com/charmbracelet/x/vt"
	"pgregory.net/rapid"

	"borewright/tui/draw"
)

// log keeps each write and when it came.
type log struct {
	start  time.Time
	writes []string
	at     []time.Duration
}

func (l *log) Write(p []byte) (int, error) {
	l.writes, l.at = append(l.writes, string(p)), append(l.at, time.Since(l.start))
	return len(p), nil
}

// canvas runs play on the bubble's clock, with a canvas on which the alternate screen
// is shown and that draws each 8 ms at most, and returns what was written after that.
func canvas(t *testing.T, play func(*Canvas)) *log {
	t.Helper()
	var l *log
	synctest.Test(t, func(t *testing.T) {
		l = &log{start: time.Now()}
		c := NewCanvas(NewOutput(l), 8*time.Millisecond)
		c.Start(func(err error) { t.Error(err) })
		_, _ = c.Write(screenShown)
		synctest.Wait()
		l.writes, l.at = nil, nil
		play(c)
		time.Sleep(time.Second)
		c.Stop()
		synctest.Wait()
	})
	return l
}

func (l *log) is(t *testing.T, want ...string) {
	t.Helper()
	var got []string
	for i, w := range l.writes {
		got = append(got, fmt.Sprintf("%v %q", l.at[i], w))
	}
	for i := 0; i < len(want); i += 2 {
		want[i/2] = fmt.Sprintf("%s %q", want[i], want[i+1])
	}
	if want = want[:len(want)/2]; !slices.Equal(got, want) {
		t.Errorf("wrote\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

func TestAPictureIsDrawnAtOnce(t *testing.T) {
	canvas(t, func(c *Canvas) {
		time.Sleep(3 * time.Millisecond)
		c.Show([]string{"ab", "cdef"}, 4)
	}).is(t, "3ms", "\x1b[Hab\x1b[K\r\ncdef")
}

func TestTwoPicturesAreAGapApart(t *testing.T) {
	canvas(t, func(c *Canvas) {
		for i := range 5 {
			c.Show([]string{"title", strconv.Itoa(i), "foot"}, 9)
			time.Sleep(3 * time.Millisecond)
		}
	}).is(t, "0s", "\x1b[Htitle\x1b[K\r\n0\x1b[K\r\nfoot\x1b[K", "8ms", "\x1b[H\n2\x1b[K", "16ms", "\x1b[H\n4\x1b[K")
}

func TestWhatDoesNotChangeIsNotDrawn(t *testing.T) {
	canvas(t, func(c *Canvas) {
		c.Show([]string{"a", "b"}, 2)
		time.Sleep(20 * time.Millisecond)
		c.Show([]string{"a", "b"}, 2) // is no picture that the next would have to wait for
		time.Sleep(time.Millisecond)
		c.Show([]string{"a", "c"}, 2)
	}).is(t, "0s", "\x1b[Ha\x1b[K\r\nb\x1b[K", "21ms", "\x1b[H\nc\x1b[K")
}

// Whatever else is written may have touched the picture, and has left it when it
// leaves the alternate screen. A bell has not.
func TestAllIsDrawnAgainAfterAnotherWrite(t *testing.T) {
	canvas(t, func(c *Canvas) {
		c.Show([]string{"a"}, 2)
		time.Sleep(20 * time.Millisecond)
		c.Bell(1)
		time.Sleep(time.Millisecond)
		_, _ = io.WriteString(c, ansi.EraseEntireScreen)
		time.Sleep(20 * time.Millisecond)
		_, _ = c.Write([]byte(screenOff))
		c.Show([]string{"b"}, 2)
	}).is(t, "0s", "\x1b[Ha\x1b[K", "20ms", "\a", "21ms", "\x1b[2J", "21ms", "\x1b[Ha\x1b[K", "41ms", screenOff)
}

// stuck is a terminal that takes nothing until it is let go.
type stuck struct{ free chan struct{} }

func (s stuck) Write(p []byte) (int, error) { <-s.free; return len(p), nil }

func TestATerminalThatTakesNothingHoldsUpNobody(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := stuck{make(chan struct{}, 1)}
		c := NewCanvas(NewOutput(s), time.Millisecond)
		c.Start(nil)
		s.free <- struct{}{}
		_, _ = c.Write(screenShown)
		for range 10 {
			c.Show([]string{"a"}, 1)
			synctest.Wait()
		}
		close(s.free)
		c.Stop()
	})
}

func TestAPanicWhileDrawingIsReported(t *testing.T) {
	c := NewCanvas(NewOutput(panicking{"out of ink"}), time.Millisecond)
	c.active = true
	reports := make(chan error)
	c.Start(func(err error) { reports <- err })
	c.Show([]string{"a"}, 1)
	if err := <-reports; err.Error() != "a part of the program failed: out of ink" {
		t.Errorf("reported %v", err)
	}
}

// Of a line only what follows the first change is drawn, in its style, and no blanks
// at its end.
func TestALineIsDrawnFromItsFirstChange(t *testing.T) {
	canvas(t, func(c *Canvas) {
		for _, line := range []string{"bore 1 │ \x1b[31m3.7500\x1b[0m    ", "bore 1 │ \x1b[31m3.7512\x1b[0m    ", "bore 1           "} {
			c.Show([]string{line}, 17)
			time.Sleep(20 * time.Millisecond)
		}
	}).is(t, "0s", "\x1b[Hbore 1 │ \x1b[31m3.7500\x1b[0m\x1b[K", "20ms", "\x1b[H\x1b[12C\x1b[31m512\x1b[0m\x1b[K", "40ms", "\x1b[H\x1b[6C\x1b[K")
}

// TestPicturesOnATerminal: whatever was shown before, a terminal shows the picture as
// one that shows it first.
func TestPicturesOnATerminal(t *testing.T) {
	const w, h = 12, 5
	part := rapid.OneOf(rapid.SampledFrom([]string{
		"a", "bore", "     ", "·", "é", "e\u0301", "日", "─", "│", "█▌", "\x1b[31mred\x1b[0m", "\x1b[1m \x1b[0m", "\x1b[1;32m█\x1b[m",
	}), rapid.StringMatching(`[a-c ]{0,3}`))
	lines := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) string {
		line := draw.Cut(strings.Join(rapid.SliceOfN(part, 0, 6).Draw(t, "parts"), ""), w)
		if rapid.Bool().Draw(t, "padded") {
			line = draw.Fit(line, w)
		}
		return line
	}), 1, h)
	rapid.Check(t, func(t *rapid.T) {
		var out bytes.Buffer
		screen := vt.NewEmulator(w, h)
		c := NewCanvas(NewOutput(&out), 0)
		_, _ = c.Write(screenShown)
		for range rapid.IntRange(1, 5).Draw(t, "pictures") {
			if rapid.Bool().Draw(t, "touched") {
				_, _ = c.Write([]byte("\x1b[Htouched\r\n\x1b[2J\x1b[H"))
			}
			next := lines.Draw(t, "lines")
			c.Show(next, w)
			c.paint()
			_, _ = screen.Write(out.Bytes())
			out.Reset()
			first := vt.NewEmulator(w, h)
			_, _ = first.WriteString(strings.Join(next, "\r\n"))
			if got, want := screen.Render(), first.Render(); got != want {
				t.Fatalf("shows\n%q\nwant\n%q", got, want)
			}
		}
	})
}
