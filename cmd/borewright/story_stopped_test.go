//go:build unix

package main

import (
	"errors"

	"github.com/rogpeppe/go-internal/testscript"
	"golang.org/x/sys/unix"
)

// cooked are the line settings of a shell that waits for a command.
const cooked = unix.ICANON | unix.ECHO | unix.ISIG | unix.IEXTEN

// line returns the line settings of the terminal.
func (s *station) line() (settings *unix.Termios, err error) {
	raw, err := s.tty.SyscallConn()
	if err != nil {
		return nil, err
	}
	var failure error
	err = raw.Control(func(fd uintptr) { settings, failure = unix.IoctlGetTermios(int(fd), getTermios) })
	return settings, errors.Join(err, failure)
}

// setLine changes the line settings of the terminal.
func (s *station) setLine(settings *unix.Termios) error {
	raw, err := s.tty.SyscallConn()
	if err != nil {
		return err
	}
	var failure error
	err = raw.Control(func(fd uintptr) { failure = unix.IoctlSetTermios(int(fd), setTermios, settings) })
	return errors.Join(err, failure)
}

// shellCommand does to the terminal of a stopped program what a shell does that
// takes it over: the main screen, a cursor, paste reports, application keys, a
// prompt, and lines that are echoed.
func shellCommand(ts *testscript.TestScript, b *bench, _ bool, _ []string) {
	s := b.station(ts)
	s.rest()
	line, err := s.line()
	ts.Check(err)
	line.Lflag |= cooked
	line.Iflag |= unix.ICRNL
	ts.Check(s.setLine(line))
	s.draw([]byte("\x1b[?1049l\x1b[?25h\x1b[?2004h\x1b[?1h\x1b=\x1b[2J\x1b[Hstopped\r\n$ "))
}

// seatedCommand fails unless the terminal comes to be as the station wants it:
// the alternate screen, no cursor, plain keys, every key sent at once.
func seatedCommand(ts *testscript.TestScript, b *bench, _ bool, _ []string) {
	s := b.station(ts)
	if !s.until(patience, func() bool { return s.alt && s.hidden && len(s.modes) == 0 }) {
		ts.Fatalf("alternate screen %v, cursor hidden %v, modes left on %v", s.alt, s.hidden, s.modes)
	}
	line, err := s.line()
	ts.Check(err)
	if left := uint64(line.Lflag) & cooked; left != 0 {
		ts.Fatalf("the terminal waits for whole lines, or echoes them: %#x", left)
	}
}
