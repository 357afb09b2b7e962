package fit

import "borewright/engine/length"

// Definition says what of the hole and what of the shaft make the clearance
// that is judged. Its zero value is SmallestLargest.
type Definition string

// The definitions, what is taken of the hole first.
const (
	SmallestLargest  Definition = "smallest - largest"
	SmallestMean     Definition = "smallest - mean"
	SmallestSmallest Definition = "smallest - smallest"
	MeanMean         Definition = "mean - mean"
)

// LevelClearance is the clearance of a hole and a shaft at one level,
// diametral. It is not measured unless both were read there.
type LevelClearance struct {
	// Tightest is the smallest hole less the largest shaft, Loosest the largest
	// hole less the smallest shaft, Mean the one mean less the other.
	Tightest, Mean, Loosest length.Exact
	// Judged is the one made by the definition.
	Judged length.Exact
}

// Clearance is the clearance of a hole and a shaft, diametral; below zero it is
// interference.
type Clearance struct {
	By Definition
	// Tightest and Loosest are the extremes over the levels, Mean the mean of
	// the levels' means.
	Tightest, Mean, Loosest length.Exact
	// Judged is the smallest of the levels' judged clearances, at Level.
	Judged length.Exact
	// Level is a level of the hole; -1 where there is none.
	Level int
	// Bound says that the figures are made from different levels: no place need
	// be so tight or so loose.
	Bound bool
	// ByLevel has an entry for every level of the hole, and none for a bound.
	ByLevel []LevelClearance
}

// Between computes the clearance of a hole and a shaft from their readings,
// [level][direction], every planned level being there though it has none yet.
//
// Where both have the same number of levels they are taken level by level, as
// far as both are read. A shaft of a single level (a piston's skirt) is taken
// against every level of the hole. Otherwise, and where no level is read in
// both, the extremes of all readings make a bound. Without readings of both
// nothing is measured. A definition nobody knows judges nothing.
func Between(hole, shaft [][]length.Exact, by Definition) Clearance {
	if by == "" {
		by = SmallestLargest
	}
	c := Clearance{By: by, Level: -1}
	if len(shaft) == 1 || len(shaft) == len(hole) {
		c.take(hole, shaft)
	}
	if c.Tightest.Measured() {
		return c
	}
	var holes, shafts [together]length.Exact
	all := makes(joined(holes[:0], hole), joined(shafts[:0], shaft), by)
	c.Tightest, c.Mean, c.Loosest, c.Judged = all.Tightest, all.Mean, all.Loosest, all.Judged
	c.Bound, c.ByLevel = all.Tightest.Measured(), nil
	return c
}

// together is how many readings are joined on the stack; few features have more. In
// lists they were a fortieth of what a full assessment allocated.
const together = 32

// joined adds the readings of all levels to a list.
func joined(all []length.Exact, levels [][]length.Exact) []length.Exact {
	for _, row := range levels {
		all = append(all, row...)
	}
	return all
}

// take computes the clearance level by level.
func (c *Clearance) take(hole, shaft [][]length.Exact) {
	var room [together]length.Exact
	means := room[:0]
	c.ByLevel = make([]LevelClearance, 0, len(hole))
	for i, row := range hole {
		l := makes(row, shaft[min(i, len(shaft)-1)], c.By)
		c.ByLevel = append(c.ByLevel, l)
		c.Tightest, c.Loosest = length.Min(c.Tightest, l.Tightest), length.Max(c.Loosest, l.Loosest)
		means = append(means, l.Mean)
		if l.Judged.Measured() && (c.Level < 0 || l.Judged.Cmp(c.Judged) < 0) {
			c.Judged, c.Level = l.Judged, i
		}
	}
	c.Mean = length.MeanOf(means...)
}

// JudgedLevels returns what is judged at each level of the hole, for the caller
// to find the worst by its limits: too loose may be worse than too tight. For a
// bound it is the bound alone, and nothing where nothing is measured.
func (c Clearance) JudgedLevels() []length.Exact {
	if c.Bound {
		return []length.Exact{c.Judged}
	}
	var out []length.Exact
	for _, l := range c.ByLevel {
		out = append(out, l.Judged)
	}
	return out
}

// makes computes the clearance of readings that belong together.
func makes(hole, shaft []length.Exact, by Definition) LevelClearance {
	small, large, mean := length.Min(shaft...), length.Max(shaft...), length.MeanOf(shaft...)
	tight := length.Min(hole...)
	c := LevelClearance{
		Tightest: tight.Sub(large),
		Mean:     length.MeanOf(hole...).Sub(mean),
		Loosest:  length.Max(hole...).Sub(small),
	}
	switch by {
	case SmallestLargest:
		c.Judged = c.Tightest
	case SmallestMean:
		c.Judged = tight.Sub(mean)
	case SmallestSmallest:
		c.Judged = tight.Sub(small)
	case MeanMean:
		c.Judged = c.Mean
	}
	return c
}

// MostBetweenNeighbours returns the largest difference between two figures that
// stand side by side, as the clearances of adjacent mains, and the index of the
// first of the two; -1 where no two neighbours are measured.
func MostBetweenNeighbours(figures []length.Exact) (most length.Exact, at int) {
	at = -1
	for i := 1; i < len(figures); i++ {
		d := figures[i].Sub(figures[i-1]).Abs()
		if d.Measured() && (at < 0 || d.Cmp(most) > 0) {
			most, at = d, i-1
		}
	}
	return most, at
}
