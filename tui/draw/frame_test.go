package draw

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestBox(t *testing.T) {
	tests := []struct {
		lines []string
		w, h  int
		want  []string
	}{
		{[]string{"bore", "3"}, 5, 3, []string{"bore ", "3    ", "     "}},
		{[]string{"bore", "3", "4"}, 3, 2, []string{"bo~", "3  "}},
		{nil, 2, 1, []string{"  "}},
		{[]string{"x"}, 0, 1, []string{""}},
		{[]string{"x"}, 3, 0, []string{}},
		{[]string{"x"}, 3, -1, []string{}},
	}
	for _, tt := range tests {
		if got := Box(tt.lines, tt.w, tt.h); !slices.Equal(got, tt.want) {
			t.Errorf("Box(%q, %d, %d) = %q, want %q", tt.lines, tt.w, tt.h, got, tt.want)
		}
	}
}

func TestBeside(t *testing.T) {
	tests := []struct {
		gap    int
		blocks [][]string
		want   []string
	}{
		{1, [][]string{{"a", "bb"}, {"c"}}, []string{"a  c", "bb  "}},
		{2, [][]string{{"a"}, {"b", "c"}, {"d"}}, []string{"a  b  d", "   c   "}},
		{2, [][]string{{"日"}, {"x"}}, []string{"日  x"}},
		{0, [][]string{{"a"}}, []string{"a"}},
		{3, nil, []string{}},
	}
	for _, tt := range tests {
		if got := Beside(tt.gap, tt.blocks...); !slices.Equal(got, tt.want) {
			t.Errorf("Beside(%d, %q) = %q, want %q", tt.gap, tt.blocks, got, tt.want)
		}
	}
}

func TestBesideIsARectangle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		blocks := rapid.SliceOfN(rapid.SliceOfN(styledText(), 0, 4), 0, 4).Draw(t, "blocks")
		gap := rapid.IntRange(0, 3).Draw(t, "gap")
		w, h := gap*max(0, len(blocks)-1), 0
		for _, block := range blocks {
			w, h = w+Widest(block), max(h, len(block))
		}
		lines := Beside(gap, blocks...)
		fits(t, lines, w, h)
		for _, line := range lines {
			if Width(line) != w {
				t.Errorf("%q is %d cells wide, want %d", line, Width(line), w)
			}
		}
	})
}

func TestRule(t *testing.T) {
	tests := []struct {
		heading string
		w       int
		ascii   bool
		want    string
	}{
		{"bores", 14, false, "─ bores ──────"},
		{"bores", 14, true, "- bores ------"},
		{"", 4, true, "----"},
		{"bearings", 9, true, "- bear~ -"},
		{"bores", 4, true, "----"},
		{"bores", 0, true, ""},
		{"bores", -5, true, ""},
	}
	for _, tt := range tests {
		if got := Rule(tt.heading, tt.w, tt.ascii); got != tt.want {
			t.Errorf("Rule(%q, %d, %v) = %q, want %q", tt.heading, tt.w, tt.ascii, got, tt.want)
		}
	}
}
