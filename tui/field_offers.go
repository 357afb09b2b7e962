package tui

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"borewright/engine"
	"borewright/engine/gauge"
	"borewright/engine/length"
)

// mostOffers is how many texts a field offers: one for each digit but 0.
const mostOffers = 9

// keypadOnly is text of a keypad's signs, with a digit at either end: a number,
// or several with what parts them between, such as the steps of a torque.
var keypadOnly = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^[0-9]([0-9.,+\-/]*[0-9])?$`) })

// taken is what a field of words takes in for what is typed: the text that a
// digit stands for, or a number with the unit that belongs behind it.
func (f field) taken(text string) string {
	if len(f.offers) > 0 && len(text) == 1 && text[0] >= '0' && text[0] <= '9' {
		if text == "0" {
			return ""
		}
		if n := int(text[0] - '0'); n <= len(f.offers) {
			return f.offers[n-1]
		}
	}
	if f.behind != "" && keypadOnly().MatchString(text) {
		return text + " " + f.behind
	}
	return text
}

// byDigits reports whether a digit begins the field's text anew: a keypad has no
// key to clear what stands there.
func (f field) byDigits() bool { return len(f.offers) > 0 || f.behind != "" }

// purpose says what the field is for, and what its digits stand for.
func (f field) purpose() string {
	if len(f.offers) == 0 {
		return f.why
	}
	var out []string
	for i, text := range f.offers {
		out = append(out, fmt.Sprintf("%d %s", i+1, text))
	}
	return f.why + ". A digit: " + strings.Join(out, "; ") + "; 0 nothing"
}

// offering adds texts to be had by a digit to a field of words: those that are
// usual, then those in use.
func (f field) offering(usual []string, used ...string) field {
	for _, text := range append(slices.Clone(usual), used...) {
		if text != "" && !slices.Contains(f.offers, text) && len(f.offers) < mostOffers {
			f.offers = append(f.offers, text)
		}
	}
	return f
}

// torqueUnits are the units that a torque is keyed in.
var torqueUnits = []string{"lb ft", "N m", "lb in"}

// torqueUnit is the unit of a torque that is written already, else that of the
// bench.
func torqueUnit(u length.Unit, written ...string) string {
	for _, text := range written {
		for _, unit := range torqueUnits {
			if strings.HasSuffix(text, " "+unit) {
				return unit
			}
		}
	}
	if u == length.In {
		return torqueUnits[0]
	}
	return torqueUnits[1]
}

// torqueRow chooses the unit that belongs behind a torque keyed without one.
func torqueRow(unit *string, wide int) row {
	var choices []string
	for i, u := range torqueUnits {
		choices = append(choices, strconv.Itoa(i+1)+" "+u)
	}
	return row{label: "torques are keyed in", labelWide: wide, fields: []field{choiceOf("torque.unit", "the unit behind a torque that is keyed without one; what stands there keeps its own",
		choices, slices.Index(torqueUnits, *unit), *unit, func(i int) { *unit = torqueUnits[i] })}}
}

// conditionsUsed are what the sets of a session say of one condition.
func conditionsUsed(s *engine.Session, of func(gauge.Set) string) []string {
	var out []string
	for _, x := range slices.Backward(s.Sets()) {
		out = append(out, of(x))
	}
	return out
}
