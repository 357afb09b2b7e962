//go:build unix

package main

import (
	"strings"

	"github.com/rogpeppe/go-internal/testscript"
	"golang.org/x/sys/unix"
)

// witnessCommand is see, and remembers what it saw for proof.
func witnessCommand(ts *testscript.TestScript, b *bench, _ bool, args []string) {
	pattern, s := multiline(ts, args[0]), b.station(ts)
	var saw string
	if !s.until(patience, func() bool { saw = pattern.FindString(s.text()); return saw != "" }) {
		ts.Fatalf("%q is not on the screen:\n%s", args[0], s.seen())
	}
	b.saw = strings.Join(strings.Fields(saw), " ")
}

// proofCommand writes a row of the table of .ci/proofs. A story gets so far only
// when everything that it looked for was there: nothing was lost.
func proofCommand(ts *testscript.TestScript, b *bench, _ bool, args []string) {
	if b.saw == "" {
		ts.Fatalf("nothing was witnessed")
	}
	ts.Logf("PROOF | %s | %s | 0 | %s", args[0], args[1], b.saw)
	b.saw = ""
}

// restoredCommand fails unless the terminal is as a shell wants it: the main
// screen, a cursor, no reports of mouse or paste, lines that are echoed.
func restoredCommand(ts *testscript.TestScript, b *bench, _ bool, _ []string) {
	s := b.station(ts)
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.alt || s.hidden {
		ts.Fatalf("the terminal is left on the alternate screen (%v) or without a cursor (%v)", s.alt, s.hidden)
	}
	for mode := range s.modes {
		ts.Fatalf("the terminal is left with mode %d on", mode)
	}
	line, err := s.line()
	ts.Check(err)
	if want := uint64(unix.ICANON | unix.ECHO | unix.ISIG); uint64(line.Lflag)&want != want {
		ts.Fatalf("the terminal is left raw")
	}
}
