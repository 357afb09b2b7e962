package length

import (
	"math"
	"math/bits"
)

// wide is a signed integer of 128 bits, sign and magnitude, for products of a
// length and a power of ten or a count. Zero may carry either sign. Sums and
// products must fit; the callers see to that.
type wide struct {
	neg    bool
	hi, lo uint64
}

// pow10 holds the powers of ten that the formatting uses.
var pow10 = [maxPlaces + 1]uint64{
	1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9,
	1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18,
}

// magnitude returns |v|, right for the smallest int64 too.
func magnitude(v int64) uint64 {
	if v < 0 {
		return -uint64(v)
	}
	return uint64(v)
}

// wideOf returns v.
func wideOf(v int64) wide { return wide{neg: v < 0, lo: magnitude(v)} }

// times returns w × by.
func (w wide) times(by uint64) wide {
	hi, lo := bits.Mul64(w.lo, by)
	return wide{neg: w.neg, hi: hi + w.hi*by, lo: lo}
}

// plus returns w + o.
func (w wide) plus(o wide) wide {
	if w.neg == o.neg {
		lo, carry := bits.Add64(w.lo, o.lo, 0)
		hi, _ := bits.Add64(w.hi, o.hi, carry)
		return wide{neg: w.neg, hi: hi, lo: lo}
	}
	if w.cmpMagnitude(o) < 0 {
		w, o = o, w
	}
	lo, borrow := bits.Sub64(w.lo, o.lo, 0)
	hi, _ := bits.Sub64(w.hi, o.hi, borrow)
	return wide{neg: w.neg, hi: hi, lo: lo}
}

// cmpMagnitude compares |w| with |o|.
func (w wide) cmpMagnitude(o wide) int {
	switch {
	case w.hi != o.hi && w.hi < o.hi, w.hi == o.hi && w.lo < o.lo:
		return -1
	case w == o, w.hi == o.hi && w.lo == o.lo:
		return 0
	}
	return 1
}

// sign returns -1, 0 or 1.
func (w wide) sign() int {
	switch {
	case w.hi == 0 && w.lo == 0:
		return 0
	case w.neg:
		return -1
	}
	return 1
}

// cmp compares w with o.
func (w wide) cmp(o wide) int {
	a, b := w.sign(), o.sign()
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	case a < 0:
		return o.cmpMagnitude(w)
	}
	return w.cmpMagnitude(o)
}

// quo divides by d, towards zero; rem is what is left of the magnitude.
func (w wide) quo(d uint64) (q wide, rem uint64) {
	q = wide{neg: w.neg, hi: w.hi / d}
	q.lo, rem = bits.Div64(w.hi%d, w.lo, d)
	return q, rem
}

// roundQuo divides by d and rounds half to even.
func (w wide) roundQuo(d uint64) wide {
	q, rem := w.quo(d)
	if rem > d-rem || rem == d-rem && q.lo&1 == 1 {
		return q.awayByOne()
	}
	return q
}

// awayByOne returns the integer next to w on the side away from zero.
func (w wide) awayByOne() wide {
	lo, carry := bits.Add64(w.lo, 1, 0)
	return wide{neg: w.neg, hi: w.hi + carry, lo: lo}
}

// int64 returns w, and whether it fits.
func (w wide) int64() (int64, bool) {
	switch {
	case w.hi != 0:
		return 0, false
	case w.neg && w.lo <= 1<<63:
		return -int64(w.lo), true
	case w.lo <= math.MaxInt64:
		return int64(w.lo), true
	}
	return 0, false
}
