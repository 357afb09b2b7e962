//go:build unix

package main

import (
	"errors"
	"os"

	"github.com/creack/pty"
	"github.com/rogpeppe/go-internal/testscript"
)

// cableEnd is a serial port whose other end is in the hand of a story.
type cableEnd struct {
	path        string
	gauge, port *os.File
}

// plugIn makes a serial port at path.
func plugIn(path string) (*cableEnd, error) {
	gauge, port, err := pty.Open()
	if err != nil {
		return nil, err
	}
	c := &cableEnd{path, gauge, port}
	if err := os.Symlink(port.Name(), path); err != nil {
		c.close()
		return nil, err
	}
	return c, nil
}

// close takes the port away.
func (c *cableEnd) close() {
	_ = errors.Join(os.Remove(c.path), c.port.Close(), c.gauge.Close()) // nothing is left to mend
}

func plugCommand(ts *testscript.TestScript, b *bench, _ bool, args []string) {
	c, err := plugIn(ts.MkAbs(args[0]))
	ts.Check(err)
	if b.cables == nil {
		b.cables = map[string]*cableEnd{}
	}
	b.cables[args[0]] = c
}

// plugged returns the port of a name.
func (b *bench) plugged(ts *testscript.TestScript, name string) *cableEnd {
	c := b.cables[name]
	if c == nil {
		ts.Fatalf("no port %s is plugged in", name)
	}
	return c
}

func unplugCommand(ts *testscript.TestScript, b *bench, _ bool, args []string) {
	b.plugged(ts, args[0]).close()
	delete(b.cables, args[0])
}

func gaugeCommand(ts *testscript.TestScript, b *bench, _ bool, args []string) {
	text, err := unescape(args[1])
	ts.Check(err)
	_, err = b.plugged(ts, args[0]).gauge.WriteString(text)
	ts.Check(err)
}
