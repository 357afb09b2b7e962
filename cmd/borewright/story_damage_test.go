//go:build unix

package main

import (
	"bytes"
	"os"
	"strconv"

	"github.com/rogpeppe/go-internal/testscript"
)

// spoilCommand changes two bytes in the middle of every place of a file at which the
// text stands, and nudgeCommand one: that can be set right.
func spoilCommand(ts *testscript.TestScript, _ *bench, _ bool, args []string) { change(ts, args, 2) }

func nudgeCommand(ts *testscript.TestScript, _ *bench, _ bool, args []string) { change(ts, args, 1) }

// change changes so many bytes in the middle of every place of a text in a file.
func change(ts *testscript.TestScript, args []string, n int) {
	path, text := ts.MkAbs(args[0]), []byte(args[1])
	data, err := os.ReadFile(path)
	ts.Check(err)
	if !bytes.Contains(data, text) {
		ts.Fatalf("%q is not in %s", text, args[0])
	}
	for at := bytes.Index(data, text); at >= 0; at = bytes.Index(data, text) {
		for i := range n {
			data[at+len(text)/2+i] ^= 0x04
		}
	}
	ts.Check(os.WriteFile(path, data, 0o600))
}

// cutCommand leaves so many bytes of the beginning of a file, or, below zero,
// overwrites so many of them with zeros.
func cutCommand(ts *testscript.TestScript, _ *bench, _ bool, args []string) {
	path := ts.MkAbs(args[0])
	n, err := strconv.Atoi(args[1])
	ts.Check(err)
	if n >= 0 {
		ts.Check(os.Truncate(path, int64(n)))
		return
	}
	data, err := os.ReadFile(path)
	ts.Check(err)
	clear(data[:-n])
	ts.Check(os.WriteFile(path, data, 0o600))
}
