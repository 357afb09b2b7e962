package gauge

import (
	"errors"
	"strings"
	"unicode"
	"unicode/utf8"
)

// What is wrong with a line that a cable sent.
var (
	ErrNoNumber = errors.New("not a number")
	ErrSentUnit = errors.New("the unit is none of in, mm, µm and µin")
	ErrTooLong  = errors.New("too long for a reading")
)

// Sent returns the value of a line that a cable sent, in the form in which
// [Read] takes it. The line is
//
//	line = { blank } [ sign ] { blank } number { blank } [ unit ] { blank }
//
// with the numbers, signs and units of a keyed text. Blanks are left out, but
// for one before the unit. Anything else in the line, a control character too,
// makes it no value: nothing is guessed from a part of it. The error is
// ErrNoNumber, ErrSentUnit or ErrTooLong.
func Sent(line string) (string, error) {
	line = strings.Trim(line, " \t")
	if strings.ContainsFunc(line, unicode.IsControl) {
		return "", ErrNoNumber
	}
	line = strings.TrimSpace(line)
	number, unit, unknown := cutUnit(line)
	rest := line[len(number):]
	if size := len(number) - len(strings.TrimLeft(number, signs)); size > 0 {
		number = number[:size] + strings.TrimLeft(number[size:], " ")
	}
	_, err := parseNumber(number)
	switch {
	case err != nil || strings.ContainsFunc(number, unicode.IsSpace):
		return "", ErrNoNumber
	case unknown != nil && strings.ContainsFunc(rest, isNumeric):
		return "", ErrNoNumber
	case unknown != nil:
		return "", ErrSentUnit
	}
	if unit.Size() > 0 {
		number += " " + unit.String()
	}
	if utf8.RuneCountInString(number) > Longest {
		return "", ErrTooLong
	}
	return number, nil
}

// signs are the characters of a sign.
const signs = "+-\u2212"

// isNumeric reports whether a character belongs to a number.
func isNumeric(r rune) bool { return unicode.IsDigit(r) || strings.ContainsRune(signs, r) }
