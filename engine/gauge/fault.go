package gauge

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"borewright/engine/length"
	"borewright/engine/plan"
)

// Fault says what is wrong with an instrument, a setting or a set.
type Fault struct {
	Of     string // what has it, such as `instrument "m1"`
	Field  string // the field's name
	Value  string // its value; empty when it is missing
	Reason string // what is wrong with it, in plain words
}

// Error is one sentence that names the place and the value.
func (f *Fault) Error() string {
	if f.Value == "" {
		return fmt.Sprintf("%s: %s %s", f.Of, f.Field, f.Reason)
	}
	return fmt.Sprintf("%s: %s %s %s", f.Of, f.Field, plan.Quote(f.Value), f.Reason)
}

// How long a name and any other text may be, in bytes.
const (
	longestName = 64
	longestText = 200
)

// The coefficients of expansion that are believed, in 1e-6 per °C, and the
// temperatures, in °C.
const (
	mostAlpha        = 1000
	coldest, warmest = -60, 300
)

// faults collects the first fault of one thing.
type faults struct {
	of  string
	err error
}

// faultsOf begins with the id of the thing, which then names it.
func faultsOf(noun, id string) *faults {
	f := &faults{of: noun}
	f.name("id", id)
	f.of += " " + plan.Quote(id)
	return f
}

func (f *faults) add(bad bool, field, value, reason string) {
	if bad && f.err == nil {
		f.err = &Fault{f.of, field, value, reason}
	}
}

// name checks a text that must be there.
func (f *faults) name(field, value string) {
	f.add(strings.TrimSpace(value) == "", field, value, "is missing")
	f.text(field, value, longestName)
}

// text checks a text that may be missing.
func (f *faults) text(field, value string, most int) {
	f.add(!utf8.ValidString(value), field, value, "is not text")
	f.add(len(value) > most, field, value, fmt.Sprintf("is longer than %d bytes", most))
	f.add(strings.ContainsFunc(value, unicode.IsControl), field, value, "holds a control character")
}

// oneOf checks a value that must be one of those given.
func (f *faults) oneOf(field, value, reason string, of ...string) {
	for _, v := range of {
		if v == value {
			return
		}
	}
	f.add(true, field, value, reason)
}

// notBelow checks a length that may be missing but not be below the least.
func (f *faults) notBelow(least length.Length, field string, w length.Written, reason string) {
	f.add(!w.IsZero() && w.Length < least, field, w.String(), reason)
}

// decimal checks a decimal text that may be missing and lies from low to high.
func (f *faults) decimal(field, value string, low, high int64) {
	if value == "" {
		return
	}
	d, err := length.ParseDecimal(value)
	f.add(err != nil, field, value, "is not a decimal number")
	f.add(err == nil && !Within(d, low, high), field, value, fmt.Sprintf("is not from %d to %d", low, high))
}

// Within reports whether a decimal number lies from low to high, bounds within
// ±1000.
func Within(d length.Decimal, low, high int64) bool {
	one := int64(1) // 10^15 at most, so that its products fit
	for range d.Places {
		one *= 10
	}
	return low*one <= d.Coef && d.Coef <= high*one
}
