package doubt

import (
	"cmp"
	"math"
	"slices"

	"borewright/engine/length"
)

// Budget is what a doubt is made of. The zero value is of a figure that nothing
// is known to make wrong.
type Budget struct {
	// U is the combined standard uncertainty in picometres.
	U float64
	// DF are its effective degrees of freedom by Welch-Satterthwaite (GUM
	// G.4.1), infinite where every contribution is taken as known.
	DF float64
	// Lines are the contributions by their names, the largest first.
	Lines []Line
	// Cancelled are the names of what moves both sides of a difference alike,
	// and so adds nothing.
	Cancelled []string
}

// Line is one line of a budget: all contributions of one name.
type Line struct {
	Name string
	// U is what it adds, as a standard uncertainty in picometres.
	U float64
	// Share is its share of the square of the whole, 0 to 1.
	Share float64
	// DF are its degrees of freedom, infinite where it is taken as known.
	DF float64
}

// Combine adds contributions up: u² = Σ over sources (Σ c u)² (GUM 5.1 and 5.2,
// equation 16 with a correlation of one within a source and none between
// sources). The error is a *BadContribution.
func Combine(cs []Contribution) (Budget, error) {
	for _, c := range cs {
		if err := c.Validate(); err != nil {
			return Budget{}, err
		}
	}
	return combine(cs, 1), nil
}

// combine is Combine for sensitivities that are over times too large. Undivided
// they are whole numbers more often, and what cancels cancels to nothing.
func combine(cs []Contribution, over float64) Budget {
	var b Budget
	var sources [few]source
	var room [few]Line
	lines := room[:0]
	for _, s := range bySource(cs, sources[:0]) {
		u := math.Abs(s.sum()) / over
		if u == 0 && s.moves {
			b.Cancelled = appendOnce(b.Cancelled, s.name)
		}
		lines = add(lines, Line{Name: s.name, U: u, DF: s.df})
	}
	b.Lines = append(b.Lines, lines...)
	b.finish()
	return b
}

// source is one error and what it moves.
type source struct {
	name, source string
	df           float64
	// u is the standard uncertainty of its first contribution, uneven says that
	// another has another one. by is the sum of all sensitivities, parts that of
	// each times its own uncertainty.
	u, by, parts float64
	uneven       bool
	// moves says that any part of the figure is moved by the error.
	moves bool
}

// bySource gathers contributions by their source, in their order, in an empty list.
// A source is known as well as the least known of its contributions.
func bySource(cs []Contribution, out []source) []source {
	out = slices.Grow(out, len(cs))
	for i := range cs {
		c := &cs[i]
		at := -1
		if c.Source != "" {
			at = slices.IndexFunc(out, func(s source) bool { return s.source == c.Source })
		}
		if at < 0 {
			at = len(out)
			out = append(out, source{name: c.Name, source: c.Source, df: math.Inf(1), u: c.Standard()})
		}
		out[at].add(c)
	}
	return out
}

// add counts a contribution of the source in.
func (s *source) add(c *Contribution) {
	u := c.Standard()
	if c.DF != 0 {
		s.df = min(s.df, c.DF)
	}
	s.by += c.Sensitivity
	s.parts += c.Sensitivity * u
	s.uneven = s.uneven || u != s.u
	s.moves = s.moves || c.Sensitivity != 0 && c.Value != 0
}

// sum returns how far one standard deviation of the error moves the figure.
func (s *source) sum() float64 {
	if s.uneven {
		return s.parts
	}
	return s.by * s.u
}

// add puts what one source adds into the line of its name.
func add(lines []Line, l Line) []Line {
	if l.U == 0 {
		return lines
	}
	for i, old := range lines {
		if old.Name == l.Name && old.DF == l.DF {
			lines[i].U = math.Hypot(old.U, l.U)
			return lines
		}
	}
	return append(lines, l)
}

// finish adds the lines up, in shares of the largest so that nothing overflows.
func (b *Budget) finish() {
	slices.SortStableFunc(b.Lines, func(x, y Line) int { return cmp.Compare(y.U, x.U) })
	b.DF = math.Inf(1)
	if len(b.Lines) == 0 {
		return
	}
	top, square, fourths := b.Lines[0].U, 0.0, 0.0
	for _, l := range b.Lines {
		r := l.U / top
		square += r * r
		fourths += r * r * r * r / l.DF
	}
	b.U = top * math.Sqrt(square)
	if fourths > 0 {
		b.DF = square * square / fourths
	}
	for i, l := range b.Lines {
		b.Lines[i].Share = l.U / top * (l.U / top) / square
	}
}

// Expanded returns the expanded uncertainty in picometres.
func (b Budget) Expanded(c Coverage) float64 { return c.Factor(b.DF) * b.U }

// Guard returns the expanded uncertainty as a length, rounded up to 1 pm: what
// limits are guarded by.
func (b Budget) Guard(c Coverage) length.Length {
	const most = 1 << 62
	return length.Length(math.Ceil(min(b.Expanded(c), most)))
}

func appendOnce(list []string, s string) []string {
	if slices.Contains(list, s) {
		return list
	}
	return append(list, s)
}
