package gauge

import (
	"fmt"
	"strings"

	"borewright/engine/length"
)

// guess is what was probably meant and the slip that made it what it is.
type guess struct {
	slip   Slip
	cause  string
	at     length.Length
	likely string
}

// causes make guesses. Of two that are as near, the earlier one is named: 0.003
// for 0.030 is a shifted point before it is two digits swapped.
var causes = []func(doubt) []guess{doubt.oneTurn, doubt.otherUnit, doubt.shifted, doubt.swapped}

// explained holds a reading that some slip explains, and names the guess that
// lies nearest to what is expected.
func (d doubt) explained() (hold, bool) {
	var best *guess
	for _, make := range causes {
		for _, g := range make(d) {
			if d.likelier(g.at) && d.twiceAsNear(g.at) && (best == nil || d.expect.off(g.at).Cmp(d.expect.off(best.at)) < 0) {
				best = &g
			}
		}
	}
	if best == nil {
		return hold{}, false
	}
	if best.likely == "" {
		best.likely = d.name(best.at)
	}
	return hold{best.slip, d.distance() + ": " + best.cause, best.likely}, true
}

// oneTurn guesses at a thimble read one turn out, or a dial one revolution out.
// A turn of less than twice what is near cannot be told from wear.
func (d doubt) oneTurn() []guess {
	turn := d.Instrument.Revolution()
	if turn == 0 || !d.odd() {
		return nil
	}
	cause := "one revolution of the dial (" + d.show(turn) + ") out?"
	if d.Instrument.Kind == Direct {
		cause = "one turn of the thimble (" + d.show(turn) + ") out?"
	}
	return []guess{{OneTurn, cause, d.m.At - turn, ""}, {OneTurn, cause, d.m.At + turn, ""}}
}

// otherUnit guesses at a size in full keyed in the other unit: inches on a
// millimetre instrument or the reverse.
func (d doubt) otherUnit() []guess {
	if d.m.Size.IsZero() || !d.odd() || !d.n.point && !d.Cable {
		return nil
	}
	other := length.MM
	if d.unit() == length.MM {
		other = length.In
	}
	at, err := d.n.dec.Of(other.Size())
	if err != nil {
		return nil
	}
	meant := length.Written{Length: at, Unit: other, Places: d.n.dec.Places}
	return []guess{{
		WrongUnit, fmt.Sprintf("%s keyed as %s?", inWords[other], inWords[d.unit()]), at,
		meant.String() + ", which is " + d.showRounded(length.Of(at)),
	}}
}

// shiftedBy is how many places to either side a point is looked for.
const shiftedBy = 3

// shifted guesses at a point one to three places from where it belongs. On a
// dial only one: a few graduations are always near zero.
func (d doubt) shifted() []guess {
	if !d.odd() || !d.m.Size.IsZero() && !d.n.point {
		return nil
	}
	most := shiftedBy
	if d.m.Size.IsZero() {
		most = 1
	}
	var out []guess
	for by := 1; by <= most; by++ {
		for _, places := range []int{by, -by} {
			if at, ok := d.pointMoved(places); ok {
				out = append(out, guess{Shifted, "a shifted point?", at, ""})
			}
		}
	}
	return out
}

// pointMoved returns what the number means with the point so many places to the
// left; ok is false when it means nothing that can be read.
func (d doubt) pointMoved(places int) (at length.Length, ok bool) {
	n := d.n
	n.point = true
	n.dec.Places += places
	for ; n.dec.Places < 0; n.dec.Places++ {
		n.dec.Coef *= 10
	}
	return d.readable(n)
}

// Two digits swapped are looked for among readings that are not far off as
// well: one at least so far from every reading beside it, that with two of its
// digits swapped would lie so near to one of them. Common practice, no source;
// diametral.
const (
	apartInch = 2 * length.Inch / 1000
	apartMM   = 5 * length.Millimetre / 100
	closeInch = 3 * length.Inch / 10_000
	closeMM   = 8 * length.Millimetre / 1000
)

// swapped guesses at two neighbouring digits that changed places.
func (d doubt) swapped() []guess {
	odd := d.odd()
	if !odd && !d.apart() {
		return nil
	}
	var out []guess
	for _, text := range swaps(d.n.text) {
		n, err := parseNumber(text)
		if err != nil || d.zeroFirst(n) {
			continue
		}
		n.unit = d.n.unit
		if at, ok := d.readable(n); ok && (odd || d.close(at)) {
			out = append(out, guess{Swapped, "two digits swapped?", at, ""})
		}
	}
	return out
}

// readable returns what another number would mean here; ok is false when the
// instrument cannot be read so.
func (d doubt) readable(n number) (at length.Length, ok bool) {
	r := d.mean(n)
	if r.Kind != Taken || d.fineness(r.Meaning) {
		return 0, false
	}
	return r.Meaning.At, true
}

// zeroFirst reports whether graduations begin with a needless zero: nobody keys
// them so.
func (d doubt) zeroFirst(n number) bool {
	digits := strings.TrimLeft(n.text, "+-\u2212")
	return !d.m.Dev.IsZero() && len(digits) > 1 && digits[0] == '0' && digits[1] >= '0' && digits[1] <= '9'
}

// apart reports whether the reading stands apart from the readings beside it.
func (d doubt) apart() bool {
	return d.expect.read && d.expect.off(d.m.At).CmpLength(d.inUnit(apartInch, apartMM)) > 0
}

// close reports whether another meaning lies close to a reading beside it.
func (d doubt) close(at length.Length) bool {
	return d.expect.off(at).CmpLength(d.inUnit(closeInch, closeMM)) <= 0
}

// swaps returns the text with each pair of neighbouring digits swapped, the
// point left where it stands.
func swaps(text string) []string {
	var out []string
	last := -1
	for i := range len(text) {
		if text[i] < '0' || text[i] > '9' {
			continue
		}
		if last >= 0 && text[last] != text[i] {
			b := []byte(text)
			b[last], b[i] = b[i], b[last]
			out = append(out, string(b))
		}
		last = i
	}
	return out
}
