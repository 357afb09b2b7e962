package fit

import (
	"math"

	"borewright/engine/length"
)

// Pass is the size after so many more strokes of the hone.
type Pass struct {
	// Strokes are those since the pass before; none for the size to begin with.
	Strokes int
	Size    length.Exact
	// Warmer is by how many °C the bore is warmer than what its size is
	// compared with, 0 for cold. A warm bore reads large.
	Warmer float64
}

// Countdown is how far the honing of a bore has come. Sizes are cold.
type Countdown struct {
	// Size is the size now, Left what is still to take: below zero it is past
	// the target. Both are diametral, and not measured without a size.
	Size, Left length.Exact
	// Taken is what the strokes have taken so far.
	Taken   length.Exact
	Strokes int
	// PerStep is how many strokes one step took so far, 0 while it is not known.
	PerStep float64
	// ToGo is about how many strokes are left, 0 when it is not known or none.
	ToGo int
	// Warmer is by how many °C the bore is warmer now, ReadsLarge by how much
	// it reads large for that.
	Warmer     float64
	ReadsLarge length.Exact
	// Wait says that the warmth matters by half a step or more.
	Wait bool
}

// Count counts down to a target from the size before honing, the first pass,
// and what was measured after strokes. step is what the gauge tells apart;
// alpha is the expansion of the bore in 1e-6 per °C. Without a pass nothing is
// known; while nothing was taken, neither are the strokes to go.
func Count(passes []Pass, target length.Exact, step length.Length, alpha float64) Countdown {
	var c Countdown
	if len(passes) == 0 {
		return c
	}
	last := passes[len(passes)-1]
	c.Size, c.Warmer = Cooled(last.Size, alpha, last.Warmer), last.Warmer
	c.ReadsLarge = last.Size.Sub(c.Size)
	c.Left = target.Sub(c.Size)
	c.Taken = c.Size.Sub(Cooled(passes[0].Size, alpha, passes[0].Warmer))
	for _, p := range passes[1:] {
		c.Strokes += p.Strokes
	}
	c.Wait = step > 0 && c.ReadsLarge.Abs().Times(2).CmpLength(step) >= 0
	c.rate(step)
	return c
}

// rate works out the strokes: the border to floating point.
func (c *Countdown) rate(step length.Length) {
	if c.Strokes <= 0 || c.Taken.Sign() <= 0 || step <= 0 {
		return
	}
	c.PerStep = float64(c.Strokes) * float64(step) / c.Taken.Float()
	if c.Left.Sign() > 0 {
		c.ToGo = int(math.Ceil(c.Left.Float() / float64(step) * c.PerStep))
	}
}
