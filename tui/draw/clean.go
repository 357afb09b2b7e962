package draw

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"
	"github.com/mattn/go-runewidth"
	"golang.org/x/text/unicode/norm"
)

// mostMarks is how many combining marks may stand on one letter: enough for
// written languages, too few to climb into the lines above.
const mostMarks = 2

// Clean makes text from outside safe to draw on one line. Escape sequences and
// control, bidirectional, zero-width and unassigned characters are left out;
// every kind of blank and line break becomes one blank; bytes that are not
// UTF-8 become "?"; letters and their marks are composed, and what marks
// remain are kept, two on a letter at most. Blanks at both ends are left out.
// Cleaning what is clean changes nothing.
func Clean(s string) string {
	if isPlain(s) {
		return strings.TrimSpace(s)
	}
	s = strings.ToValidUTF8(s, "?")
	s = norm.NFC.String(ansi.Strip(breaks.Replace(s)))
	var b strings.Builder
	marks := mostMarks // none may stand at the start
	for _, r := range s {
		switch {
		case unicode.IsSpace(r):
			r = ' '
			marks = mostMarks
		case !drawable(r):
			continue
		case unicode.Is(unicode.Mn, r):
			if marks++; marks > mostMarks {
				continue
			}
		default:
			marks = 0
		}
		b.WriteRune(r)
	}
	return strings.TrimSpace(norm.NFC.String(b.String()))
}

func isPlain(s string) bool {
	for i := range len(s) {
		if s[i] < ' ' || s[i] >= 0x7f {
			return false
		}
	}
	return true
}

// drawable says whether a rune has a shape of its own, or is a mark that
// stands on one.
func drawable(r rune) bool {
	switch {
	case r == utf8.RuneError, !unicode.IsGraphic(r), unicode.Is(unicode.Me, r):
		return false
	case unicode.In(r, unicode.Other_Default_Ignorable_Code_Point, unicode.Variation_Selector):
		return false
	case unicode.Is(unicode.Mn, r), !unicode.Is(unicode.Mc, r):
		return true
	}
	return narrow.RuneWidth(r) > 0
}

// narrow is asked of few runes: at the first that is not Latin it makes a table of 2 MB,
// which took 2 ms of the first digit keyed.
var narrow = &runewidth.Condition{StrictEmojiNeutral: true}
