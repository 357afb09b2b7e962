package length

import (
	"errors"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Errors of writing.
var (
	// ErrUnit is returned where a unit is needed and what is given is none.
	ErrUnit = errors.New("a length cannot be written without a known unit")
	// ErrInexact is returned for a Written whose decimals do not hold its length.
	ErrInexact = errors.New("a length cannot be written exactly with so few decimals in its unit")
)

// ParseError says which text could not be read as a number, unit or length,
// and why.
type ParseError struct {
	Input  string // the text as given
	Reason string // what is wrong with it, in plain words
}

// Error quotes the input, cut when it is very long, and gives the reason.
func (e *ParseError) Error() string {
	const most = 40
	s := e.Input
	if utf8.RuneCountInString(s) > most {
		s = string([]rune(s)[:most]) + "…"
	}
	return strconv.Quote(s) + ": " + e.Reason
}

// refuse makes the error of reading s. It has a copy of it, so that who reads good
// text makes no garbage.
func refuse(s, reason string) error { return &ParseError{Input: strings.Clone(s), Reason: reason} }
