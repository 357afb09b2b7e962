package doubt

import (
	"math"

	"borewright/engine/length"
)

// Component is one part of the variation in a study, as a standard deviation in
// picometres.
type Component struct {
	Sigma float64
	// Known says that it could be computed.
	Known bool
	// Clamped says that its variance came out below zero and is taken as none.
	Clamped bool
}

// component makes one of a variance; one below zero is clamped.
func component(variance float64) Component {
	return Component{Sigma: math.Sqrt(max(0, variance)), Known: true, Clamped: variance < 0}
}

// and adds the variation of two components, of those that are known.
func (c Component) and(o Component) Component {
	return Component{Sigma: math.Hypot(c.Sigma, o.Sigma), Known: c.Known || o.Known}
}

// Variance returns the square of the standard deviation, in square picometres.
func (c Component) Variance() float64 { return c.Sigma * c.Sigma }

// Result is what a study comes to. What could not be computed is not Known, and
// Notes say why.
type Result struct {
	// Operators, Parts and Trials count what was analysed.
	Operators, Parts, Trials int
	// Repeatability is one operator's scatter on one part.
	Repeatability Component
	// ByOperator is what operators differ by, Interaction what they differ by
	// from part to part, and Reproducibility the two together.
	ByOperator, Interaction, Reproducibility Component
	// Gauge is repeatability and reproducibility together, ByPart what the parts
	// differ by, and Total all of it.
	Gauge, ByPart, Total Component
	// Pooled says that the interaction was put into the repeatability.
	Pooled bool
	// Rows are the sums of squares of an analysis of variance.
	Rows []VarianceRow
	// Notes say in sentences what was clamped, and what could not be computed
	// and why.
	Notes []string
}

// Share returns a component in percent of the total variation, by standard
// deviations. ok is false where either is not known or nothing varies.
func (r Result) Share(c Component) (percent float64, ok bool) {
	if !c.Known || !r.Total.Known || r.Total.Sigma == 0 {
		return 0, false
	}
	return 100 * c.Sigma / r.Total.Sigma, true
}

// Contribution is Share by variances, which add up to 100.
func (r Result) Contribution(c Component) (percent float64, ok bool) {
	share, ok := r.Share(c)
	return share * share / 100, ok
}

// OfTolerance returns six standard deviations of a component in percent of a
// tolerance. ok is false where it is not known, or the tolerance not above zero.
func (r Result) OfTolerance(c Component, tolerance length.Length) (percent float64, ok bool) {
	if !c.Known || tolerance <= 0 {
		return 0, false
	}
	return 600 * c.Sigma / float64(tolerance), true
}

// Distinct returns how many sizes of part the gauge tells apart, cut to a whole
// number: 1.41 times the variation of the parts over that of the gauge. ok is
// false where either is not known or the gauge does not vary.
func (r Result) Distinct() (n int, ok bool) {
	const factor = 1.41 // AIAG MSA manual, average and range form
	if !r.ByPart.Known || !r.Repeatability.Known || r.Gauge.Sigma == 0 {
		return 0, false
	}
	return int(math.Min(factor*r.ByPart.Sigma/r.Gauge.Sigma, math.MaxInt32)), true
}

// sum adds the components up and notes what was clamped.
func (r *Result) sum() {
	r.Reproducibility = r.ByOperator.and(r.Interaction)
	if r.Repeatability.Known {
		r.Gauge = r.Repeatability.and(r.Reproducibility)
	}
	if r.Gauge.Known && r.ByPart.Known {
		r.Total = r.Gauge.and(r.ByPart)
	}
	for _, c := range []struct {
		c    Component
		what string
	}{{r.ByOperator, "the operators"}, {r.Interaction, "operators from part to part"}, {r.ByPart, "the parts"}} {
		if c.c.Clamped {
			r.note("what " + c.what + " differ by came out below zero, less than the scatter alone makes, and is taken as none")
		}
	}
}

// note adds a sentence.
func (r *Result) note(text string) { r.Notes = append(r.Notes, text) }

// Sentences for what a study is too small to tell.
const (
	oneOperator = "one operator: what operators add cannot be told, the gauge's share is that of this one hand"
	onePart     = "one part: what parts differ by cannot be told, so that there is no share of the total variation"
	oneTrial    = "one trial: what one operator's readings of one part scatter by cannot be told"
	nothingYet  = "nothing can be computed from it: read a part at least twice, or several parts by several operators"
)

// noteSize says what the study is too small to tell.
func (r *Result) noteSize() {
	if r.Operators == 1 {
		r.note(oneOperator)
	}
	if r.Parts == 1 {
		r.note(onePart)
	}
}
