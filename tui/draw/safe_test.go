package draw

import (
	"slices"
	"strings"
	"testing"

	"github.com/muesli/termenv"
	"pgregory.net/rapid"
)

func TestSafe(t *testing.T) {
	coloured, plain := NewPalette(true, termenv.TrueColor), Palette{}
	bad := coloured.Paint(Bad, "bad")
	for in, want := range map[string]string{
		"bore 3 ⌀ 3.7503": "bore 3 ⌀ 3.7503",
		bad:               bad,
		"\x1b[1;38;2;1;2;3mred\x1b[8mhidden\x1b[m":                 "redhidden",
		"a\x1b[2Jb\x1b]0;owned\x07c\x1b]8;;x\x1b\\d\x1bP1q\x1b\\e": "abcde",
		"a\x00b\x08c\x7fd\u009be\u202ef\u200bg\u2028h\ufe0fi\r\n":  "abcdefghi ",
		"one\r\ntwo\tthree\nfour":                                  "one two three four",
		"Möwe 한 a\u0301":                                           "Möwe 한 a\u0301",
	} {
		if got := coloured.Safe(in); got != want {
			t.Errorf("Safe(%q) = %q, want %q", in, got, want)
		}
	}
	if got := plain.Safe("\x1b[31mred\x1b[0m"); got != "red" {
		t.Errorf("without colours: %q", got)
	}
}

func TestSafeLetsNothingThrough(t *testing.T) {
	coloured, plain := NewPalette(true, termenv.TrueColor), Palette{}
	pieces := rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{"\x1b", "[", "]", "0;", "m", "\x07", "\x9b", "\u202e", "31m", "\x1b[31m", "\xff", "\r\n", "\t"}),
		rapid.Map(rapid.SliceOf(rapid.Byte()), func(b []byte) string { return string(b) }))
	rapid.Check(t, func(t *rapid.T) {
		in := strings.Join(rapid.SliceOf(pieces).Draw(t, "pieces"), "")
		if got := plain.Safe(in); strings.ContainsFunc(got, Obeyed) {
			t.Fatalf("Safe(%q) = %q", in, got)
		}
		got := coloured.Safe(in)
		for i := 0; i < len(got); i++ {
			if n := colour(got[i:]); n > 0 && slices.Contains(coloured.own, got[i:i+n]) {
				i += n - 1
			} else if got[i] < ' ' || got[i] == 0x7f {
				t.Fatalf("Safe(%q) = %q", in, got)
			}
		}
	})
}
