package main

import (
	"strings"
	"testing"
)

const foreignTable = "Cyl,Thrust\r\n1,82.007\r\n2,82.009\r\n"

// What a table would do is said first, and nothing is kept until it is asked
// for.
func TestImportTableSaysFirst(t *testing.T) {
	t.Parallel()
	s := newShelf()
	s.files["shop.csv"] = []byte(foreignTable)
	args := []string{"import", "shop.csv", "--of", "bore", "--units", "mm", "--column", "Cyl=feature", "--column", "Thrust=across"}
	before := s.contents(t)
	const summary = "2 rows, 2 readings of 2 features:\n  bore/1: 1\n  bore/2: 1\n"
	if got, want := s.must(t, args...), summary+"They would become a new session \"shop\".\nNothing is taken in yet; --yes does it.\n"; got != want {
		t.Errorf("said %q, want %q", got, want)
	}
	if after := s.contents(t); after != before {
		t.Errorf("something was kept: %s", after)
	}
	if got := s.must(t, append(args, "--yes")...); !strings.HasPrefix(got, summary+"session ") || !strings.HasSuffix(got, " \"shop\": new, 5 events\n") {
		t.Errorf("said %q", got)
	}
	if got := s.must(t, "sheet", "shop", "--to", "csv"); strings.Count(got, "\r\n") != 3 {
		t.Errorf("the session holds %q", got)
	}
}

// Readings go into a session that is here, once.
func TestImportTableInto(t *testing.T) {
	t.Parallel()
	s := newShelf()
	s.files["a.csv"] = []byte("feature,across (mm)\nbore/1,82.007\n")
	s.files["b.csv"] = []byte("feature,level,across (mm)\nbore/1,a,82.008\n")
	s.must(t, "import", "a.csv", "--yes")
	before := s.contents(t)
	for _, c := range []struct {
		args []string
		says string
		code int
	}{
		{[]string{"import", "b.csv", "--into", "a"}, "row 2, column feature: \"bore/1\": bore 1, a, across is read in the session already", 1},
		{[]string{"import", "a.csv", "--into", "nix", "--yes"}, "no session has the title", 1},
		{[]string{"import", "a.csv", "--into", "a", "--title", "b"}, "--title is for a new session", 2},
		{[]string{"import", "a.csv", "--column", "nothing"}, "is not HEADING=NAME", 2},
		{[]string{"import", "a.csv", "--units", "furlong"}, "--units", 2},
		{[]string{"import", "a.csv", "--of", "teapot"}, "--of", 2},
		{[]string{"import", "a.json", "--yes"}, "--yes is for a table", 2},
		{[]string{"import", "nix.csv"}, "nix.csv", 1},
	} {
		if _, errs, code := s.run(c.args...); code != c.code || !strings.Contains(errs, c.says) {
			t.Errorf("%q ended with %d and said %q, want %q", c.args, code, errs, c.says)
		}
	}
	if after := s.contents(t); after != before {
		t.Errorf("something was kept:\n%s\nbefore\n%s", after, before)
	}
}

// A table that goes out comes in to the same readings, into a session of the
// same set-up.
func TestTableGoesOutAndComesIn(t *testing.T) {
	t.Parallel()
	s := newShelf()
	s.files["a.csv"] = []byte("feature,level,across (mm),along (mm)\nbore/1,top,82.007,82.008\nbore/1,bottom,82.001,82.002\nbore/2,top,82.003,\n")
	s.must(t, "import", "a.csv", "--yes")
	s.must(t, "sheet", "a", "--to", "csv", "-o", "out.csv")
	s.must(t, "import", "out.csv", "--title", "again", "--yes")
	if got, want := s.must(t, "sheet", "again", "--to", "csv", "--table", "results"), s.must(t, "sheet", "a", "--to", "csv", "--table", "results"); got != want {
		t.Errorf("came in as\n%s\nwant\n%s", got, want)
	}
	took := func(id string) []string {
		var out []string
		for _, line := range strings.Split(s.must(t, "sheet", id, "--to", "csv"), "\r\n") {
			if cells := strings.Split(line, ","); len(cells) > 10 {
				out = append(out, strings.Join(append(cells[3:6:6], cells[7], cells[10]), ","))
			}
		}
		return out
	}
	if got, want := strings.Join(took("again"), "\n"), strings.Join(took("a"), "\n"); got != want || len(want) < 100 {
		t.Errorf("came in as\n%s\nwant\n%s", got, want)
	}
}
