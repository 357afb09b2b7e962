package main

import (
	"strings"
	"testing"
)

func TestSheetAsHTML(t *testing.T) {
	t.Parallel()
	s := stocked(t)
	page := s.must(t, "sheet", "One bore")
	if !strings.HasPrefix(page, "<!DOCTYPE html>") || !strings.Contains(page, "One bore") {
		t.Errorf("wrote %.200q", page)
	}
	if got, want := s.must(t, "sheet", "One bore", "-o", "out.html"), "sheet written to out.html\n"; got != want {
		t.Errorf("said %q, want %q", got, want)
	}
	if got := string(s.files["out.html"]); got != page {
		t.Error("the file is not what went to standard output")
	}
}

func TestSheetAsJSONIsThatOfAssess(t *testing.T) {
	t.Parallel()
	s := stocked(t)
	s.files["f.json"] = []byte(s.must(t, "export", "One bore"))
	if got, want := s.must(t, "sheet", "One bore", "--to", "json"), s.must(t, "assess", "--json", "f.json"); got != want {
		t.Errorf("wrote\n%s\nwant\n%s", got, want)
	}
}
