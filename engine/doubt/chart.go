package doubt

import (
	"math"

	"gonum.org/v1/gonum/stat"

	"borewright/engine/length"
)

// Chart is what samples of a few readings each usually keep to: the limits of a
// control chart, three standard deviations to either side.
type Chart struct {
	// Size is how many readings each sample has.
	Size int
	// Mean is the mean of all, MeanRange of the ranges and MeanDeviation of the
	// standard deviations.
	Mean, MeanRange, MeanDeviation float64
	// Low and High are the limits of the sample means, RangeHigh that of the
	// ranges, from the mean range.
	Low, High, RangeHigh float64
}

// ChartOf returns the chart of samples of one size, in picometres. ok is false
// without samples, with samples of fewer than two readings or of several sizes.
//
// Source: the constants A2 = 3/(d2·√n) and D4 = 1 + 3·d3/d2 (ASTM MNL 7),
// computed.
func ChartOf(samples ...[]length.Length) (c Chart, ok bool) {
	if len(samples) == 0 {
		return Chart{}, false
	}
	c.Size = len(samples[0])
	d2, ok := RangeFactor(c.Size)
	if !ok {
		return Chart{}, false
	}
	from, n := samples[0][0], float64(len(samples))
	for _, sample := range samples {
		if len(sample) != c.Size {
			return Chart{}, false
		}
		x := shifted(sample, from)
		c.Mean += stat.Mean(x, nil) / n
		c.MeanDeviation += stat.StdDev(x, nil) / n
	}
	c.Mean += float64(from)
	c.MeanRange = meanRange(samples)
	reach := 3 * c.MeanRange / (d2 * math.Sqrt(float64(c.Size)))
	c.Low, c.High = c.Mean-reach, c.Mean+reach
	c.RangeHigh = c.MeanRange * rangeReach(c.Size)
	return c, true
}

// rangeReach returns D4: how many mean ranges of n readings a range may be.
func rangeReach(n int) float64 {
	d2, _ := RangeFactor(n)
	return 1 + 3*math.Sqrt(rangeSquare(n)-d2*d2)/d2
}
