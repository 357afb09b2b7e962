package main

import (
	"strings"
	"testing"

	"borewright/store/storetest"
	"borewright/tui/draw"
)

// turned is a name that is taken, since it holds no control character, and would
// turn a line round, hide in it and lead out of a folder.
const turned = "../../gpj\u202eexe\u2066.\u200b\ufeff<script>"

// TestHostileNamesInWhatIsPrinted: nothing of a name is printed raw, neither on
// the terminal nor on a sheet, and no file lies outside the folder chosen.
func TestHostileNamesInWhatIsPrinted(t *testing.T) {
	t.Parallel()
	s := newShelf()
	file := strings.Replace(oneBore(t), `"title":"One bore"`, `"title":"`+turned+`","customer":"`+turned+`","engine":"`+turned+`"`, 1)
	s.files["in.json"] = []byte(file)
	out, errs, code := s.run("import", "in.json")
	tries := 1
	check := func(what, text string) {
		t.Helper()
		tries++
		for line := range strings.SplitSeq(strings.ReplaceAll(text, "\r\n", "\n"), "\n") {
			if strings.ContainsFunc(line, draw.Obeyed) || strings.Contains(line, "<script>") && strings.Contains(what, "html") {
				t.Errorf("%s prints %.300q", what, line)
			}
		}
	}
	check("import", out+errs)
	if code != 0 {
		t.Fatalf("import ended with %d: %s%s", code, out, errs)
	}
	for _, args := range [][]string{
		{"list"},
		{"assess", "in.json"},
		{"no such \x1b]0;owned\x07 command"},
		{"assess", "\x1b[2J\u202e.json"},
		{"export", "\x1b[2J\u202e"},
		{"sheet", "BENCH01SESSION", "--to", "html"},
		{"sheet", "BENCH01SESSION", "--to", "csv"},
	} {
		out, errs, _ := s.run(args...)
		check(strings.Join(args, " "), out+errs)
	}
	for name, data := range s.files {
		if name != "in.json" {
			if strings.Contains(name, "..") || strings.ContainsFunc(name, draw.Obeyed) {
				t.Errorf("a file is named %q", name)
			}
			check("html file "+name, string(data))
		}
	}
	storetest.Proof(t, "hostile names printed: list, assess, errors, HTML, CSV, file names", tries, 0, "nothing raw, no file outside the folder")
}
