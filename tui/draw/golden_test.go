package draw

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/mattn/go-runewidth"
	"pgregory.net/rapid"
)

var update = flag.Bool("update", false, "write the drawings in testdata anew")

// golden compares a drawing with the one kept in testdata.
func golden(t *testing.T, name string, lines []string) {
	t.Helper()
	path := filepath.Join("testdata", name+".txt")
	got := strings.Join(lines, "\n") + "\n"
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
		t.Errorf("%s:\n%swant:\n%s", name, got, want)
	}
}

// failer is what *testing.T and *rapid.T have in common.
type failer interface {
	Helper()
	Errorf(format string, args ...any)
}

// fits checks that a drawing is exactly h lines of at most w cells.
func fits(t failer, lines []string, w, h int) {
	t.Helper()
	if len(lines) != max(0, h) {
		t.Errorf("%d lines, want %d", len(lines), h)
	}
	for i, line := range lines {
		if n := Width(line); n > max(0, w) {
			t.Errorf("line %d is %d cells wide, want at most %d: %q", i, n, w, line)
		}
		if strings.ContainsAny(line, "\n\r\t") {
			t.Errorf("line %d holds a line break or tab: %q", i, line)
		}
	}
}

// oneCellEverywhere checks that every sign is one cell wide in the usual and
// in the East Asian width table.
func oneCellEverywhere(t failer, lines []string) {
	t.Helper()
	usual := runewidth.Condition{StrictEmojiNeutral: true}
	eastAsian := runewidth.Condition{EastAsianWidth: true, StrictEmojiNeutral: true}
	for _, line := range lines {
		for _, r := range line {
			if usual.RuneWidth(r) != 1 || eastAsian.RuneWidth(r) != 1 {
				t.Errorf("%q (%U) is not one cell wide everywhere, in %q", r, r, line)
			}
		}
	}
}

// ascii draws a kind of drawing: always the ASCII kind where the usual signs are
// two cells wide, as a program would choose.
func ascii(t *rapid.T) bool {
	return Width("│") == 2 || rapid.Bool().Draw(t, "ascii")
}

func of(v float64) *float64 { return &v }
