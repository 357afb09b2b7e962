package main

import (
	"bytes"
	"strings"
	"testing"
)

// A sheet that was written matches its session, also once that went on.
func TestSheetCheck(t *testing.T) {
	t.Parallel()
	s := newShelf()
	s.files["f"] = notes(t, "uid-1", "Launch", 4, "")
	s.must(t, "import", "f")
	for _, form := range []string{"html", "pdf", "json"} {
		s.must(t, "sheet", "Launch", "--to", form, "-o", "out."+form)
		if got, want := s.must(t, "sheet", "--check", "out."+form), "matches to event 4, the last\n"; got != want {
			t.Errorf("%s: said %q, want %q", form, got, want)
		}
	}
	s.files["f"] = notes(t, "uid-1", "Launch", 7, "")
	s.must(t, "import", "f")
	for _, form := range []string{"html", "pdf", "json"} {
		if got, want := s.must(t, "sheet", "--check", "out."+form), "matches to event 4; 3 later\n"; got != want {
			t.Errorf("%s: said %q, want %q", form, got, want)
		}
	}
}

// A sheet that was altered, one of another session and what is none are told
// apart.
func TestSheetCheckRefuses(t *testing.T) {
	t.Parallel()
	s, other := newShelf(), newShelf()
	s.files["f"] = notes(t, "uid-1", "Launch", 4, "")
	other.files["f"] = notes(t, "uid-1", "Launch", 4, "another end")
	s.must(t, "import", "f")
	other.must(t, "import", "f")
	s.must(t, "sheet", "Launch", "-o", "out.html")
	page := s.files["out.html"]
	other.files["out.html"] = page
	s.files["altered.html"] = bytes.Replace(page, []byte("Launch"), []byte("Lunch!"), 1)
	s.files["later.html"] = bytes.Replace(page, []byte(" n=4 "), []byte(" n=9 "), 1)
	s.files["none.html"] = []byte("<html>")
	s.files["foreign.html"] = bytes.Replace(page, []byte("uid=uid-1"), []byte("uid=uid-2"), 1)
	for _, c := range []struct {
		in   *shelf
		file string
		says string
	}{
		{s, "altered.html", "the digest matches to event 4, but the rest is not what is written of it now"},
		{s, "later.html", "it was made of 9 events, and the session here has 4"},
		{s, "none.html", "this states no digest"},
		{s, "foreign.html", "no session here is the one"},
		{other, "out.html", "event 4 of the session here has another digest"},
		{s, "nix.html", "nix.html"},
	} {
		out, errs, code := c.in.run("sheet", "--check", c.file)
		if code != 1 || out != "" || !strings.Contains(errs, c.says) {
			t.Errorf("%s ended with %d, wrote %q and said %q, want %q", c.file, code, out, errs, c.says)
		}
	}
}
