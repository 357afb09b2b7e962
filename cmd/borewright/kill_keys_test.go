//go:build unix

package main

import (
	"bytes"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"borewright/engine/record"
)

// step is what is keyed at one place, a write each, until one more event is
// kept.
type step struct {
	place string
	keys  []string
}

// wholeBore is the bore of the story whole-bore: each step leads to one of the
// story's events.
var wholeBore = []step{
	{"bore 1, top, across", []string{"-", "2", "\r"}},
	{"bore 1, top, along", []string{"1", ".", "5", "\r\n"}},
	{"bore 1, upper, across", []string{"2", "+", "\x1bOM"}},
	{"bore 1, upper, along", []string{"/1"}},
	{"bore 1, lower, across", []string{"*", "4", "\r"}},
	{"bore 1, lower, across", []string{"1", ".", "2", "5", "\r", "*"}},
	{"bore 1, lower, along", []string{"1", "0", "2", "\r", "+3.0\r\n", "/", "2", "\r"}},
	{"bore 1, bottom, across", []string{"+1.5\r\n"}},
	{"bore 1, bottom, along", []string{"1", "-", "\r"}},
}

// placeOf returns where step n is keyed; behind the last one is the next bore.
func placeOf(n int) string {
	if n == len(wholeBore) {
		return "bore 2, top, across"
	}
	return wholeBore[n].place
}

// heldWrites is how many of the writes of step n, of the first so many, are held
// or refused: two bells each.
func heldWrites(n, written int) int {
	if n == len(wholeBore) {
		return 0
	}
	count := 0
	for _, keys := range wholeBore[n].keys[:written] {
		if n == 5 && keys == "\r" || n == 6 && (keys == "\r" || keys == "+3.0\r\n") {
			count++
		}
	}
	return count
}

// wholeBoreStory returns the session that the story begins with and the events
// that it ends with.
func wholeBoreStory(t *testing.T) (session []byte, kept []record.Sealed) {
	t.Helper()
	story, err := txtar.ParseFile("../../testdata/stories/whole-bore.txtar")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range story.Files {
		switch f.Name {
		case "pond.json":
			session = f.Data
		case "kept.json":
			kept = sealedIn(t, f.Data)
		}
	}
	return session, kept
}

// sealedIn returns the events of a file in the full form, whose chain and
// digest are checked.
func sealedIn(t *testing.T, data []byte) []record.Sealed {
	t.Helper()
	file, err := record.ReadFile(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return file.Full.Events
}
