package tui

import (
	"strings"
	"unicode/utf8"

	"borewright/engine/length"
	"borewright/tui/term"
)

// mostKeyed is how many characters a number field takes.
const mostKeyed = 24

// numberText is the text of a number field as it is keyed. Until the first key
// it is what stood there, and a digit begins it afresh.
type numberText struct {
	text  string
	typed bool
}

// unitLetters are the letters of the units that a number may carry.
const unitLetters = "inchmuµμ\"INCHMU"

// key takes one key in, or says why not. Digits, a point or comma and a sign
// are added, letters of a unit too; / clears the field and the erase key takes
// the last character off.
func (n numberText) key(t term.Token) (next numberText, refused string) {
	switch t.Kind {
	case term.Slash:
		return numberText{typed: true}, ""
	case term.Erase:
		_, size := utf8.DecodeLastRuneInString(n.text)
		return numberText{n.text[:len(n.text)-size], true}, ""
	case term.Digit, term.Point, term.Plus, term.Minus:
	case term.Text:
		if !strings.ContainsRune(unitLetters, t.Rune) {
			return n, "a number is keyed here: digits, a point, a sign, and a unit if need be"
		}
	default:
		return n, "a number is keyed here; / clears it"
	}
	if !n.typed {
		n = numberText{typed: true}
	}
	if utf8.RuneCountInString(n.text) >= mostKeyed {
		return n, "a number has no more than 24 characters"
	}
	n.text += string(t.Rune)
	return n, ""
}

// readLength reads what a number field holds. Nothing keyed is no length.
func readLength(text string, bare length.Unit) (length.Written, error) {
	if text == "" {
		return length.Written{}, nil
	}
	return length.Parse(text, bare)
}

// showLength writes a length for a number field: with its unit only when that
// is not the usual one.
func showLength(w length.Written, bare length.Unit) string {
	if w.Unit == bare {
		return w.Number()
	}
	return w.String()
}

// echoLength says in full what a keyed text means, in the other unit too.
func echoLength(text string, bare length.Unit) string {
	w, err := readLength(text, bare)
	if err != nil || w.IsZero() {
		return ""
	}
	other := length.MM
	if w.Unit == length.MM {
		other = length.In
	}
	return w.String() + " (" + w.Exact().Format(other, other.Decimals()) + " " + other.String() + ")"
}
