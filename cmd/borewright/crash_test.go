package main

import (
	"errors"
	"io"
	"strings"
	"testing"
)

// crashWorld is a world that keeps what is written, or refuses to.
func crashWorld(errs io.Writer, refused error) (World, *string) {
	text := new(string)
	w := newShelf().world(io.Discard, errs)
	w.Write = func(dir, name string, data []byte, _ bool) (string, error) {
		*text = string(data)
		return dir + "/" + name, refused
	}
	return w, text
}

// TestCrashesAreWrittenDown: every fault of a run stands in one file, one that
// comes again stands there once, and the end names the file.
func TestCrashesAreWrittenDown(t *testing.T) {
	t.Parallel()
	var errs strings.Builder
	w, text := crashWorld(&errs, nil)
	c := &crashes{w: w, folder: "data"}
	c.tell()
	if errs.String() != "" {
		t.Errorf("nothing broke off, and it says %q", errs.String())
	}
	for _, report := range []string{"first", "second", "first"} {
		if where := c.note(report); where != "data/"+crashFile {
			t.Errorf("written in %q", where)
		}
	}
	if *text != "first\n\nsecond" {
		t.Errorf("the file holds %q", *text)
	}
	for range 2 * crashesWritten {
		c.note(strings.Repeat("x", len(c.reports)))
	}
	if len(c.reports) != crashesWritten {
		t.Errorf("%d were written down", len(c.reports))
	}
	c.tell()
	if !strings.HasSuffix(errs.String(), "written in data/"+crashFile+"\n") {
		t.Errorf("said %q", errs.String())
	}
}

// TestCrashGuard: a panic becomes an error that names the file, or does without.
func TestCrashGuard(t *testing.T) {
	t.Parallel()
	var errs strings.Builder
	w, text := crashWorld(&errs, nil)
	c := &crashes{w: w, folder: "data"}
	err := c.guard(func() error { panic("out of true") })
	if err == nil || err.Error() != "a part of the program broke off: out of true; what happened is written in data/"+crashFile {
		t.Errorf("said %v", err)
	}
	if !strings.HasPrefix(*text, "out of true\n\n") || !strings.Contains(*text, "crash_test.go") {
		t.Errorf("written down: %q", *text)
	}
	w, _ = crashWorld(&errs, errors.New("the disk is full"))
	c = &crashes{w: w, folder: "data"}
	if err := c.guard(func() error { panic("out of true") }); err == nil || err.Error() != "a part of the program broke off: out of true" {
		t.Errorf("said %v", err)
	}
	if err := c.guard(func() error { return nil }); err != nil {
		t.Errorf("said %v", err)
	}
}
