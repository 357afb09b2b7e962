package term

import (
	"bytes"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"github.com/charmbracelet/x/ansi"
	xterm "github.com/charmbracelet/x/term"

	"borewright/tui/draw"
)

// Canvas draws pictures on an output as soon as they are there, one each gap at
// most. Bubble Tea's own renderer waits for the next beat of a clock instead: with it,
// at as many frames a second, half the keys took 3.2 to 4.1 times as long to show.
//
// Give it to tea.WithOutput, have the model's View return "" and give [Canvas.Show]
// what is to be seen. The library goes on to prepare the terminal and to put it right
// at the end. Whatever it writes may have touched the picture: all of it is drawn
// again, while the alternate screen is shown and never after.
type Canvas struct {
	*Output
	gap  time.Duration
	wake chan struct{} // something is to be drawn
	done chan struct{}
	next atomic.Pointer[picture]

	mu     sync.Mutex // held while something is written
	active bool       // the alternate screen is shown
	shown  []string   // the lines on it; none when they may have been touched
	buf    []byte
}

// picture is what a window shows: its lines, of w cells at most.
type picture struct {
	lines []string
	w     int
}

var _ xterm.File = (*Canvas)(nil)

// NewCanvas returns a canvas that draws on out, two pictures gap apart at least.
func NewCanvas(out *Output, gap time.Duration) *Canvas {
	return &Canvas{Output: out, gap: gap, wake: make(chan struct{}, 1), done: make(chan struct{})}
}

// Start draws in a goroutine of its own until Stop: a terminal that takes nothing
// holds up no key. A panic is given to report.
func (c *Canvas) Start(report func(error)) { Go(c.draw, report) }

// Stop ends drawing. Call it once.
func (c *Canvas) Stop() { close(c.done) }

// Show has a picture shown, in lines of w cells at most that leave no style on and are
// the canvas's from then on. It lets the drawing go first:
// while garbage is collected on two processors, or a backup is made, the next message
// and whoever else was waiting held it up for 4 ms.
func (c *Canvas) Show(lines []string, w int) {
	c.next.Store(&picture{lines, w})
	c.stir()
	runtime.Gosched()
}

func (c *Canvas) stir() {
	select {
	case c.wake <- struct{}{}:
	default: // it is on its way
	}
}

// What turns the alternate screen on and off, as Bubble Tea and [Restore] write it.
var screenShown, screenLeft = []byte(ansi.SetModeAltScreenSaveCursor), []byte(ansi.ResetModeAltScreenSaveCursor)

// Write writes what is not a picture.
func (c *Canvas) Write(p []byte) (int, error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if on, off := bytes.LastIndex(p, screenShown), bytes.LastIndex(p, screenLeft); on != off {
		c.active = on > off
	}
	c.shown = nil
	c.stir()
	return c.Output.Write(p)
}

// WriteString writes what is not a picture.
func (c *Canvas) WriteString(s string) (int, error) { return c.Write([]byte(s)) }

// draw draws the newest picture whenever there is another, gap after the last.
func (c *Canvas) draw() {
	for {
		select {
		case <-c.wake:
		case <-c.done:
			return
		}
		if !c.paint() {
			continue
		}
		select {
		case <-time.After(c.gap):
		case <-c.done:
			return
		}
	}
}

// paint writes what changed since the last picture, if anything did.
func (c *Canvas) paint() bool {
	c.mu.Lock()
	defer c.mu.Unlock()
	next := c.next.Load()
	if next == nil || !c.active {
		return false
	}
	c.buf = next.over(c.buf[:0], c.shown)
	if len(c.buf) == 0 {
		return false
	}
	c.shown = next.lines
	_, _ = c.Output.Write(c.buf) // a terminal that is gone ends the program elsewhere
	return true
}

// over appends to buf what makes a picture of the lines shown before, none of which
// are known when there are none: of each line that changed what follows the first
// change, up to the last sign. Whole lines were 16 kB of a key at 200x60, this is 8.
func (p *picture) over(buf []byte, shown []string) []byte {
	at := -1 // the line in which the cursor is
	for i, line := range p.lines {
		var same draw.Head
		if i < len(shown) {
			if shown[i] == line {
				continue
			}
			same = draw.Alike(shown[i], line)
		}
		buf = append(right(down(buf, at, i), same.Cells), same.Style...)
		rest := strings.TrimRight(line[same.Bytes:], " ")
		buf = append(buf, rest...)
		if same.Cells+draw.Width(rest) < p.w {
			buf = append(buf, ansi.EraseLineRight...)
		}
		at = i
	}
	if len(shown) > len(p.lines) {
		buf = append(down(buf, at, len(p.lines)), ansi.EraseScreenBelow...)
	}
	return buf
}

// down appends what puts the cursor from one line to the beginning of another below
// it; from the top of the screen when it is in none.
func down(buf []byte, from, to int) []byte {
	if from < 0 {
		buf, from = append(buf, ansi.CursorHomePosition...), 0
	} else {
		buf = append(buf, '\r')
	}
	for range to - from {
		buf = append(buf, '\n')
	}
	return buf
}

// right appends what puts the cursor n cells on.
func right(buf []byte, n int) []byte {
	if n == 0 {
		return buf
	}
	return append(strconv.AppendInt(append(buf, "\x1b["...), int64(n), 10), 'C')
}
