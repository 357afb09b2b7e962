package limit

import (
	"strings"

	"borewright/engine/length"
)

// Slip is how a figure may have become what is printed or copied. The zero
// value is none.
type Slip uint8

// The slips, likelier ones first where several explain a doubt.
const (
	NoSlip        Slip = iota
	Exchanged          // two limits stand in each other's place
	Misplaced          // it stands in the wrong field
	TurnedSlope        // a slope was converted as if it were a length
	ShiftedPoint       // the point stands 1 to 3 places off
	SwappedDigits      // two neighbouring digits changed places
	LostZero           // a zero among its digits was lost
	WrongUnit          // another unit stands behind it
	OneDigit           // one digit is another
	OffStep            // it is not where equal steps would have it
)

var slipNames = [...]string{
	NoSlip: "", Exchanged: "limits exchanged", Misplaced: "wrong field", TurnedSlope: "slope turned as a length",
	ShiftedPoint: "shifted point", SwappedDigits: "swapped digits", LostZero: "lost zero", WrongUnit: "wrong unit",
	OneDigit: "one digit wrong", OffStep: "off its step",
}

// String returns a short name of the slip, and nothing for none.
func (s Slip) String() string {
	if int(s) < len(slipNames) {
		return slipNames[s]
	}
	return ""
}

// slipped is what a figure may have been before a slip.
type slipped struct {
	slip Slip
	was  Printed
}

// farthest is how many places a point is thought to shift.
const farthest = 3

// slips returns what a figure may have been before one slip, each value once.
// Single wrong digits are left to wrongDigits, being many.
func (p Printed) slips() []slipped {
	var out []slipped
	seen := map[length.Length]bool{p.Length(): true}
	add := func(s Slip, q Printed) {
		l, err := q.Number.Of(q.one())
		if err != nil || seen[l] {
			return
		}
		seen[l] = true
		out = append(out, slipped{s, q})
	}
	for k := 1; k <= farthest; k++ {
		add(ShiftedPoint, p.shifted(k))
		add(ShiftedPoint, p.shifted(-k))
	}
	text := p.Number.String()
	for i := range text {
		add(SwappedDigits, p.retyped(swapAt(text, i)))
	}
	for i := strings.IndexAny(text, "123456789.") + 1; i < len(text); i++ {
		add(LostZero, p.retyped(text[:i]+"0"+text[i:]))
	}
	for _, u := range map[string][]string{"in": {"mm"}, "mm": {"in", "cm"}, "cm": {"mm"}}[p.Unit] {
		q := p
		q.Unit = u
		add(WrongUnit, q)
	}
	return out
}

// wrongDigits returns the figure with any one digit another, but for zero.
func (p Printed) wrongDigits() []slipped {
	var out []slipped
	text := p.Number.String()
	for i := range text {
		for d := byte('0'); isDigit(text[i]) && d <= '9'; d++ {
			if q := p.retyped(text[:i] + string(d) + text[i+1:]); d != text[i] && q.Number.Coef != 0 {
				out = append(out, slipped{OneDigit, q})
			}
		}
	}
	return out
}

// shifted returns the figure with its point k places to the left, or to the
// right for a k below zero, and its digits as they are.
func (p Printed) shifted(k int) Printed {
	p.Number.Places += k
	for ; p.Number.Places < 0; p.Number.Places++ {
		p.Number.Coef *= 10
	}
	return p
}

// retyped returns the figure with other digits, or itself when they are none.
func (p Printed) retyped(text string) Printed {
	if d, err := length.ParseDecimal(text); err == nil {
		p.Number = d
	}
	return p
}

// swapAt exchanges the digit at i with the next one, across a point too.
func swapAt(text string, i int) string {
	j := i + 1
	if j < len(text) && text[j] == '.' {
		j++
	}
	if j >= len(text) || !isDigit(text[i]) || !isDigit(text[j]) {
		return text
	}
	b := []byte(text)
	b[i], b[j] = b[j], b[i]
	return string(b)
}

func isDigit(b byte) bool { return b >= '0' && b <= '9' }
