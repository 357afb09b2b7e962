package length

import (
	"math/big"
	"strings"
)

// RoundDecimal rounds a number, given as ParseDecimal reads it, to so many
// decimals, half to even on the decimal digits: 2.675 to 2 decimals is "2.68"
// and 2.665 is "2.66". Fewer decimals than none round to tens, hundreds and so
// on. Decimals go from -18 to 18.
func RoundDecimal(text string, places int) (string, error) {
	d, err := ParseDecimal(text)
	if err != nil {
		return "", err
	}
	if places < -maxPlaces || places > maxPlaces {
		return "", refuse(text, "numbers are rounded to -18 to 18 decimals")
	}
	return d.round(big.NewInt(1), places), nil
}

// RoundSignificant rounds a number, given as ParseDecimal reads it, to so many
// significant digits (1 to 15), half to even on the decimal digits: 6.9749515
// to 3 digits is "6.97" and to 2 digits "7.0" (NIST SP 811 (2008) B.7.1).
func RoundSignificant(text string, digits int) (string, error) {
	d, err := ParseDecimal(text)
	if err != nil {
		return "", err
	}
	if digits < 1 || digits > maxDigits {
		return "", refuse(text, "numbers are rounded to 1 to 15 digits")
	}
	one := big.NewInt(1)
	places := digits - d.leading()
	if s := d.round(one, places); significant(s) <= digits || places <= 0 {
		return s, nil
	}
	return d.round(one, places-1), nil
}

// RoundStep rounds a number to the nearest whole multiple of step, a tie to the
// even multiple, and writes it with the decimals of the step: 12.25 by 0.1 is
// "12.2" and 1235.0 by 10 is "1240" (ISO 80000-1 Annex B). Both are read as
// ParseDecimal does, and the step must be more than zero.
func RoundStep(text, step string) (string, error) {
	d, err := ParseDecimal(text)
	if err != nil {
		return "", err
	}
	s, err := ParseDecimal(step)
	if err != nil {
		return "", err
	}
	if s.Coef <= 0 {
		return "", refuse(step, "a step to round to is more than zero")
	}
	return d.round(big.NewInt(s.Coef), s.Places), nil
}

// leading returns how many digits stand before the point, counted from the
// first that is not zero: 2 for 12.5, 0 for 0.5, -1 for 0.05, and 1 for zero.
func (d Decimal) leading() int {
	if d.Coef == 0 {
		return 1
	}
	return len(new(big.Int).Abs(big.NewInt(d.Coef)).String()) - d.Places
}

// significant counts the digits of a printed number from the first that is not
// zero.
func significant(s string) int {
	n := 0
	for _, r := range s {
		if r >= '1' && r <= '9' || n > 0 && r == '0' {
			n++
		}
	}
	return n
}

// round returns d rounded half to even to a whole multiple of
// coef × 10^-places, written with places decimals.
func (d Decimal) round(coef *big.Int, places int) string {
	num, den := big.NewInt(d.Coef), new(big.Int).Set(coef)
	if up := places - d.Places; up >= 0 {
		num.Mul(num, bigPow10(up))
	} else {
		den.Mul(den, bigPow10(-up))
	}
	q := roundBig(num, den)
	q.Mul(q, coef)
	if places < 0 {
		q.Mul(q, bigPow10(-places))
		places = 0
	}
	return pointed(q, places)
}

// pointed writes q × 10^-places.
func pointed(q *big.Int, places int) string {
	sign := ""
	if q.Sign() < 0 {
		sign = "-"
	}
	digits := new(big.Int).Abs(q).String()
	if short := places + 1 - len(digits); short > 0 {
		digits = strings.Repeat("0", short) + digits
	}
	if places == 0 {
		return sign + digits
	}
	point := len(digits) - places
	return sign + digits[:point] + "." + digits[point:]
}

// bigPow10 returns 10^n.
func bigPow10(n int) *big.Int {
	return new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(n)), nil)
}

// roundBig returns num/den, den above zero, rounded half to even.
func roundBig(num, den *big.Int) *big.Int {
	q, r := new(big.Int).DivMod(num, den, new(big.Int))
	switch r.Lsh(r, 1).Cmp(den) {
	case 1:
		q.Add(q, big.NewInt(1))
	case 0:
		if q.Bit(0) == 1 {
			q.Add(q, big.NewInt(1))
		}
	}
	return q
}
