package gauge

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"borewright/engine/length"
)

// Longest is how many characters a keyed text may have. A longer one is
// refused whole, never cut.
const Longest = 24

// TextError says which keyed text is no reading, and why.
type TextError struct {
	Keyed  string // the text, without spaces around it
	Reason string // what is wrong with it, in plain words
}

// Error quotes the text and gives the reason. Text of an unknown length is cut
// to be shown.
func (e *TextError) Error() string {
	p := length.ParseError{Input: e.Keyed, Reason: e.Reason}
	return p.Error()
}

// number is a keyed text taken apart.
type number struct {
	text   string // the number without a unit
	dec    length.Decimal
	signed bool // a sign was keyed
	point  bool // a point was keyed
	digits int
	unit   length.Unit // as a cable sent it, else NoUnit
}

// number reads the keyed text: a decimal number, and from a cable its unit too.
func (c Context) number(keyed string) (number, error) {
	text := strings.TrimSpace(keyed)
	if utf8.RuneCountInString(text) > Longest {
		return number{}, &TextError{text, "too long for a reading"}
	}
	unit := length.NoUnit
	if c.Cable {
		var err error
		if text, unit, err = cutUnit(text); err != nil {
			return number{}, &TextError{keyed, "the unit sent is none of in, mm, µm and µin"}
		}
	}
	n, err := parseNumber(text)
	n.unit = unit
	return n, err
}

// cutUnit takes a unit off the end of a text; there need not be one.
func cutUnit(text string) (string, length.Unit, error) {
	at := strings.IndexFunc(text, func(r rune) bool { return unicode.IsLetter(r) || r == '"' })
	if at < 0 {
		return text, length.NoUnit, nil
	}
	unit, err := length.ParseUnit(text[at:])
	return strings.TrimSpace(text[:at]), unit, err
}

func parseNumber(text string) (number, error) {
	switch strings.Trim(text, "+-\u2212") {
	case "":
		return number{}, &TextError{text, "there is no number yet"}
	case ".", ",":
		return number{}, &TextError{text, "a point alone is no number"}
	}
	dec, err := length.ParseDecimal(text)
	if err != nil {
		return number{}, err
	}
	n := number{text: text, dec: dec, signed: strings.ContainsAny(text, "+-\u2212"), point: strings.ContainsAny(text, ".,")}
	for _, r := range text {
		if r >= '0' && r <= '9' {
			n.digits++
		}
	}
	return n, nil
}

// Full reports whether a keyed text is a size in full, with its point, so that
// last digits may follow in the same set.
func Full(keyed string) bool { return strings.ContainsAny(keyed, ".,") }
