package draw

import (
	"testing"

	"github.com/charmbracelet/x/ansi"
	"pgregory.net/rapid"
)

func TestWidth(t *testing.T) {
	tests := []struct {
		in   string
		want int
	}{
		{"", 0},
		{"3.7503", 6},
		{"\x1b[1;38;2;1;2;3m3.7503\x1b[0m in", 9},
		{"\x1b[m\x1b[31;m", 0},
		{"日本", 4},
		{"e\u0301", 1},
		{"a\x1b]0;title\x07b", 2},
	}
	for _, tt := range tests {
		if got := Width(tt.in); got != tt.want {
			t.Errorf("Width(%q) = %d, want %d", tt.in, got, tt.want)
		}
	}
}

func TestQuickWidthIsTheWidth(t *testing.T) {
	pieces := rapid.SampledFrom([]string{
		"bore 3", " ", "│", "█▀▄", "▐▌", "╱", "▟", "■", "▒", "┊", "\x1b[0m", "\x1b[1;31m", "\x1b[38;5;247m", "\x1b[", "\x1b[2J",
		"\x1b", "m", "\x7f", "\t", "é", "e\u0301", "─\u0301", "日", "🙂", "\u200b", "\xe2\x94", "\xe2", "µ",
	})
	rapid.Check(t, func(t *rapid.T) {
		s := ""
		for range rapid.IntRange(0, 8).Draw(t, "pieces") {
			s += pieces.Draw(t, "piece")
		}
		if got, ok := quickWidth(s); ok && got != ansi.StringWidth(s) {
			t.Errorf("quickWidth(%q) = %d, want %d", s, got, ansi.StringWidth(s))
		}
	})
}

func TestQuickWidthIsUsed(t *testing.T) {
	line := "\x1b[1mbore 3\x1b[0m 3.7503"
	if boxesAreNarrow {
		line += " ██▀▄│─═"
	}
	if _, ok := quickWidth(line); !ok {
		t.Errorf("quickWidth gives up on %q", line)
	}
}
