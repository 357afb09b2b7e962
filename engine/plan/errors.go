package plan

import (
	"strconv"
	"unicode/utf8"

	"borewright/engine/length"
)

// InvalidError says what is wrong with a layout or a plan.
type InvalidError struct {
	Of     string // "layout" or "plan"
	Reason string // what is wrong, in plain words, with the place and the value
}

// Error is one sentence that says of which of the two it speaks.
func (e *InvalidError) Error() string { return e.Of + ": " + e.Reason }

// NameError is for a text that names no family, feature, level or direction.
type NameError struct {
	Text   string // the text as given
	Reason string // one sentence that quotes it
}

// Error returns the sentence.
func (e *NameError) Error() string { return e.Reason }

// SizeError is for a length that is no size of a feature: see Family.CheckSize.
type SizeError struct {
	Size   length.Written
	Reason string // what is wrong with it, such as "is not above zero"
}

// Error names the size and what is wrong with it.
func (e *SizeError) Error() string { return e.Size.String() + " " + e.Reason }

// Quote returns a text from outside as a sentence can hold it: in quotation
// marks, cut after 40 characters, and with what does not print escaped.
func Quote(text string) string {
	const most = 40
	if utf8.RuneCountInString(text) > most {
		text = string([]rune(text)[:most]) + "…"
	}
	return strconv.Quote(text)
}
