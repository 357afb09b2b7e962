package draw

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/mattn/go-runewidth"
	"pgregory.net/rapid"
)

func TestClean(t *testing.T) {
	tests := []struct{ name, in, want string }{
		{"plain", "harbour launch no. 2", "harbour launch no. 2"},
		{"blanks at the ends", "  six \t", "six"},
		{"line breaks", "one\r\ntwo\nthree\u2028four", "one two three four"},
		{"no-break and wide blanks", "a\u00a0b\u3000c", "a b c"},
		{"escape sequence", "red\x1b[31m name\x1b[0m", "red name"},
		{"window title", "a\x1b]0;owned\x07b", "ab"},
		{"bell, backspace, delete", "a\x07b\x08c\x7fd", "abcd"},
		{"one-byte control sequence", "a\u009b2Jb", "a2Jb"},
		{"right-to-left override", "gpj\u202eexe", "gpjexe"},
		{"isolates and marks", "\u2066a\u2069\u200fb\u061cc", "abc"},
		{"zero width", "a\u200bb\u200cc\u200dd\u2060e\ufefff", "abcdef"},
		{"soft hyphen", "main\u00adshaft", "mainshaft"},
		{"variation selectors", "⚠\ufe0f 1\ufe0f\u20e3", "⚠ 1"},
		{"tags", "a\U000e0041\U000e007fb", "ab"},
		{"blank-looking letters", "a\u3164\u115f\uffa0b", "ab"},
		{"private use and unassigned", "a\ue000\U0010fffe\u0378b", "ab"},
		{"not UTF-8", "a\xffb\xc3", "a?b?"},
		{"decomposed letter", "Mo\u0308we", "Möwe"},
		{"decomposed Korean", "\u1112\u1161\u11ab", "한"},
		{"piled marks", "a\u0300\u0301\u0302\u0303\u0304b", "à\u0301\u0302b"},
		{"mark on nothing", "\u0301a", "a"},
		{"joined emoji", "👩\u200d🔧", "👩🔧"},
		{"other scripts", "Чайка かもめ", "Чайка かもめ"},
		{"nothing left", "\x1b[2J\u200b", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := Clean(tt.in); got != tt.want {
				t.Errorf("Clean(%q) = %q, want %q", tt.in, got, tt.want)
			}
		})
	}
}

// checkClean holds a cleaned text to the promise of [Clean].
func checkClean(t failer, in string) {
	t.Helper()
	got := Clean(in)
	if !utf8.ValidString(got) {
		t.Errorf("Clean(%q) = %q is not UTF-8", in, got)
	}
	marks := mostMarks
	for _, r := range got {
		if unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp, unicode.Co, unicode.Cs,
			unicode.Bidi_Control, unicode.Join_Control, unicode.Variation_Selector,
			unicode.Other_Default_Ignorable_Code_Point, unicode.Noncharacter_Code_Point) {
			t.Errorf("Clean(%q) = %q lets %U through", in, got, r)
		}
		switch isMark := unicode.Is(unicode.Mn, r); {
		case isMark:
			if marks++; marks > mostMarks {
				t.Errorf("Clean(%q) = %q piles up marks", in, got)
			}
		case runewidth.RuneWidth(r) == 0:
			t.Errorf("Clean(%q) = %q lets the zero-width %U through", in, got, r)
		case r == ' ':
			marks = mostMarks
		default:
			marks = 0
		}
	}
	if again := Clean(got); again != got {
		t.Errorf("Clean(%q) = %q, and cleaned again %q", in, got, again)
	}
	if strings.TrimSpace(got) != got {
		t.Errorf("Clean(%q) = %q has blanks at its ends", in, got)
	}
}

func TestCleanLetsNothingThrough(t *testing.T) {
	t.Run("every character", func(t *testing.T) {
		for r := range rune(unicode.MaxRune + 1) {
			if r > 0x3100 && r < 0xd7a0 || r > 0x1ffff && r < 0xe0000 || r > 0xe0fff && r < 0x10f000 {
				continue // ideographs, Hangul, unassigned and private planes
			}
			got := Clean("a" + string(r) + "b")
			if strings.ContainsAny(got, "\x1b\n\r\t") || Width(got) < 2 && r != 0x1b { // escape takes a letter with it
				t.Fatalf("Clean of %U gives %q", r, got)
			}
			checkClean(t, "a"+string(r)+"b")
		}
	})
	t.Run("any text", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) { checkClean(t, rapid.String().Draw(t, "s")) })
	})
	t.Run("any bytes", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			checkClean(t, string(rapid.SliceOf(rapid.Byte()).Draw(t, "bytes")))
		})
	})
}

func FuzzClean(f *testing.F) {
	for _, s := range []string{"bore 3", "\x1b]0;x", "a\u202eb", "\u0301\u0302", "한\xff", "\u1100\u1161"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) { checkClean(t, s) })
}
