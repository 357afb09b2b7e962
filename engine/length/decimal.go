package length

import "strings"

// maxDigits is how many digits a number may have, not counting leading zeros,
// and how many of its digits may stand after the point.
const maxDigits = 15

// Decimal is a number as keyed: Coef × 10^-Places, the digits as an integer and
// how many of them stand after the point. Trailing zeros are kept, being the
// resolution. ParseDecimal makes |Coef| below 10^15 and Places from 0 to 15.
type Decimal struct {
	Coef   int64
	Places int
}

// ParseDecimal reads a decimal number and nothing else:
//
//	number = [ sign ] ( digits [ point [ digits ] ] | point digits ) [ sign ]
//	sign   = "+" | "-" | U+2212
//	point  = "." | ","
//
// One sign at most, before or after. Spaces around the number are allowed and
// none inside it; there is no exponent. At most 15 digits, leading zeros not
// counted, and at most 15 after the point. The error is a *ParseError.
func ParseDecimal(s string) (Decimal, error) {
	body, neg, reason := cutSign(strings.TrimSpace(s))
	if reason != "" {
		return Decimal{}, refuse(s, reason)
	}
	d, reason := scanDigits(body)
	if reason != "" {
		return Decimal{}, refuse(s, reason)
	}
	if neg {
		d.Coef = -d.Coef
	}
	return d, nil
}

// String returns the number with all its decimals, such as "-0.0005".
func (d Decimal) String() string {
	if d.Places < 0 || d.Places > maxPlaces {
		return ""
	}
	return formatWide(wideOf(d.Coef), d.Places, false)
}

// Of returns the number times unit, exactly. It is an error, a *ParseError,
// when that is not a whole number of picometres or is beyond ±100 m.
func (d Decimal) Of(unit Length) (Length, error) {
	if d.Places < 0 || d.Places > maxPlaces {
		return 0, refuse(d.String(), "a number has 0 to 18 decimals")
	}
	p := wideOf(d.Coef).times(magnitude(int64(unit)))
	p.neg = p.neg != (unit < 0)
	if p.cmpMagnitude(wideOf(int64(limit)).times(pow10[d.Places])) > 0 {
		return 0, refuse(d.String(), "longer than 100 m, the longest length taken")
	}
	q, rem := p.quo(pow10[d.Places])
	if rem > 0 {
		return 0, refuse(d.String(), "finer than a picometre, the smallest step kept")
	}
	v, _ := q.int64()
	return Length(v), nil
}

// signAt returns the length of a sign at the start of s (0 when there is none)
// and whether it is a minus.
func signAt(s string) (size int, neg bool) {
	switch {
	case strings.HasPrefix(s, "+"):
		return 1, false
	case strings.HasPrefix(s, "-"):
		return 1, true
	case strings.HasPrefix(s, minus):
		return len(minus), true
	}
	return 0, false
}

// minus is the typographic minus sign, U+2212.
const minus = "\u2212"

// cutSign takes one sign off either end of s.
func cutSign(s string) (body string, neg bool, reason string) {
	size, neg := signAt(s)
	s = s[size:]
	last := ""
	for _, sign := range []string{"+", "-", minus} {
		if strings.HasSuffix(s, sign) {
			last = sign
		}
	}
	if last == "" {
		return s, neg, ""
	}
	body = s[:len(s)-len(last)]
	if size > 0 && body != "" {
		return "", false, "a number has one sign"
	}
	return body, last != "+", ""
}

// scanDigits reads an unsigned number; reason is empty when it could.
func scanDigits(s string) (d Decimal, reason string) {
	seen, digits, point := 0, 0, false
	for _, r := range s {
		switch {
		case r == '.' || r == ',':
			if point {
				return Decimal{}, "a number has one decimal point"
			}
			point = true
			continue
		case r < '0' || r > '9':
			return Decimal{}, "not a decimal number"
		}
		seen++
		if digits > 0 || r != '0' {
			digits++
		}
		if point {
			d.Places++
		}
		if digits > maxDigits || d.Places > maxDigits {
			return Decimal{}, "a number has at most 15 digits"
		}
		d.Coef = d.Coef*10 + int64(r-'0')
	}
	if seen == 0 {
		return Decimal{}, "a number needs a digit"
	}
	return d, ""
}
