package form

import "borewright/engine/length"

// Grid is the readings of one feature by level and direction. The first level
// is the one at the head end or front.
type Grid struct {
	// Depths are the depths of the levels, as far as they are known. They are
	// needed for slopes alone.
	Depths []length.Exact
	// Angles are the directions in degrees, taken modulo 180; 90 is across or
	// vertical, 0 along or horizontal. Names are what they are called.
	Angles []int
	Names  []string
	// LevelNames are what a sentence calls the levels.
	LevelNames []string
	// Values are the diameters, Values[level][direction]; what is missing, by a
	// short row too, is not measured.
	Values [][]length.Exact
	// TwoContact says that they were read with a gauge of two contacts.
	TwoContact bool
}

// at returns the reading at a level and direction.
func (g Grid) at(level, dir int) length.Exact {
	if row := g.Values[level]; dir < len(row) {
		return row[dir]
	}
	return length.Exact{}
}

// row returns the readings at a level, one for each direction; they are not to be
// changed.
func (g Grid) row(level int) []length.Exact {
	if vs := g.Values[level]; len(vs) >= len(g.Angles) {
		return vs[:len(g.Angles)]
	}
	out := make([]length.Exact, len(g.Angles))
	for dir := range out {
		out[dir] = g.at(level, dir)
	}
	return out
}

// column adds the readings in a direction to a list, one for each level.
func (g Grid) column(dir int, out []length.Exact) []length.Exact {
	for level := range g.Values {
		out = append(out, g.at(level, dir))
	}
	return out
}

// depth returns the depth of a level, not measured where it is not known.
func (g Grid) depth(level int) length.Exact {
	if level < 0 || level >= len(g.Depths) {
		return length.Exact{}
	}
	return g.Depths[level]
}

// measured counts the readings that are there.
func measured(vs []length.Exact) int {
	n := 0
	for _, v := range vs {
		if v.Measured() {
			n++
		}
	}
	return n
}

// spread returns the largest less the smallest of the readings; not measured
// with fewer than two.
func spread(vs []length.Exact) length.Exact {
	if measured(vs) < 2 {
		return length.Exact{}
	}
	return length.Max(vs...).Sub(length.Min(vs...))
}
