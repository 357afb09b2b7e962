package draw

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

const allGlyphs = "0123456789.-+/? inmµ"

func TestBigDrawings(t *testing.T) {
	for _, rows := range []int{5, 7, 10} {
		for _, ascii := range []bool{false, true} {
			name := fmt.Sprintf("big-%d", rows)
			if ascii {
				name += "-ascii"
			}
			lines := Big("0123456789", rows, ascii)
			lines = append(lines, "")
			lines = append(lines, Big("+-.5/? µin mm", rows, ascii)...)
			golden(t, name, lines)
		}
	}
}

func TestBigHeights(t *testing.T) {
	for rows, drawn := range map[int]int{5: 5, 6: 5, 7: 7, 9: 7, 10: 10, 13: 10, 14: 14, 15: 15, 20: 20, 21: 21} {
		lines := Big("8", rows, false)
		fits(t, lines, BigWidth("8", rows), rows)
		used := 0
		for _, line := range lines {
			if strings.TrimSpace(line) != "" {
				used++
			}
		}
		if used != drawn {
			t.Errorf("in %d rows an 8 is drawn %d rows high, want %d", rows, used, drawn)
		}
	}
}

func TestBigBelowFiveRows(t *testing.T) {
	for rows, want := range map[int][]string{
		-1: {}, 0: {}, 1: {"3.75"}, 2: {"    ", "3.75"}, 3: {"    ", "3.75", "    "},
	} {
		if got := Big("3.75", rows, false); !slices.Equal(got, want) {
			t.Errorf("%d rows: %q, want %q", rows, got, want)
		}
	}
}

func TestBigRows(t *testing.T) {
	tests := []struct {
		text       string
		w, h, want int
	}{
		{"3.7503", 40, 5, 5},
		{"3.7503", 39, 5, 0},
		{"3.7503", 80, 9, 7},
		{"3.7503", 80, 10, 10},
		{"3.7503", 79, 24, 7},
		{"-101.6003", 80, 24, 5},
		{"", 0, 24, 21},
		{"3", 80, 4, 0},
	}
	for _, tt := range tests {
		if got := BigRows(tt.text, tt.w, tt.h); got != tt.want {
			t.Errorf("BigRows(%q, %d, %d) = %d, want %d", tt.text, tt.w, tt.h, got, tt.want)
		}
	}
}

// A figure with its unit must stand five rows high in the smallest window.
func TestBigFitsTheSmallestWindow(t *testing.T) {
	for _, text := range []string{"3.7503 in", "-0.0005 in", "95.2503 mm", "-101.600", "+12.5"} {
		if w := BigWidth(text, 5); w > 80 {
			t.Errorf("%q takes %d cells, want at most 80", text, w)
		}
	}
}

func TestBigIn(t *testing.T) {
	tests := []struct {
		text         string
		w, h         int
		large, after string // the large drawing and the text after its last row
	}{
		{"3.7503 in", 80, 5, "3.7503 in", ""},
		{"3.7503 in", 45, 5, "3.7503", " in"},
		{"3.7503 in", 82, 10, "3.7503 in", ""},
		{"3.7503 in", 83, 10, "3.7503", " in"},
		{"3.7503 in", 43, 5, "3.7503", " in"},
		{"3.7503 in", 42, 5, "", ""},
		{"3.7503", 39, 5, "", ""},
		{"3.7503 in", 80, 4, "", ""},
	}
	for _, tt := range tests {
		lines := BigIn(tt.text, tt.w, tt.h, true)
		fits(t, lines, tt.w, tt.h)
		want := []string{tt.text}
		if rows := BigRows(tt.large, tt.w, tt.h); tt.large != "" {
			want = Big(tt.large, rows, true)
			want[rows-1] += tt.after
		}
		got := strings.Trim(strings.Join(trimmed(lines), "\n"), "\n")
		if got != strings.Join(trimmed(want), "\n") {
			t.Errorf("BigIn(%q, %d, %d):\n%s", tt.text, tt.w, tt.h, got)
		}
	}
}

// trimmed cuts the blanks at the ends of lines.
func trimmed(lines []string) []string {
	short := make([]string, len(lines))
	for i, line := range lines {
		short[i] = strings.TrimRight(line, " ")
	}
	return short
}

func TestBigInFitsEverySize(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOfN(rapid.RuneFrom([]rune(allGlyphs+"xμ日")), 0, 10, -1).Draw(t, "text")
		w, h := rapid.IntRange(-1, 200).Draw(t, "w"), rapid.IntRange(-1, 30).Draw(t, "h")
		fits(t, BigIn(text, w, h, ascii(t)), w, h)
	})
}

func TestBigIsOneRectangle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOf(rapid.RuneFrom([]rune(allGlyphs+"x"))).Draw(t, "text")
		rows := rapid.IntRange(5, 24).Draw(t, "rows")
		for _, line := range Big(text, rows, ascii(t)) {
			if Width(line) != BigWidth(text, rows) {
				t.Errorf("%q is %d cells wide, want %d", line, Width(line), BigWidth(text, rows))
			}
		}
	})
}

func TestUnknownSignsAreAsked(t *testing.T) {
	if got, want := Big("x", 5, false), Big("?", 5, false); !slices.Equal(got, want) {
		t.Errorf("an unknown sign is drawn as %q", got)
	}
	if got, want := Big("μ", 7, false), Big("µ", 7, false); !slices.Equal(got, want) {
		t.Errorf("the Greek letter is drawn as %q, not as the micro sign", got)
	}
}

// Two digits that differ in a single cell could be taken for each other from
// two metres.
func TestGlyphsDifferEnough(t *testing.T) {
	for _, rows := range []int{5, 7} {
		for _, ascii := range []bool{false, true} {
			for i, a := range allGlyphs {
				for _, b := range allGlyphs[i:] {
					if a != b && difference(Big(string(a), rows, ascii), Big(string(b), rows, ascii)) < 2 {
						t.Errorf("%d rows, ascii %v: %q and %q look alike", rows, ascii, a, b)
					}
				}
			}
		}
	}
}

// difference is the number of cells in which two drawings differ.
func difference(a, b []string) int {
	n := 0
	for y := range a {
		p, q := []rune(a[y]), []rune(b[y])
		for x := range max(len(p), len(q)) {
			if x >= len(p) || x >= len(q) || p[x] != q[x] {
				n++
			}
		}
	}
	return n
}

func TestFacesAreWhole(t *testing.T) {
	for _, f := range []face{face5, face7} {
		glyphs := readFace(f)
		for _, r := range allGlyphs {
			g, ok := glyphs[r]
			if !ok || g.w < 1 || g.h != 2*f.rows {
				t.Errorf("%d rows: %q is %d by %d dots, want a height of %d", f.rows, r, g.w, g.h, 2*f.rows)
			}
			if r >= '0' && r <= '9' && g.w != glyphs['0'].w {
				t.Errorf("%d rows: %q is %d wide, other digits %d", f.rows, r, g.w, glyphs['0'].w)
			}
		}
	}
}
