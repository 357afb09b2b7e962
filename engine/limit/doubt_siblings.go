package limit

import (
	"fmt"

	"borewright/engine/length"
	"borewright/engine/plan"
)

// tenfoldDoubts doubts a limit that has the digits of a like limit in another
// row with the point elsewhere. Where more rows keep to one of the two, only
// the other is doubted.
func tenfoldDoubts(all []Copied) []Doubt {
	var out []Doubt
	for i := range all {
		for _, f := range Fields() {
			if d, ok := tenfold(all, i, f); ok {
				out = append(out, d)
			}
		}
	}
	return out
}

// tenfold doubts one field of one row.
func tenfold(all []Copied, row int, f Field) (Doubt, bool) {
	w := all[row].At(f)
	for i, other := range all {
		v := other.At(f)
		if i == row || !alike(all[row].Limits, other.Limits) || !sameDigits(w, v) || backed(all, row, f) > backed(all, i, f) {
			continue
		}
		slip := ShiftedPoint
		if w.Length > v.Length {
			slip = LostZero
		}
		return Doubt{
			Row: row, Field: f, Reason: Tenfold, Written: w.String(),
			Why: fmt.Sprintf("%s %s, for the %s of %s, has the digits of %s, for the %s of %s, and its point elsewhere",
				f.words(), w, all[row].On, all[row].Of, v, other.On, other.Of),
			Likely: []Guess{{slip, v.String()}},
		}, true
	}
	return Doubt{}, false
}

// backed counts the like rows that have the same length in a field.
func backed(all []Copied, row int, f Field) int {
	n := 0
	for i, other := range all {
		if i != row && alike(all[row].Limits, other.Limits) && other.At(f).Length == all[row].At(f).Length {
			n++
		}
	}
	return n
}

// sameDigits reports whether two lengths of one unit are above zero and differ
// by the place of the point alone.
func sameDigits(a, b length.Written) bool {
	if a.Unit != b.Unit || a.Length <= 0 || b.Length <= 0 || a.Length == b.Length {
		return false
	}
	small, large := min(a.Length, b.Length), max(a.Length, b.Length)
	for small <= large/10 {
		small *= 10
	}
	return small == large
}

// alike reports whether two rows limit what is of one order of magnitude: the
// same characteristic of one family, per the same length; the out-of-round and
// the taper of one family; or one of those of mains and of rods.
func alike(a, b Limits) bool {
	form := func(on Characteristic) bool { return on == OutOfRound || on == Taper }
	of, other := familyOf(a.Of), familyOf(b.Of)
	switch {
	case a.Per.Length != b.Per.Length:
		return false
	case of == other:
		return a.On == b.On || form(a.On) && form(b.On)
	}
	return a.On == b.On && form(a.On) && crankPart[of] != 0 && crankPart[of] == crankPart[other]
}

// crankPart groups the journals, and the housings, that have like limits of
// form: common practice, no source.
var crankPart = map[plan.Family]int{
	plan.MainJournal: 1, plan.RodJournal: 1,
	plan.MainHousing: 2, plan.RodHousing: 2,
}
