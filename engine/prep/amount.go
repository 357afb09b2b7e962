package prep

import (
	"fmt"
	"math/big"
	"strings"

	"borewright/engine/length"
)

// amount is a figure with its unit, exact.
type amount struct {
	number length.Decimal
	unit   string
}

// parseAmount reads a number that may carry a unit; a bare one takes the unit
// given. Any other unit than that is an error: nothing is converted here.
func parseAmount(text, unit string) (amount, error) {
	number, behind := strings.TrimSpace(text), ""
	if end := strings.IndexFunc(number, notOfNumber); end >= 0 {
		number, behind = number[:end], strings.TrimSpace(number[end:])
	}
	d, err := length.ParseDecimal(number)
	if err != nil {
		return amount{}, err
	}
	if behind != "" && behind != unit {
		return amount{}, fmt.Errorf("%s is in %s, not in %s", text, behind, orNone(unit))
	}
	return amount{d, unit}, nil
}

func notOfNumber(r rune) bool { return !strings.ContainsRune("0123456789.,+-\u2212", r) }

func orNone(unit string) string {
	if unit == "" {
		return "a bare number"
	}
	return unit
}

// String returns the number with its decimals and its unit.
func (a amount) String() string { return strings.TrimSpace(a.number.String() + " " + a.unit) }

// rat returns the number exactly.
func (a amount) rat() *big.Rat {
	scale := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(a.number.Places)), nil)
	return new(big.Rat).SetFrac(big.NewInt(a.number.Coef), scale)
}

// beyond says in words on which side of the step's limits a value is, or "".
// Exactly on a limit is inside.
func (s Step) beyond(value string) string {
	v, err := parseAmount(value, s.Unit)
	if err != nil {
		return ""
	}
	if low, err := parseAmount(s.Low, s.Unit); s.Low != "" && err == nil && v.rat().Cmp(low.rat()) < 0 {
		return v.String() + " is below " + low.String()
	}
	if high, err := parseAmount(s.High, s.Unit); s.High != "" && err == nil && v.rat().Cmp(high.rat()) > 0 {
		return v.String() + " is above " + high.String()
	}
	return ""
}

// Limits says in words what the step's figure may be, or "".
func (s Step) Limits() string {
	switch {
	case s.Low == "" && s.High == "":
		return ""
	case s.Low == "":
		return "at most " + s.High
	case s.High == "":
		return "at least " + s.Low
	default:
		return s.Low + " to " + s.High
	}
}
