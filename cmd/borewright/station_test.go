//go:build unix

package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"slices"
	"strings"
	"sync"
	"syscall"
	"time"

	"github.com/charmbracelet/x/ansi"
	"github.com/charmbracelet/x/vt"
	"github.com/creack/pty"
	"golang.org/x/sys/unix"
)

const (
	patience = 10 * time.Second       // the longest a story waits for anything
	oneKey   = time.Second            // the longest it waits for a key to show
	atRest   = 60 * time.Millisecond  // a screen silent for so long is at rest
	oneFrame = 3 * time.Millisecond   // a frame silent for so long has come whole
	drainage = 500 * time.Millisecond // for the last output of an ended program
)

// station is a program on a terminal of its own, with an emulator that reads
// what it draws.
type station struct {
	program *exec.Cmd
	tty     *os.File
	ended   chan struct{} // closed when the program has ended and its output is read
	drained chan struct{} // closed when no more output can come

	mu      sync.Mutex    // guards what follows; the emulator locks nothing itself
	screen  *vt.Emulator  // its Read and its input pipe are used without mu
	changed chan struct{} // closed, and made anew, when output has been drawn
	sent    []byte
	bells   int
	pressed int  // keys that were written: each key typed, and each burst as one
	alt     bool // the alternate screen is shown
	hidden  bool // the cursor is not
	modes   map[int]bool
}

// borrowed are the modes that a program must give back.
var borrowed = []ansi.Mode{
	ansi.ModeMouseNormal, ansi.ModeMouseButtonEvent, ansi.ModeMouseAnyEvent, ansi.ModeMouseExtSgr,
	ansi.ModeFocusEvent, ansi.ModeBracketedPaste, ansi.ModeCursorKeys, ansi.ModeNumericKeypad,
}

// startStation starts program on a terminal of w columns and h rows.
func startStation(program *exec.Cmd, w, h int) (*station, error) {
	s := &station{
		program: program,
		ended:   make(chan struct{}),
		drained: make(chan struct{}),
		screen:  vt.NewEmulator(w, h),
		changed: make(chan struct{}),
		modes:   map[int]bool{},
	}
	s.screen.SetCallbacks(vt.Callbacks{
		Bell:             func() { s.bells++ },
		AltScreen:        func(on bool) { s.alt = on },
		CursorVisibility: func(visible bool) { s.hidden = !visible },
		EnableMode: func(m ansi.Mode) {
			if slices.Contains(borrowed, m) {
				s.modes[m.Mode()] = true
			}
		},
		DisableMode: func(m ansi.Mode) { delete(s.modes, m.Mode()) },
	})
	tty, err := pty.StartWithSize(program, &pty.Winsize{Cols: uint16(w), Rows: uint16(h)})
	if err != nil {
		return nil, err
	}
	if s.tty, err = closable(tty); err != nil {
		return nil, err
	}
	go s.pumpOutput(s.screen.InputPipe().(io.Closer))
	go s.pumpReplies()
	go s.awaitEnd()
	return s, nil
}

// closable returns tty, which it closes, as a file that can be closed while it
// is being read: only then does the terminal hang up.
func closable(tty *os.File) (*os.File, error) {
	defer tty.Close() //nolint:errcheck // the copy lives on
	fd, err := unix.FcntlInt(tty.Fd(), unix.F_DUPFD_CLOEXEC, 0)
	if err != nil {
		return nil, err
	}
	err = unix.SetNonblock(fd, true) // before NewFile, which looks at it
	return os.NewFile(uintptr(fd), tty.Name()), err
}

// pumpOutput draws what the program writes, until its terminal closes; then it
// stops the replies.
func (s *station) pumpOutput(replies io.Closer) {
	defer close(s.drained)
	defer replies.Close() //nolint:errcheck // a pipe in memory
	buf := make([]byte, 32<<10)
	for {
		n, err := s.tty.Read(buf)
		if n > 0 {
			s.draw(buf[:n])
		}
		if err != nil {
			return
		}
	}
}

func (s *station) draw(output []byte) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.sent = append(s.sent, output...)
	_, _ = s.screen.Write(output) // the emulator takes everything
	close(s.changed)
	s.changed = make(chan struct{})
}

// pumpReplies hands the program what the emulator answers to its questions.
func (s *station) pumpReplies() {
	_, _ = io.Copy(s.tty, struct{ io.Reader }{s.screen}) // ends with the pipe or the terminal
}

func (s *station) awaitEnd() {
	defer close(s.ended)
	_ = s.program.Wait() // the outcome is in ProcessState
	select {
	case <-s.drained:
	case <-time.After(drainage):
	}
}

// until waits until holds, asked under the lock after each change of the
// screen, and reports whether it came to hold within limit.
func (s *station) until(limit time.Duration, holds func() bool) bool {
	late := time.NewTimer(limit)
	defer late.Stop()
	for {
		s.mu.Lock()
		held, changed := holds(), s.changed
		s.mu.Unlock()
		if held {
			return true
		}
		select {
		case <-changed:
		case <-late.C:
			return false
		case <-s.ended:
			s.mu.Lock()
			defer s.mu.Unlock()
			return holds()
		}
	}
}

// rest waits until the screen has not changed for a moment.
func (s *station) rest() { s.silence(atRest) }

// wrote reports whether what the program wrote, until it is at rest, is so.
func (s *station) wrote(is func(sent []byte) bool) (found bool) {
	s.rest()
	s.until(0, func() bool { found = is(s.sent); return true })
	return found
}

// silence waits until the screen has not changed for so long.
func (s *station) silence(long time.Duration) {
	late := time.NewTimer(patience)
	defer late.Stop()
	for {
		s.mu.Lock()
		changed := s.changed
		s.mu.Unlock()
		select {
		case <-changed:
		case <-time.After(long):
			return
		case <-s.ended:
			return
		case <-late.C:
			return
		}
	}
}

// text returns the screen, a line for each row, without the blanks at the ends
// of rows. The lock must be held.
func (s *station) text() string {
	var b strings.Builder
	for y := range s.screen.Height() {
		var row strings.Builder
		for x := 0; x < s.screen.Width(); x++ {
			cell := s.screen.CellAt(x, y)
			if cell == nil || cell.Content == "" {
				row.WriteByte(' ')
				continue
			}
			row.WriteString(cell.Content)
			x += max(cell.Width, 1) - 1
		}
		b.WriteString(strings.TrimRight(row.String(), " "))
		b.WriteByte('\n')
	}
	return b.String()
}

// appearance returns all that can be seen: text, styles and the cursor. The
// lock must be held.
func (s *station) appearance() string {
	return fmt.Sprint(s.screen.Render(), s.screen.CursorPosition())
}

// seen returns the screen of this moment, without the empty rows at its end.
func (s *station) seen() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return strings.TrimRight(s.text(), "\n") + "\n"
}

// resize changes the emulator before the terminal, so that the program's next
// frame finds the new size in both.
func (s *station) resize(w, h int) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.screen.Resize(w, h)
	raw, err := s.tty.SyscallConn()
	if err != nil {
		return err
	}
	var failure error
	err = raw.Control(func(fd uintptr) {
		failure = unix.IoctlSetWinsize(int(fd), unix.TIOCSWINSZ, &unix.Winsize{Col: uint16(w), Row: uint16(h)})
	})
	return errors.Join(err, failure)
}

// end kills the program if it still runs and frees what the station holds.
func (s *station) end() {
	_ = s.program.Process.Signal(syscall.SIGKILL) // it may have ended by itself
	<-s.ended
	_ = s.tty.Close() // it may have been closed by a hangup
}
