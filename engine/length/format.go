package length

import "strconv"

// maxPlaces is the largest number of decimals that is ever shown, and
// besidePlaces how far FormatBeside goes by itself.
const (
	maxPlaces    = 18
	besidePlaces = 12
)

// Bound is a limit that a shown value must not cross by being rounded: above
// At is outside when High is set, below At is outside when it is not. Exactly
// on it is inside.
type Bound struct {
	At   Length
	High bool
}

// Format returns e in the unit u with places decimals (taken as 0 to 18),
// rounded half to even on the decimal digits, without the unit's name:
// "3.7503". The minus is "-"; there is no "-0.0000". It is empty when e is not
// measured or u is no unit.
func (e Exact) Format(u Unit, places int) string {
	return e.format(u, places, false)
}

// FormatSigned is Format with a "+" before what is shown as more than zero:
// "+0.0003", "-0.0003", "0.0000".
func (e Exact) FormatSigned(u Unit, places int) string {
	return e.format(u, places, true)
}

// FormatBeside is Format with as many more decimals, up to 12, as it takes to
// show e on its own side of every bound: rounding for display never turns a
// reject into an accept (IS 2:1960 Amd 1 (1997) cl. 3.4), nor the reverse.
// Where 12 decimals do not suffice the last is rounded towards e's side. Only
// a length exactly on both a high and a low bound that are equal, in a unit
// in which it is no finite decimal, has no such number: it is shown with 12.
func (e Exact) FormatBeside(u Unit, places int, bounds ...Bound) string {
	if !e.Measured() || u.Size() == 0 {
		return ""
	}
	e = e.lowest()
	for places = clampPlaces(places); ; places++ {
		shown := e.scaled(places).roundQuo(e.step(u))
		if e.keepsSide(shown, u, places, bounds) {
			return formatWide(shown, places, false)
		}
		if places >= besidePlaces {
			return formatWide(e.towardsSide(shown, u, places, bounds), places, false)
		}
	}
}

// format is Format, with a plus when signed.
func (e Exact) format(u Unit, places int, signed bool) string {
	if !e.Measured() || u.Size() == 0 {
		return ""
	}
	if e.Count > maxCount {
		e = e.lowest()
	}
	places = clampPlaces(places)
	return formatWide(e.scaled(places).roundQuo(e.step(u)), places, signed)
}

// scaled and step are e × 10^places as a fraction: scaled in picometres, step
// in picometres to one of the unit.
func (e Exact) scaled(places int) wide { return wideOf(int64(e.Sum)).times(pow10[places]) }

func (e Exact) step(u Unit) uint64 { return uint64(e.Count) * uint64(u.Size()) }

// keepsSide reports whether shown, in 10^-places of the unit, is on the same
// side of every bound as e.
func (e Exact) keepsSide(shown wide, u Unit, places int, bounds []Bound) bool {
	shown = shown.times(uint64(u.Size()))
	for _, b := range bounds {
		at := wideOf(int64(b.At)).times(pow10[places])
		if b.outside(shown.cmp(at)) != b.outside(e.CmpLength(b.At)) {
			return false
		}
	}
	return true
}

// outside reports whether what compares so with the bound is outside it.
func (b Bound) outside(cmp int) bool { return b.High && cmp > 0 || !b.High && cmp < 0 }

// towardsSide returns whichever neighbour of e keeps its side, else shown.
func (e Exact) towardsSide(shown wide, u Unit, places int, bounds []Bound) wide {
	near, _ := e.scaled(places).quo(e.step(u))
	for _, w := range []wide{near, near.awayByOne()} {
		if e.keepsSide(w, u, places, bounds) {
			return w
		}
	}
	return shown
}

// clampPlaces brings places into 0 to maxPlaces.
func clampPlaces(places int) int { return min(max(places, 0), maxPlaces) }

// formatWide writes w × 10^-places, w below 10^37 in magnitude.
func formatWide(w wide, places int, signed bool) string {
	var room, digits [48]byte
	out, all := room[:0], appendWide(digits[:0], w)
	switch {
	case w.sign() < 0:
		out = append(out, '-')
	case signed && w.sign() > 0:
		out = append(out, '+')
	}
	whole := len(all) - places
	if whole <= 0 {
		out = append(out, '0')
	} else {
		out = append(out, all[:whole]...)
	}
	if places > 0 {
		out = append(out, '.')
		for ; whole < 0; whole++ {
			out = append(out, '0')
		}
		out = append(out, all[whole:]...)
	}
	return string(out)
}

// appendWide appends the digits of |w|.
func appendWide(to []byte, w wide) []byte {
	if w.hi == 0 {
		return strconv.AppendUint(to, w.lo, 10)
	}
	const part = 1e18
	q, rem := w.quo(part)
	to = strconv.AppendUint(to, q.lo, 10)
	// One more than the part keeps the zeros in front of its digits.
	at := len(to)
	to = strconv.AppendUint(to, part+rem, 10)
	return append(to[:at], to[at+1:]...)
}
