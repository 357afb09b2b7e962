package tui

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine/length"
)

// fieldKind is how a field is filled in.
type fieldKind uint8

// The kinds of fields.
const (
	numberField fieldKind = iota // a length, keyed on the keypad
	wordsField                   // words, in a text input
	choiceField                  // one of several, changed step by step
	buttonField                  // pressed with Enter
)

// field is one thing to fill in. What it shows and where it puts what is
// filled in are functions, so that a form can be built anew from its value
// after every change.
type field struct {
	id   string
	kind fieldKind
	// wide is how many cells its value takes, 0 for the rest of the line.
	wide int
	// why says in one line what it is for.
	why string
	// get returns its text, set takes a text in or says what is wrong with it.
	get func() string
	set func(string) error
	// unit is that of a bare number, most the bytes that words may have.
	unit length.Unit
	most int
	// offers are texts that a digit stands for in a field of words, behind the
	// unit that belongs behind a number keyed there.
	offers []string
	behind string
	// choices are what it can be, at is the one it is (-1 for none of them),
	// pick chooses another.
	choices []string
	at      int
	pick    func(int)
	// press is what a button does.
	press func() tea.Cmd
}

// typing says which characters belong to the field.
func (f field) typing() Typing {
	switch f.kind {
	case numberField:
		return Numbers
	case wordsField:
		return Words
	default:
		return NotTyping
	}
}

// step chooses the next choice, or the one before, going round at the ends.
func (f field) step(by int) {
	if n := len(f.choices); n > 0 {
		f.pick(((max(f.at, 0)+by)%n + n) % n)
	}
}

// choose picks the choice that begins with a keyed number, such as "12"; ok is
// false when there is none.
func (f field) choose(keyed string) bool {
	for i, c := range f.choices {
		if word, _, _ := strings.Cut(c, " "); word == keyed || word == keyed+":" {
			f.pick(i)
			return true
		}
	}
	return false
}

// begins reports whether a choice begins with these digits and goes on.
func (f field) begins(keyed string) bool {
	for _, c := range f.choices {
		if strings.HasPrefix(c, keyed) {
			return true
		}
	}
	return false
}

// row is one line of a form: a heading, or a label and its fields.
type row struct {
	heading string
	label   string
	// labelWide is how many cells the label takes, the usual number when 0.
	labelWide int
	fields    []field
	// note stands behind the fields while nothing else is to be said there.
	note string
}

// badText is a text that could not be taken in, kept as it was keyed.
type badText struct{ text, why string }
