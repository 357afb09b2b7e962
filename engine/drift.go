package engine

import (
	"math/big"
	"time"

	"borewright/engine/length"
	"borewright/engine/plan"
)

// zeroPoint is what a gauge read on its master at an event, when it could be
// believed.
type zeroPoint struct {
	n     int64
	drift length.Length // + larger
}

// Drift returns how far the zero of a reading's gauge had wandered when it was
// taken, + larger, where the session spreads drift over the set by time: in
// proportion between the zero checks before and after it, and as at the last one
// when none came after. It is 0 where the session does not, or where the zero
// cannot be believed.
func (s *Session) Drift(t Taken) length.Length {
	set, ok := s.Set(t.Set)
	if !s.rules.DriftSpread || !ok || s.Drifted(t) {
		return 0
	}
	z := s.zeroings[set.Setting]
	before, after := zeroPoint{n: z.n}, zeroPoint{}
	for _, p := range z.points {
		if p.n > t.N {
			after = p
			break
		}
		before = p
	}
	if after.n == 0 || before.n == 0 {
		return before.drift
	}
	from := s.events[before.n-1].At
	return between(before.drift, after.drift, t.At.Sub(from), s.events[after.n-1].At.Sub(from))
}

// between returns what lies between two lengths at a part of a span of time,
// rounded half to even to 1 pm. A part outside the span, as with a clock that was
// put back, is its nearer end.
func between(from, to length.Length, part, span time.Duration) length.Length {
	switch {
	case part <= 0:
		return from
	case part >= span:
		return to
	}
	num := new(big.Int).Mul(big.NewInt(int64(to-from)), big.NewInt(int64(part)))
	twice := num.Lsh(num, 1)
	den := big.NewInt(int64(span))
	// Half to even: twice the quotient is rounded down, and then halved.
	q, rem := new(big.Int).DivMod(twice, den, new(big.Int))
	whole, odd := new(big.Int).DivMod(q, big.NewInt(2), new(big.Int))
	if odd.Sign() != 0 && (rem.Sign() != 0 || whole.Bit(0) == 1) {
		whole.Add(whole, big.NewInt(1))
	}
	return from + length.Length(whole.Int64())
}

// DriftNote says of a place's present readings what was taken off for drift that
// is spread over the set, or "".
func (s *Session) DriftNote(p plan.Place) string {
	now := s.Now(p)
	if len(now) == 0 {
		return ""
	}
	d, u := s.Drift(now[len(now)-1]), s.Unit()
	if d == 0 {
		return ""
	}
	return "drift spread over the set by time: corrected by " + length.Of(-d).FormatSigned(u, u.Decimals()+1) + " " + u.String()
}
