package length

import "math/big"

// Mean returns the mean of the lengths, exactly; not measured when there are
// none.
func Mean(ls ...Length) Exact {
	if len(ls) == 0 {
		return Exact{}
	}
	var sum wide
	for _, l := range ls {
		sum = sum.plus(wideOf(int64(l)))
	}
	return ratio(sum, uint64(len(ls)))
}

// MeanOf returns the mean of those that are measured, each counting once
// however many readings it was made of; not measured when none is. It is
// rounded, where it must be, once and at the end.
func MeanOf(es ...Exact) Exact {
	n, common := uint64(0), uint64(1)
	for _, e := range es {
		if !e.Measured() {
			continue
		}
		n++
		common = uint64(e.Count) / gcd(common, uint64(e.Count)) * common
		if e.Count > maxCount || common > 1<<32 {
			return bigMeanOf(es)
		}
	}
	if n == 0 {
		return Exact{}
	}
	var sum wide
	for _, e := range es {
		if e.Measured() {
			sum = sum.plus(wideOf(int64(e.Sum)).times(common / uint64(e.Count)))
		}
	}
	return ratio(sum, common*n)
}

// bigMeanOf is MeanOf for counts whose common multiple is very large.
func bigMeanOf(es []Exact) Exact {
	sum, n := new(big.Rat), int64(0)
	for _, e := range es {
		if e.Measured() {
			sum.Add(sum, big.NewRat(int64(e.Sum), e.Count))
			n++
		}
	}
	sum.Quo(sum, new(big.Rat).SetInt64(n))
	num, den := sum.Num(), sum.Denom()
	if num.IsInt64() && den.IsInt64() && den.Int64() <= maxCount {
		return Exact{Sum: Length(num.Int64()), Count: den.Int64()}
	}
	return Of(Length(roundBig(num, den).Int64()))
}

// Min returns the smallest of those that are measured; not measured when none
// is.
func Min(es ...Exact) Exact { return pick(es, -1) }

// Max returns the largest of those that are measured; not measured when none
// is.
func Max(es ...Exact) Exact { return pick(es, 1) }

// pick returns the measured one that compares as side with all others.
func pick(es []Exact, side int) Exact {
	var best Exact
	for _, e := range es {
		if e.Measured() && (!best.Measured() || e.Cmp(best) == side) {
			best = e
		}
	}
	return best.lowest()
}
