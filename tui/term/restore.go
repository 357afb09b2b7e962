package term

import (
	"io"
	"strings"
	"sync"

	xterm "github.com/charmbracelet/x/term"
)

// keypadOff ends application keypad mode (DECKPNM) and application cursor
// keys (DECCKM), which an earlier program may have left on: with them the
// keypad's keys are not plain characters.
const keypadOff = "\x1b>" + "\x1b[?1l"

// screenOff undoes what a full-screen program turns on. Leaving the
// alternate screen comes before showing the cursor, as some terminals keep
// one cursor for each screen.
var screenOff = strings.Join([]string{
	"\x1b[?2004l", // bracketed paste
	"\x1b[?1004l", // focus reports
	"\x1b[?1006l\x1b[?1003l\x1b[?1002l\x1b[?1001l\x1b[?1000l", // mouse
	"\x1b[0m",     // colours
	"\x1b[?1049l", // alternate screen
	"\x1b[?25h",   // cursor
}, "")

// screenOn turns on what a full-screen program needs, and off what a shell may
// have left on while the program was stopped.
const screenOn = "\x1b[?2004l" + "\x1b[0m" + "\x1b[?1049h" + "\x1b[?25l" + keypadOff

// Retake takes the terminal in and out again after the program was stopped and
// a shell used it: keys come at once and are not echoed, the alternate screen is
// shown, the cursor is not. What stood on the screen must be drawn anew. In the
// background it does not return before the program is in front again. If in is
// no terminal it has no settings to change.
func Retake(in interface{ Fd() uintptr }, out io.Writer) error {
	if xterm.IsTerminal(in.Fd()) {
		if _, err := xterm.MakeRaw(in.Fd()); err != nil {
			return err
		}
	}
	_, err := io.WriteString(out, screenOn)
	return err
}

// Reset puts the keypad and the cursor keys back to plain. Write it before
// the program runs, after it was suspended, and when it ends.
func Reset(w io.Writer) error {
	_, err := io.WriteString(w, keypadOff)
	return err
}

// Restore leaves the alternate screen, shows the cursor, ends mouse, focus
// and paste reports and does what Reset does. It is for ends that Bubble Tea
// does not see (a panic in a goroutine, a closed window); after an orderly
// end use Reset, since leaving the alternate screen twice moves the cursor.
// In such an end write to the file itself: an Output may be locked for good.
func Restore(w io.Writer) error {
	_, err := io.WriteString(w, screenOff+keypadOff)
	return err
}

// Prepare resets the keypad on out and remembers the line settings of the
// terminal in. The function it returns does what Restore does and puts those
// settings back, so that the shell's line editing works again; it acts once,
// from whichever goroutine comes first. If in is no terminal there are no
// settings to remember.
func Prepare(in interface{ Fd() uintptr }, out io.Writer) (restore func() error, err error) {
	state, stateErr := xterm.GetState(in.Fd())
	restore = sync.OnceValue(func() error {
		err := Restore(out)
		if stateErr == nil {
			if back := xterm.Restore(in.Fd(), state); err == nil {
				err = back
			}
		}
		return err
	})
	return restore, Reset(out)
}
