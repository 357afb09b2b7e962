package limit

import (
	"math"

	"borewright/engine/length"
)

// Interfering is the least margin of a gap of zero or less that has a low limit
// alone: it ranks before every gap that is left.
const Interfering = 1e9

// measure sets the margin of a value that is measured. start is where the
// margin of a size with one limit starts.
//
// With two limits the target, else the middle, uses 0 and either limit 1. With
// a high one alone form, clearance and play use y/high, a size
// (y - start)/(high - start). With a low one alone gaps and clearances use
// low/y, a size (start - y)/(start - low).
func (j *Judgement) measure(k Kind, start length.Exact) {
	low, high := j.Low.Measured(), j.High.Measured()
	switch {
	case low && high:
		j.measureBetween()
	case high && k == KindSize:
		j.use(start, j.High, up)
	case high:
		j.use(length.Of(0), j.High, up)
	case low && k == KindSize:
		j.use(start, j.Low, down)
	case low && k == KindGap:
		j.useGap()
	}
}

// The way from the start of the margin to the limit it is measured to.
const (
	up   = 1
	down = -1
)

// measureBetween measures towards the limit on the value's side of the target.
// A target that is not between the limits is none.
func (j *Judgement) measureBetween() {
	t := j.Target
	if !t.Measured() || t.Cmp(j.Low) < 0 || t.Cmp(j.High) > 0 {
		t = j.Low.Add(j.High).Half()
	}
	if j.Value.Cmp(t) < 0 {
		j.use(t, j.Low, down)
		return
	}
	j.use(t, j.High, up)
}

// use measures how much of the way from start to the limit the value has gone.
// There is no margin without a start, or with one on the limit's far side. No
// way at all uses 0 inside and above 1 outside, growing by 1 each millimetre.
func (j *Judgement) use(start, limit length.Exact, side int) {
	way := limit.Sub(start)
	if !way.Measured() || way.Sign() == -side {
		return
	}
	past := j.Value.Cmp(limit) * side
	switch {
	case way.Sign() != 0:
		j.rank(limit, side, agreed(j.Value.Sub(start).Float()/way.Float(), past))
	case past > 0:
		over := j.Value.Sub(limit).Abs().Float() / float64(length.Millimetre)
		j.rank(limit, side, agreed(1+over, past))
	default:
		j.rank(limit, side, 0)
	}
}

// useGap measures a gap against its low limit alone: low/y. A gap of zero or
// less that is outside ranks before all others, deepest first. A low limit
// that is not above zero is no reference for what is inside it.
func (j *Judgement) useGap() {
	past := j.Low.Cmp(j.Value)
	switch {
	case j.Value.Sign() <= 0 && past > 0:
		deep := j.Value.Abs().Float() / float64(length.Millimetre)
		j.rank(j.Low, down, Interfering+deep)
	case j.Low.Sign() > 0:
		j.rank(j.Low, down, agreed(min(j.Low.Float()/j.Value.Float(), Interfering), past))
	}
}

func (j *Judgement) rank(nearest length.Exact, side int, margin float64) {
	j.Nearest, j.LowSide = nearest, side < 0
	j.Margin, j.Ranked = margin, true
}

// agreed brings a margin into 0 and above, and makes it agree with the exact
// comparison, past: above 1 when the value is past the limit, 1 when it is on
// it and at most 1 when it is inside.
func agreed(margin float64, past int) float64 {
	switch {
	case past > 0:
		return max(margin, math.Nextafter(1, 2))
	case past == 0:
		return 1
	}
	return min(max(margin, 0), 1)
}
