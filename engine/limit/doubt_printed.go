package limit

import (
	"errors"
	"fmt"
	"strings"

	"borewright/engine/length"
)

// Printed is a figure as a book prints it: its digits, its unit, and for a
// slope what it is per. The last digit is its resolution.
type Printed struct {
	Number length.Decimal
	// Unit is "in", "mm", "cm", "µm" or "µin".
	Unit string
	// Per is the length that a slope is per; zero for a figure that is none.
	Per length.Written
}

// ParsePrinted reads a figure with its unit, in brackets or not, and what it is
// per: "13.972 cm", "(0.76 mm)", "0.0005 in per in", "0.02 mm per 100 mm". A
// slope without a unit, "0.0005 per inch", has that of its length. Units are
// those of length.ParseUnit, inches and cm. The error is a *length.ParseError.
func ParsePrinted(text string) (Printed, error) {
	body := strings.Join(strings.Fields(text), " ")
	if inner, ok := strings.CutPrefix(body, "("); ok {
		body = strings.TrimSuffix(inner, ")")
	}
	refuse := func(err error) (Printed, error) {
		return Printed{}, &length.ParseError{Input: text, Reason: reasonOf(err)}
	}
	figure, per, sloped := strings.Cut(body, " per ")
	var p Printed
	number, unit := cutUnit(figure)
	if sloped {
		perNumber, perUnit := cutUnit(per)
		if perNumber == "" {
			perNumber = "1"
		}
		if unit == "" {
			unit = perUnit
		}
		over, err := readPrinted(perNumber, perUnit)
		if err != nil {
			return refuse(err)
		}
		p.Per = over.written()
		if p.Per.Length <= 0 {
			return Printed{}, &length.ParseError{Input: text, Reason: "a slope is per a length above zero"}
		}
	}
	figureOnly, err := readPrinted(number, unit)
	if err != nil {
		return refuse(err)
	}
	p.Number, p.Unit = figureOnly.Number, figureOnly.Unit
	return p, nil
}

// ParsePair reads two printings of one figure, the second in brackets:
// "5.483 in (13.972 cm)". The error is a *length.ParseError.
func ParsePair(text string) (a, b Printed, err error) {
	first, second, ok := strings.Cut(text, "(")
	if !ok {
		return a, b, &length.ParseError{Input: text, Reason: "a second printing stands in brackets, such as 5.483 in (13.927 cm)"}
	}
	if a, err = ParsePrinted(first); err != nil {
		return a, b, err
	}
	b, err = ParsePrinted("(" + second)
	return a, b, err
}

// reasonOf returns the reason of a *length.ParseError without its input.
func reasonOf(err error) string {
	var p *length.ParseError
	if errors.As(err, &p) {
		return p.Reason
	}
	return err.Error()
}

// cutUnit splits a figure into its number and the name of its unit.
func cutUnit(text string) (number, unit string) {
	text = strings.TrimSpace(text)
	end := strings.IndexFunc(text, func(r rune) bool { return !strings.ContainsRune("0123456789.,+-\u2212", r) })
	if end < 0 {
		return text, ""
	}
	return text[:end], strings.TrimSpace(text[end:])
}

// printedUnits are the units of books, with their lengths.
var printedUnits = map[string]length.Length{
	"in": length.Inch, "mm": length.Millimetre, "cm": 10 * length.Millimetre, "µm": length.Micrometre, "µin": length.Microinch,
}

// readPrinted reads a number in a unit.
func readPrinted(number, unit string) (Printed, error) {
	name := strings.ToLower(unit)
	switch name {
	case "cm":
	case "inches":
		name = "in"
	default:
		u, err := length.ParseUnit(unit)
		if err != nil {
			return Printed{}, err
		}
		name = u.String()
	}
	d, err := length.ParseDecimal(number)
	if err != nil {
		return Printed{}, err
	}
	if _, err = d.Of(printedUnits[name]); err != nil {
		return Printed{}, err
	}
	return Printed{Number: d, Unit: name}, nil
}

// asPrinted returns a written length as a printing, per the length given.
func asPrinted(w, per length.Written) (Printed, bool) {
	d, err := length.ParseDecimal(w.Number())
	if err != nil {
		return Printed{}, false
	}
	return Printed{Number: d, Unit: w.Unit.String(), Per: per}, true
}

// one returns the length of one of the unit.
func (p Printed) one() length.Length { return printedUnits[p.Unit] }

// Length returns the figure as an exact length; of a slope, that over the length
// it is per.
func (p Printed) Length() length.Length {
	l, err := p.Number.Of(p.one())
	if err != nil {
		return 0 // reading and slipping keep to what can be held
	}
	return l
}

// written returns the figure in a unit that limits are kept in.
func (p Printed) written() length.Written {
	if p.Unit == "cm" {
		return rewritten(p.Length(), length.MM, max(p.Number.Places-1, 0))
	}
	u, err := length.ParseUnit(p.Unit)
	if err != nil {
		return length.Written{} // it is one of printedUnits
	}
	return length.Written{Length: p.Length(), Unit: u, Places: p.Number.Places}
}

// String writes the figure as it was printed: "13.972 cm", "0.0005 in per in".
func (p Printed) String() string {
	s := p.Number.String() + " " + p.Unit
	switch {
	case p.Per.IsZero():
		return s
	case p.Per.Number() == "1":
		return s + " per " + p.Per.Unit.String()
	}
	return fmt.Sprintf("%s per %s", s, p.Per)
}

// in writes the figure in another's unit, with its decimals.
func (p Printed) in(o Printed) string {
	return format(p.Length(), o.Unit, o.Number.Places) + " " + o.Unit
}

// format writes the number of a length in a unit of books.
func format(l length.Length, unit string, places int) string {
	if unit == "cm" {
		return length.Exact{Sum: l, Count: 10}.Format(length.MM, places)
	}
	u, err := length.ParseUnit(unit)
	if err != nil {
		return "" // it is one of printedUnits
	}
	return length.Of(l).Format(u, places)
}
