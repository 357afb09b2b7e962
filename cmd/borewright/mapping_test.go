package main

import (
	"strings"
	"testing"
)

// A table is understood as a mapping says; what the command line says counts
// before it.
func TestImportByMapping(t *testing.T) {
	t.Parallel()
	s := newShelf()
	s.files["shop.csv"] = []byte("Cyl;Thrust;Sign\r\n1;82,007;x\r\n2;82,009;y\r\n")
	s.files["m.json"] = []byte(`{"columns":{"Cyl":"feature","Thrust":"across"},"of":"bore","units":"mm","separator":";"}`)
	const summary = "2 rows, 2 readings of 2 features:\n  bore/1: 1\n  bore/2: 1\nColumns passed over: Sign\n"
	if got := s.must(t, "import", "shop.csv", "--mapping", "m.json"); !strings.HasPrefix(got, summary) {
		t.Errorf("said %q", got)
	}
	s.must(t, "import", "shop.csv", "--mapping", "m.json", "--yes")
	if got := s.must(t, "sheet", "shop", "--to", "csv"); !strings.Contains(got, "82.007") || !strings.Contains(got, "read (mm)") {
		t.Errorf("the session holds %q", got)
	}
	if got := s.must(t, "import", "shop.csv", "--mapping", "m.json", "--column", "Thrust=vertical", "--of", "main-journal", "--title", "b"); !strings.Contains(got, "main-journal/1: 1") {
		t.Errorf("said %q", got)
	}
}

func TestImportRefusesMappings(t *testing.T) {
	t.Parallel()
	s := newShelf()
	s.files["shop.csv"] = []byte(foreignTable)
	for name, c := range map[string]struct {
		text, says string
	}{
		"a.json": {`{"columns":{"Bore":"feature"}}`, `shop.csv: row 1: "Bore": there is no such column`},
		"b.json": {`{"colums":{}}`, `b.json: this is no mapping in JSON: json: unknown field "colums"`},
		"c.json": {`{"of":"teapot"}`, `c.json: of: "teapot": `},
		"d.json": {`{"units":"furlong"}`, `d.json: units: "furlong": `},
		"e.json": {`{"separator":"|"}`, `e.json: separator: "|": a separator is a comma, a semicolon or tab`},
		"f.json": {`{} {}`, "f.json: this is no mapping in JSON"},
		"g.json": {strings.Repeat(" ", 70_000) + "{}", "g.json: a mapping has at most 65536 bytes"},
		"h.json": {`[1]`, "h.json: this is no mapping in JSON"},
	} {
		s.files[name] = []byte(c.text)
		out, errs, code := s.run("import", "shop.csv", "--mapping", name)
		if code != 1 || out != "" || !strings.Contains(errs, c.says) {
			t.Errorf("%s ended with %d, wrote %q and said %q, want %q", name, code, out, errs, c.says)
		}
	}
	if _, errs, code := s.run("import", "shop.csv", "--separator", "|"); code != 2 || !strings.Contains(errs, "a separator is a comma") {
		t.Errorf("ended with %d and said %q", code, errs)
	}
	if _, errs, code := s.run("import", "shop.csv", "--mapping", "nix.json"); code != 1 || !strings.Contains(errs, "nix.json") {
		t.Errorf("ended with %d and said %q", code, errs)
	}
}
