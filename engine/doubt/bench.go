package doubt

import "borewright/engine/length"

// Bench is a bench study: one place, read n times.
type Bench struct {
	Count int
	Mean  length.Exact
	// Range is the largest less the smallest.
	Range length.Exact
	// Repeat is the repeatability the readings show.
	Repeat Estimate
}

// BenchOf returns what repeated readings of one place show. ok is false with
// fewer than two.
func BenchOf(readings []length.Length) (b Bench, ok bool) {
	if len(readings) < 2 {
		return Bench{}, false
	}
	b = Bench{Count: len(readings), Mean: length.Mean(readings...), Repeat: Pool(Estimate{}, readings)}
	low, high := readings[0], readings[0]
	for _, r := range readings {
		low, high = min(low, r), max(high, r)
	}
	b.Range = length.Of(high - low)
	return b, true
}
