package term

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/charmbracelet/x/ansi"
	"github.com/charmbracelet/x/vt"
	"pgregory.net/rapid"
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
		c.Show("ab\ncdef", 4)
	}).is(t, "3ms", "\x1b[Hab\x1b[K\r\ncdef")
}

func TestTwoPicturesAreAGapApart(t *testing.T) {
	canvas(t, func(c *Canvas) {
		for i := range 5 {
			c.Show(fmt.Sprintf("title\n%d\nfoot", i), 9)
			time.Sleep(3 * time.Millisecond)
		}
	}).is(t, "0s", "\x1b[Htitle\x1b[K\r\n0\x1b[K\r\nfoot\x1b[K", "8ms", "\x1b[H\n2\x1b[K", "16ms", "\x1b[H\n4\x1b[K")
}

func TestWhatDoesNotChangeIsNotDrawn(t *testing.T) {
	canvas(t, func(c *Canvas) {
		c.Show("a\nb", 2)
		time.Sleep(20 * time.Millisecond)
		c.Show("a\nb", 2) // is no picture that the next would have to wait for
		time.Sleep(time.Millisecond)
		c.Show("a\nc", 2)
	}).is(t, "0s", "\x1b[Ha\x1b[K\r\nb\x1b[K", "21ms", "\x1b[H\nc\x1b[K")
}

// Whatever else is written may have touched the picture, and has left it when it
// leaves the alternate screen. A bell has not.
func TestAllIsDrawnAgainAfterAnotherWrite(t *testing.T) {
	canvas(t, func(c *Canvas) {
		c.Show("a", 2)
		time.Sleep(20 * time.Millisecond)
		c.Bell(1)
		time.Sleep(time.Millisecond)
		_, _ = io.WriteString(c, ansi.EraseEntireScreen)
		time.Sleep(20 * time.Millisecond)
		_, _ = c.Write([]byte(screenOff))
		c.Show("b", 2)
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
			c.Show("a", 1)
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
	c.Show("a", 1)
	if err := <-reports; err.Error() != "a part of the program failed: out of ink" {
		t.Errorf("reported %v", err)
	}
}

// TestPicturesOnATerminal: whatever was shown before, a terminal shows the picture.
func TestPicturesOnATerminal(t *testing.T) {
	const w, h = 12, 5
	line := rapid.OneOf(rapid.SampledFrom([]string{"", "a", "full width ·", "\x1b[31mred\x1b[0m", "└──┐"}), rapid.StringMatching(`[a-c ]{0,12}`))
	lines := rapid.SliceOfN(line, 1, h)
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
			c.Show(strings.Join(next, "\n"), w)
			c.paint()
			_, _ = screen.Write(out.Bytes())
			out.Reset()
			want := make([]string, h)
			for i := range next {
				want[i] = strings.TrimRight(ansi.Strip(next[i]), " ")
			}
			for i, got := range strings.Split(screen.String(), "\n") {
				if got = strings.TrimRight(got, " "); got != want[i] {
					t.Fatalf("line %d is %q, want %q", i, got, want[i])
				}
			}
		}
	})
}
