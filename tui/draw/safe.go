package draw

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"
)

// Safe is the last look at a line before it is drawn, for whatever slipped past
// [Clean]: of escape sequences only the palette's own stay; every other one, and
// every character that a terminal obeys, or that turns or hides text, is left out.
// Line breaks and tabs become blanks, so that words do not run together.
func (p *Palette) Safe(line string) string {
	if p.isSafe(line) {
		return line
	}
	line = breaks.Replace(line)
	var b strings.Builder
	state := byte(0)
	for len(line) > 0 {
		part, _, n, next := ansi.DecodeSequence(line, state, nil)
		line, state = line[n:], next
		if n == 0 {
			break
		}
		if slices.Contains(p.own, part) {
			b.WriteString(part)
			continue
		}
		if part[0] < ' ' || part[0] == 0x7f || part[0] >= 0x80 && part[0] < 0xa0 {
			continue // a sequence that is not ours, or a control character
		}
		for _, r := range part {
			if !Obeyed(r) {
				b.WriteRune(r)
			}
		}
	}
	return b.String()
}

// isSafe reports whether nothing of the line has to go.
func (p *Palette) isSafe(line string) bool {
	for i := 0; i < len(line); {
		if n := colour(line[i:]); n > 0 && slices.Contains(p.own, line[i:i+n]) {
			i += n
			continue
		}
		r, n := utf8.DecodeRuneInString(line[i:])
		if r == utf8.RuneError && n == 1 || Obeyed(r) {
			return false
		}
		i += n
	}
	return true
}

// owns notes the colour sequences in a text as the palette's own.
func (p *Palette) owns(text string) {
	for i := range len(text) {
		if n := colour(text[i:]); n > 0 && !slices.Contains(p.own, text[i:i+n]) {
			p.own = append(p.own, text[i:i+n])
		}
	}
}

// colour returns how many bytes the colour sequence at the start takes; none
// when there is none.
func colour(s string) int {
	if !strings.HasPrefix(s, "\x1b[") {
		return 0
	}
	for i := 2; i < len(s); i++ {
		switch c := s[i]; {
		case c == 'm':
			return i + 1
		case c != ';' && c != ':' && (c < '0' || c > '9'):
			return 0
		}
	}
	return 0
}

// Obeyed reports whether a terminal does something for the character instead of
// drawing it, or a reader's eye is led astray by it: control, format, line and
// bidirectional characters, and variation selectors.
func Obeyed(r rune) bool {
	if r >= ' ' && r < 0x7f {
		return false
	}
	return unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp, unicode.Variation_Selector)
}
