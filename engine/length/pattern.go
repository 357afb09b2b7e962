package length

import (
	"regexp"
	"strings"
	"sync"
)

// The patterns are regular expressions, unanchored, of what both Go and
// ECMA-262 know. They take every text that is read and, of texts written with
// the signs used here, no other, but for how many digits a number has and how
// long a length is.
const (
	// BlankPattern is for the blanks around a number, which may be those of any
	// script: it takes whatever is neither printed ASCII nor a sign used here.
	BlankPattern = `[^!-~−°µμ]*`
	// NumberPattern is for what ParseDecimal reads, without blanks.
	NumberPattern = `(?:[+\-−]?` + digits + `|` + digits + `[+\-−])`
)

const digits = `(?:[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+)`

// UnitPattern is for what ParseUnit reads as one of the units, for all of them
// when none is given.
func UnitPattern(among ...Unit) string {
	if len(among) == 0 {
		among = []Unit{In, MM, UM, UIn}
	}
	spelt := map[Unit]string{In: `in|inch|"`, MM: `mm`, UM: `[uµμ]m`, UIn: `[uµμ]in`}
	var all []string
	for _, u := range among {
		all = append(all, spelt[u])
	}
	return `(?:` + letter().ReplaceAllStringFunc(strings.Join(all, "|"), eitherCase) + `)`
}

// letter is a small letter of a unit, and the letters that stand in brackets.
var letter = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`\[uµμ\]|[a-z]`) })

func eitherCase(s string) string {
	if strings.HasPrefix(s, "[") {
		return `[uUµμ]`
	}
	return `[` + s + strings.ToUpper(s) + `]`
}

// Pattern is for what Parse reads: a number with its unit, which may be missing
// when bare is set.
func Pattern(bare bool) string {
	unit := ` *` + UnitPattern()
	if bare {
		unit = `(?:` + unit + `)?`
	}
	return BlankPattern + NumberPattern + unit + BlankPattern
}
