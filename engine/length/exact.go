package length

import "math"

// maxCount is the largest Count that is kept exactly.
const maxCount = 1 << 20

// Exact is an exact length that may be a fraction of a picometre: Sum/Count
// picometres. The zero value, and any with a Count below 1, means not
// measured.
//
// What the functions here return is in lowest terms, so that == compares two
// of them. Where the lowest Count would pass 1<<20, or Sum would not fit, the
// result is rounded half to even to 1 pm; where even that is beyond the range
// of Length it cannot be held, and is not measured. Arithmetic on what is not
// measured is not measured.
type Exact struct {
	Sum   Length
	Count int64
}

// Of returns l itself.
func Of(l Length) Exact { return Exact{Sum: l, Count: 1} }

// Measured reports whether there is a length at all.
func (e Exact) Measured() bool { return e.Count > 0 }

// Add returns e + o.
func (e Exact) Add(o Exact) Exact { return e.plus(o, false) }

// Sub returns e - o.
func (e Exact) Sub(o Exact) Exact { return e.plus(o, true) }

// plus returns e + o, or e - o when less is set.
func (e Exact) plus(o Exact, less bool) Exact {
	if !e.Measured() || !o.Measured() {
		return Exact{}
	}
	e, o = e.lowest(), o.lowest()
	shared := gcd(uint64(e.Count), uint64(o.Count))
	eBy, oBy := uint64(o.Count)/shared, uint64(e.Count)/shared
	other := wideOf(int64(o.Sum)).times(oBy)
	other.neg = other.neg != less
	return ratio(wideOf(int64(e.Sum)).times(eBy).plus(other), uint64(e.Count)*eBy)
}

// Neg returns -e.
func (e Exact) Neg() Exact { return e.Times(-1) }

// Abs returns |e|.
func (e Exact) Abs() Exact {
	if e.Sign() < 0 {
		return e.Neg()
	}
	return e.lowest()
}

// Half returns e/2.
func (e Exact) Half() Exact {
	if !e.Measured() {
		return Exact{}
	}
	e = e.lowest()
	return ratio(wideOf(int64(e.Sum)), 2*uint64(e.Count))
}

// Times returns n × e.
func (e Exact) Times(n int64) Exact {
	if !e.Measured() {
		return Exact{}
	}
	p := wideOf(int64(e.Sum)).times(magnitude(n))
	p.neg = p.neg != (n < 0)
	return ratio(p, uint64(e.Count))
}

// Cmp returns -1 when e is smaller than o, 0 when they are equal and 1 when e
// is larger, exactly, by cross-multiplying. What is not measured comes before
// every length and equals what is not measured.
func (e Exact) Cmp(o Exact) int {
	switch {
	case !e.Measured() && !o.Measured():
		return 0
	case !e.Measured():
		return -1
	case !o.Measured():
		return 1
	}
	return wideOf(int64(e.Sum)).times(uint64(o.Count)).cmp(wideOf(int64(o.Sum)).times(uint64(e.Count)))
}

// CmpLength compares e with l as Cmp does.
func (e Exact) CmpLength(l Length) int { return e.Cmp(Of(l)) }

// Sign returns -1, 0 or 1; 0 too when not measured.
func (e Exact) Sign() int {
	switch {
	case !e.Measured() || e.Sum == 0:
		return 0
	case e.Sum < 0:
		return -1
	}
	return 1
}

// Round returns e rounded half to even to 1 pm; 0 when not measured.
func (e Exact) Round() Length {
	if !e.Measured() {
		return 0
	}
	v, _ := wideOf(int64(e.Sum)).roundQuo(uint64(e.Count)).int64()
	return Length(v)
}

// Float returns e in picometres as a floating-point number. With Metres it is
// the one border between exact lengths and floating point; it is exact to a
// part in 10^15. It is not a number (NaN) when not measured.
func (e Exact) Float() float64 {
	if !e.Measured() {
		return math.NaN()
	}
	return float64(e.Sum) / float64(e.Count)
}

// Metres returns e in metres as a floating-point number, as Float does.
func (e Exact) Metres() float64 { return e.Float() / float64(Metre) }

// lowest returns e in lowest terms, and the zero value when not measured.
func (e Exact) lowest() Exact {
	switch {
	case e.Count == 1:
		return e
	case !e.Measured():
		return Exact{}
	}
	return ratio(wideOf(int64(e.Sum)), uint64(e.Count))
}

// ratio returns sum/count in lowest terms, rounded to 1 pm when it must be.
func ratio(sum wide, count uint64) Exact {
	if count > 1 {
		_, rem := sum.quo(count)
		by := gcd(rem, count)
		sum, _ = sum.quo(by)
		count /= by
	}
	if v, ok := sum.int64(); ok && count <= maxCount {
		return Exact{Sum: Length(v), Count: int64(count)}
	}
	if v, ok := sum.roundQuo(count).int64(); ok {
		return Of(Length(v))
	}
	return Exact{}
}

// gcd returns the greatest common divisor; gcd(0, b) is b.
func gcd(a, b uint64) uint64 {
	for a != 0 {
		a, b = b%a, a
	}
	return b
}
