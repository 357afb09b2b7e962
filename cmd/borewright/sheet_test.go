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

func TestSheetAsPDF(t *testing.T) {
	t.Parallel()
	s := stocked(t)
	if got := s.must(t, "sheet", "One bore", "--to", "pdf", "--units", "both"); !strings.HasPrefix(got, "%PDF-") {
		t.Errorf("wrote %.40q", got)
	}
}

// A file is of the form that its name ends in, unless another one is asked for.
func TestSheetIsOfTheFormItsNameSays(t *testing.T) {
	t.Parallel()
	s := stocked(t)
	for _, c := range []struct {
		name, begins string
		args         []string
	}{
		{"a.pdf", "%PDF-", nil},
		{"A.PDF", "%PDF-", nil},
		{"a.csv", "event,", nil},
		{"s.json", "{", nil},
		{"a.html", "<!DOCTYPE html>", nil},
		{"a.sheet", "<!DOCTYPE html>", nil},
		{"b.pdf", "<!DOCTYPE html>", []string{"--to", "html"}},
	} {
		s.must(t, append([]string{"sheet", "One bore", "-o", c.name}, c.args...)...)
		if got := string(s.files[c.name]); !strings.HasPrefix(got, c.begins) {
			t.Errorf("%s %q begins with %.20q, want %q", c.name, c.args, got, c.begins)
		}
	}
}

// What is asked for wrongly is said, and nothing is written.
func TestSheetRefuses(t *testing.T) {
	t.Parallel()
	s := stocked(t)
	s.must(t, "sheet", "One bore", "-o", "there.html")
	before := s.contents(t)
	for _, c := range []struct {
		args []string
		says string
		code int
	}{
		{[]string{"sheet"}, "sheet needs ID", 2},
		{[]string{"sheet", "nix"}, "no session has the title", 1},
		{[]string{"sheet", "One bore", "--to", "doc"}, `there is no form "doc"; the forms are html, pdf, csv or json`, 2},
		{[]string{"sheet", "One bore", "--units", "cubit"}, `there are no units "cubit": units are in, mm or both`, 2},
		{[]string{"sheet", "One bore", "--to", "csv", "--table", "all"}, `there is no table "all"`, 2},
		{[]string{"sheet", "One bore", "-o", "there.html"}, "--force writes over it", 1},
		{[]string{"sheet", "One bore", "--force"}, "--force is for a file", 2},
	} {
		if out, errs, code := s.run(c.args...); code != c.code || out != "" || !strings.Contains(errs, c.says) {
			t.Errorf("%q ended with %d, wrote %.40q and said %q, want %q", c.args, code, out, errs, c.says)
		}
	}
	if after := s.contents(t); after != before {
		t.Error("something was written")
	}
}
