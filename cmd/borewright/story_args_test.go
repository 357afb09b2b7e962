//go:build unix

package main

import (
	"strings"
	"testing"
)

func TestUnescape(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]string{
		`3.7503\r`:   "3.7503\r",
		`\x1b[A\n`:   "\x1b[A\n",
		`3.75"`:      `3.75"`,
		`-1.5\u2212`: "-1.5−",
		``:           "",
	} {
		if got, err := unescape(text); got != want || err != nil {
			t.Errorf("%q reads as %q, %v, want %q", text, got, err, want)
		}
	}
	for _, text := range []string{`\`, `\q`, "a\nb"} {
		if got, err := unescape(text); err == nil {
			t.Errorf("%q reads as %q", text, got)
		}
	}
}

func TestParseSize(t *testing.T) {
	t.Parallel()
	if w, h, err := parseSize("80x24"); w != 80 || h != 24 || err != nil {
		t.Errorf("80x24 is %d by %d, %v", w, h, err)
	}
	for _, text := range []string{"", "80", "80x", "x24", "0x24", "80x0", "-1x24", "80x24x2", "9999x24"} {
		if w, h, err := parseSize(text); err == nil {
			t.Errorf("%q is %d by %d", text, w, h)
		}
	}
}

func TestSplitSettings(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]string{
		"borewright demo":             "|borewright demo",
		"A=1 NO_COLOR= borewright":    "A=1 NO_COLOR=|borewright",
		"A=1":                         "A=1|",
		"borewright --db=x A=1":       "|borewright --db=x A=1",
		"TERM=dumb borewright B=2 sh": "TERM=dumb|borewright B=2 sh",
	} {
		settings, line := splitSettings(strings.Fields(text))
		if got := strings.Join(settings, " ") + "|" + strings.Join(line, " "); got != want {
			t.Errorf("%q splits into %q, want %q", text, got, want)
		}
	}
}
