package draw

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Folded is a text as words are looked for in it: without capitals, without the
// marks on its letters and without what a terminal would obey.
func Folded(s string) string {
	s = strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Mn, r) {
			return -1
		}
		return r
	}, norm.NFD.String(Clean(s)))
	return strings.ToLower(s)
}

// HasWords reports whether every word, or part of a word, is somewhere in a
// folded text. The words are folded too.
func HasWords(text string, words []string) bool {
	for _, w := range words {
		if !strings.Contains(text, w) {
			return false
		}
	}
	return true
}
