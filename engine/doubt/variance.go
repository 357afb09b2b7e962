package doubt

import "borewright/engine/length"

// Interaction is what an analysis of variance does with what operators differ by
// from part to part. The zero value is Tested.
type Interaction uint8

// The ways to treat the interaction.
const (
	// Tested keeps it where it is hardly by chance, and pools it otherwise.
	Tested Interaction = iota
	// Kept takes it out by itself.
	Kept
	// Pooled puts it into the repeatability.
	Pooled
)

// poolAbove is the chance from which on an interaction is pooled: common
// practice, no source.
const poolAbove = 0.25

// VarianceRow is one row of a table of analysis of variance.
type VarianceRow struct {
	Name string
	Squares
	// F is the mean square over the one it is tested against, and P the chance
	// of one so large where there is nothing; both only where Tested.
	F, P   float64
	Tested bool
}

// squares are the sums of squares of a study without missing values.
type squares struct {
	parts, operators, interaction, repeats Squares
}

// total returns all of them together.
func (q squares) total() Squares {
	return q.parts.plus(q.operators).plus(q.interaction).plus(q.repeats)
}

// ByVariance analyses the study by analysis of variance, operators and parts as
// drawn at random. A component below zero is clamped to none, and the notes say
// so. With one trial the interaction cannot be told from the repeatability.
//
// Source: AIAG MSA manual, analysis of variance method.
func (s Study) ByVariance(i Interaction) Result {
	r := Result{Operators: len(s.wholeOperators), Parts: len(s.wholeParts), Trials: s.Trials}
	if r.Operators == 0 {
		r.onlyRepeatability(s)
		return r
	}
	r.noteSize()
	q := s.squares()
	if q.repeats.DF == 0 && q.interaction.DF > 0 {
		q.repeats, q.interaction = q.interaction, Squares{}
		r.note("one trial: what operators differ by from part to part cannot be told from the repeatability")
	}
	pooled := q.pools(i)
	r.Rows = q.rows(pooled)
	r.Pooled = pooled && q.interaction.DF > 0
	r.components(q, pooled)
	r.finish()
	return r
}

// squares takes the values apart.
func (s Study) squares() squares {
	groups := s.groups(s.wholeOperators, s.wholeParts)
	o, p, t := len(s.wholeOperators), len(s.wholeParts), s.Trials
	m := meansOf(groups, o, p)
	q := squares{
		parts:       Squares{float64(o*t) * sumSquares(m.parts), p - 1},
		operators:   Squares{float64(p*t) * sumSquares(m.operators), o - 1},
		interaction: Squares{0, (o - 1) * (p - 1)},
		repeats:     within(groups),
	}
	for i, mean := range m.all {
		d := mean - m.operators[i/p] - m.parts[i%p] + m.grand
		if q.interaction.DF > 0 {
			q.interaction.SS += float64(t) * d * d
		}
	}
	return q
}

// within adds up what the values of each group scatter by.
func within(groups [][]length.Length) Squares {
	var q Squares
	for _, g := range groups {
		q = q.plus(Squares{sumSquares(shifted(g, g[0])), len(g) - 1})
	}
	return q
}

// pools reports whether the interaction goes into the repeatability.
func (q squares) pools(i Interaction) bool {
	if i != Tested {
		return i == Pooled
	}
	_, p, ok := q.interaction.ratio(q.repeats)
	return !ok && q.interaction.SS == 0 || ok && p > poolAbove
}

// scatter returns what repeatability is had of, and what parts and operators are
// held against.
func (q squares) scatter(pooled bool) (repeats, against Squares) {
	switch {
	case q.interaction.DF == 0:
		return q.repeats, q.repeats
	case pooled:
		both := q.repeats.plus(q.interaction)
		return both, both
	default:
		return q.repeats, q.interaction
	}
}

// rows lays the sums of squares out as a table.
func (q squares) rows(pooled bool) []VarianceRow {
	_, against := q.scatter(pooled)
	row := func(name string, s, held Squares) VarianceRow {
		f, p, ok := s.ratio(held)
		return VarianceRow{name, s, f, p, ok}
	}
	return []VarianceRow{
		row("parts", q.parts, against),
		row("operators", q.operators, against),
		row("interaction", q.interaction, q.repeats),
		row("repeatability", q.repeats, Squares{}),
		row("total", q.total(), Squares{}),
	}
}

// components turns mean squares into components of variance.
func (r *Result) components(q squares, pooled bool) {
	repeats, against := q.scatter(pooled)
	if repeats.DF == 0 {
		r.note(oneTrial)
		return
	}
	o, p, t := float64(r.Operators), float64(r.Parts), float64(r.Trials)
	r.Repeatability = component(repeats.Mean())
	if q.operators.DF > 0 {
		r.ByOperator = component((q.operators.Mean() - against.Mean()) / (p * t))
	}
	if q.parts.DF > 0 {
		r.ByPart = component((q.parts.Mean() - against.Mean()) / (o * t))
	}
	if q.interaction.DF > 0 && !pooled {
		r.Interaction = component((q.interaction.Mean() - repeats.Mean()) / t)
	}
}
