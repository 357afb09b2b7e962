package tui

import (
	"flag"
	"os"
	"strings"
	"testing"

	"borewright/tui/draw"
)

var update = flag.Bool("update", false, "write the screens in testdata anew")

// screenGolden compares a screen in the ASCII kind and without colour with the
// one kept in testdata/screens; blanks at the ends of lines are left out.
func screenGolden(t *testing.T, name string, s *station) {
	t.Helper()
	s.st.Signs, s.st.ASCII = draw.NewSigns(true), true
	var lines []string
	for _, line := range strings.Split(s.r.View(), "\n") {
		lines = append(lines, strings.TrimRight(line, " "))
	}
	got := strings.Join(lines, "\n") + "\n"
	path := "testdata/screens/" + name + ".txt"
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s is\n%s\nwant\n%s", name, got, want)
	}
}
