package fit

import (
	"borewright/engine/length"
)

// Means are the mean diameters of a bore at its depths, from the head end on.
// Depths increase; what is not measured at a depth is left out.
type Means struct {
	Depths, Diameters []length.Exact
	// Levels are the bore's levels that they are of, counted from 0.
	Levels []int
}

// MeansOf returns the means of a bore as read at [level][direction]. Levels
// without a depth, or without a reading, have none.
func MeansOf(depths []length.Exact, bore [][]length.Exact) Means {
	n := len(bore)
	m := Means{make([]length.Exact, 0, n), make([]length.Exact, 0, n), make([]int, 0, n)}
	for i, row := range bore {
		if d := length.MeanOf(row...); d.Measured() && i < len(depths) && depths[i].Measured() {
			m.Depths, m.Diameters, m.Levels = append(m.Depths, depths[i]), append(m.Diameters, d), append(m.Levels, i)
		}
	}
	return m
}

// At returns the mean diameter at a depth: on the straight line between the two
// levels around it, rounded half to even to 1 pm, and beyond the first or last
// level that one's. It is not measured when no level is.
func (m Means) At(depth length.Exact) length.Exact {
	if len(m.Depths) == 0 || !depth.Measured() {
		return length.Exact{}
	}
	for i, d := range m.Depths {
		switch c := depth.Cmp(d); {
		case c == 0 || c < 0 && i == 0:
			return m.Diameters[i]
		case c < 0:
			return m.between(i-1, depth)
		}
	}
	return m.Diameters[len(m.Diameters)-1]
}

// between is At between a level and the next one.
func (m Means) between(i int, depth length.Exact) length.Exact {
	into, whole := depth.Sub(m.Depths[i]).Round(), m.Depths[i+1].Sub(m.Depths[i]).Round()
	return m.Diameters[i].Add(scaled(m.Diameters[i+1].Sub(m.Diameters[i]), int64(into), int64(whole)))
}

// Shares returns how much of each diameter the one at a depth is made of, as At
// has it: they add up to 1, or are nil where nothing is measured.
func (m Means) Shares(depth length.Exact) []float64 {
	if len(m.Depths) == 0 || !depth.Measured() {
		return nil
	}
	out := make([]float64, len(m.Depths))
	for i, d := range m.Depths {
		switch c := depth.Cmp(d); {
		case c == 0 || c < 0 && i == 0:
			out[i] = 1
			return out
		case c < 0:
			out[i] = depth.Sub(m.Depths[i-1]).Float() / d.Sub(m.Depths[i-1]).Float()
			out[i-1] = 1 - out[i]
			return out
		}
	}
	out[len(out)-1] = 1
	return out
}

// Narrowest returns at which depth from one to another the mean diameter is
// smallest. An end that is not measured is the bore's own.
func (m Means) Narrowest(from, to length.Exact) (depth length.Exact) {
	least := length.Exact{}
	look := func(d length.Exact) {
		if at := m.At(d); at.Measured() && (!least.Measured() || at.Cmp(least) < 0) {
			least, depth = at, d
		}
	}
	for _, d := range m.Depths {
		if (!from.Measured() || d.Cmp(from) >= 0) && (!to.Measured() || d.Cmp(to) <= 0) {
			look(d)
		}
	}
	look(from)
	look(to)
	return depth
}

// Smallest returns the smallest mean diameter from one depth to another. An end
// that is not measured is the bore's own.
func (m Means) Smallest(from, to length.Exact) length.Exact { return m.At(m.Narrowest(from, to)) }
