package draw

import (
	"slices"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"pgregory.net/rapid"
)

func TestFit(t *testing.T) {
	const red, reset = "\x1b[31m", "\x1b[0m"
	tests := []struct {
		name, in string
		w        int
		want     string
	}{
		{"pads", "bore", 6, "bore  "},
		{"leaves", "bore", 4, "bore"},
		{"cuts with a mark", "3.7503", 4, "3.7~"},
		{"one cell", "3.7503", 1, "~"},
		{"nothing", "3.7503", 0, ""},
		{"less than nothing", "3.7503", -3, ""},
		{"empty", "", 3, "   "},
		{"styles take no cells", red + "bore" + reset, 6, red + "bore" + reset + "  "},
		{"a cut keeps the end of the style", red + "3.7503" + reset, 4, red + "3.7~" + reset},
		{"a wide sign is not halved", "日本", 3, "日~"},
		{"a wide sign before the mark", "日本語", 4, "日~ "},
		{"combining marks take no cells", "e\u0301te\u0301", 4, "e\u0301te\u0301 "},
		{"line breaks become blanks", "a\r\nb\tc", 6, "a b c "},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := Fit(tt.in, tt.w); got != tt.want {
				t.Errorf("Fit(%q, %d) = %q, want %q", tt.in, tt.w, got, tt.want)
			}
		})
	}
}

func TestFitRightAndCentre(t *testing.T) {
	tests := []struct {
		in            string
		w             int
		right, centre string
	}{
		{"0.5", 6, "   0.5", " 0.5  "},
		{"0.5", 3, "0.5", "0.5"},
		{"0.0005", 4, "0.0~", "0.0~"},
		{"日", 5, "   日", " 日  "},
		{"x", 0, "", ""},
	}
	for _, tt := range tests {
		if got := FitRight(tt.in, tt.w); got != tt.right {
			t.Errorf("FitRight(%q, %d) = %q, want %q", tt.in, tt.w, got, tt.right)
		}
		if got := Centre(tt.in, tt.w); got != tt.centre {
			t.Errorf("Centre(%q, %d) = %q, want %q", tt.in, tt.w, got, tt.centre)
		}
	}
}

// styledText makes clean text with styles in it.
func styledText() *rapid.Generator[string] {
	return rapid.Custom(func(t *rapid.T) string {
		var b strings.Builder
		for range rapid.IntRange(0, 4).Draw(t, "pieces") {
			piece := Clean(rapid.StringOfN(rapid.RuneFrom([]rune("aZ9. é日本語한🙂é́ั±│█µ")), 0, 8, -1).Draw(t, "piece"))
			if rapid.Bool().Draw(t, "styled") {
				piece = "\x1b[1;38;2;1;2;3m" + piece + "\x1b[0m"
			}
			b.WriteString(piece)
		}
		return b.String()
	})
}

func TestFitIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := styledText().Draw(t, "s")
		w := rapid.IntRange(-2, 30).Draw(t, "w")
		for name, fit := range map[string]func(string, int) string{"Fit": Fit, "FitRight": FitRight, "Centre": Centre} {
			if got := fit(s, w); Width(got) != max(0, w) {
				t.Errorf("%s(%q, %d) = %q is %d cells wide", name, s, w, got, Width(got))
			}
		}
		if again := Fit(Fit(s, w), w); again != Fit(s, w) {
			t.Errorf("fitted twice: %q, once: %q", again, Fit(s, w))
		}
		if w > 0 && Width(s) <= w && !strings.HasPrefix(Fit(s, w), s) {
			t.Errorf("Fit(%q, %d) changed a text that fits", s, w)
		}
		if shown := ansi.Strip(Fit(s, w)); w > 0 && Width(s) > w && !strings.Contains(shown, cutMark) {
			t.Errorf("Fit(%q, %d) cut without a mark: %q", s, w, shown)
		}
	})
}

func TestWrap(t *testing.T) {
	tests := []struct {
		in   string
		w    int
		want []string
	}{
		{"hone bore 4 to 3.7510 in", 12, []string{"hone bore 4", "to 3.7510 in"}},
		{"first\nsecond", 12, []string{"first", "second"}},
		{"first\r\n\r\nthird", 12, []string{"first", "", "third"}},
		{"cylinderblock", 5, []string{"cylin", "derbl", "ock"}},
		{"日本語", 4, []string{"日本", "語"}},
		{"", 4, []string{""}},
		{"word", 0, nil},
	}
	for _, tt := range tests {
		if got := Wrap(tt.in, tt.w); !slices.Equal(got, tt.want) {
			t.Errorf("Wrap(%q, %d) = %q, want %q", tt.in, tt.w, got, tt.want)
		}
	}
}

func TestWrapKeepsEveryWord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.StringMatching(`[a-z0-9.日é]{1,12}`), 0, 12).Draw(t, "words")
		w := rapid.IntRange(2, 40).Draw(t, "w")
		lines := Wrap(strings.Join(words, " "), w)
		fits(t, lines, w, len(lines))
		if got := strings.ReplaceAll(strings.Join(lines, ""), " ", ""); got != strings.Join(words, "") {
			t.Errorf("wrapped to %q, want all of %q", lines, words)
		}
	})
}

func TestRow(t *testing.T) {
	tests := []struct {
		cells  []string
		widths []int
		want   string
	}{
		{[]string{"bore 3", "3.7503", "in"}, []int{8, -7, 2}, "bore 3     3.7503  in"},
		{[]string{"bore 3"}, []int{6, -6}, "bore 3        "},
		{[]string{"a", "b", "c"}, []int{1, 1}, "a  b"},
		{[]string{"main 2 bearing", "0.0021"}, []int{6, -4}, "main ~  0.0~"},
		{nil, nil, ""},
		{[]string{"a", "b"}, []int{0, 1}, "  b"},
	}
	for _, tt := range tests {
		if got := Row(tt.cells, tt.widths); got != tt.want {
			t.Errorf("Row(%q, %v) = %q, want %q", tt.cells, tt.widths, got, tt.want)
		}
	}
}

func TestRowsLineUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		widths := rapid.SliceOfN(rapid.IntRange(-12, 12), 1, 6).Draw(t, "widths")
		want := ColumnGap * (len(widths) - 1)
		for _, w := range widths {
			want += max(w, -w)
		}
		cells := rapid.SliceOfN(styledText(), 0, 7).Draw(t, "cells")
		if got := Width(Row(cells, widths)); got != want {
			t.Errorf("Row(%q, %v) is %d cells wide, want %d", cells, widths, got, want)
		}
	})
}

// A sentence that is cut ends at a clause, or else at a word with the mark of a
// cut behind it; it is never longer than asked.
func TestCutSentence(t *testing.T) {
	for _, c := range []struct {
		text string
		w    int
		want string
	}{
		{"end gap 0.0137, too tight: at least 0.0160 in; 0.0140 when hot", 80, "end gap 0.0137, too tight: at least 0.0160 in; 0.0140 when hot"},
		{"end gap 0.0137, too tight: at least 0.0160 in; 0.0140 when hot", 52, "end gap 0.0137, too tight: at least 0.0160 in"},
		{"end gap 0.0137, too tight: at least 0.0160 in; 0.0140 when hot", 44, "end gap 0.0137, too tight: at least 0.0160 ~"},
		{"end gap 0.0137", 9, "end gap ~"},
		{"outofroundness", 6, "outof~"},
		{"two words", 0, ""},
	} {
		if got := CutSentence(c.text, c.w); got != c.want {
			t.Errorf("%d cells: %q, want %q", c.w, got, c.want)
		}
	}
}

// Of clauses as many are said as fit, and how many more there are.
func TestSomeClauses(t *testing.T) {
	const text = "not ready: 2 of 11 plugs not back; oil restricted twice; 3 of 9 steps open"
	for _, c := range []struct {
		w, rows int
		want    string
	}{
		{80, 1, text},
		{60, 2, text},
		{72, 1, "not ready: 2 of 11 plugs not back; oil restricted twice; 1 more"},
		{44, 1, "not ready: 2 of 11 plugs not back; 2 more"},
		{20, 1, "not ready: 2 of 11 ~"},
	} {
		got := strings.Join(SomeClauses(text, c.w, c.rows), " ")
		if got != c.want {
			t.Errorf("%d rows of %d cells: %q, want %q", c.rows, c.w, got, c.want)
		}
	}
}
