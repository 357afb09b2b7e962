package form

import "borewright/engine/length"

// Profile is how the size of a feature runs along its depth.
type Profile uint8

// The profiles. The zero value is not measured.
const (
	NoProfile   Profile = iota
	Straight            // no difference that the gauge can tell
	Tapered             // one end wide, the other narrow
	Barrel              // wider in the middle than at either end
	Waisted             // narrower in the middle than at either end
	BellMouthed         // an end level wide, the others alike
	Uneven              // differences that make none of these
)

// Shape is the profile of a feature and which end is wide. Its zero value is
// not measured.
type Shape struct {
	Profile Profile
	// First and Last say which end of a tapered or bell-mouthed feature is
	// wide; a bell-mouthed one may be so at both.
	First, Last bool
	// FirstName and LastName are what the end levels are called.
	FirstName, LastName string
	// By is the difference that makes the shape, diametral; for a straight or
	// uneven feature all there is between its levels.
	By length.Exact
}

// String returns the shape in words that a sentence can take, such as
// "tapered, wider at top".
func (s Shape) String() string {
	switch s.Profile {
	case Straight:
		return "straight"
	case Tapered:
		return "tapered, wider at " + s.wideEnd()
	case Barrel:
		return "barrel, wider in the middle"
	case Waisted:
		return "waisted, narrower in the middle"
	case BellMouthed:
		return "bell-mouthed at " + s.wideEnd()
	case Uneven:
		return "uneven along its depth"
	default:
		return "shape not measured"
	}
}

func (s Shape) wideEnd() string {
	switch {
	case s.First && s.Last:
		return "both ends"
	case s.First:
		return s.FirstName
	default:
		return s.LastName
	}
}

// shape calls the shape from the mean of each level. Only directions that were
// read at every level count, so that an oval is not taken for a taper, and
// levels without a reading are passed over; but the first and the last planned
// level must have one.
func (m *Meter) shape(g Grid, see length.Length) Shape {
	s := callShape(m.profile(g), see)
	s.FirstName, s.LastName = g.levelName(0, "first level"), g.levelName(len(g.Values)-1, "last level")
	return s
}

// profile returns the means that the shape is called from; none where the
// readings do not suffice.
func (m *Meter) profile(g Grid) []length.Exact {
	last := len(g.Values) - 1
	m.rows, m.means = m.rows[:0], m.means[:0]
	for level := range g.Values {
		row := g.row(level)
		switch {
		case measured(row) > 0:
			m.rows = append(m.rows, row)
		case level == 0 || level == last:
			return nil
		}
	}
	for i := range m.rows {
		m.common = common(m.rows, i, m.common[:0])
		mean := length.MeanOf(m.common...)
		if !mean.Measured() {
			return nil
		}
		m.means = append(m.means, mean)
	}
	return m.means
}

// common adds the readings of row i in the directions that every row has to a list.
func common(rows [][]length.Exact, i int, out []length.Exact) []length.Exact {
	for dir, v := range rows[i] {
		whole := true
		for _, row := range rows {
			whole = whole && row[dir].Measured()
		}
		if whole {
			out = append(out, v)
		}
	}
	return out
}

func (g Grid) levelName(level int, otherwise string) string {
	if level >= 0 && level < len(g.LevelNames) && g.LevelNames[level] != "" {
		return g.LevelNames[level]
	}
	return otherwise
}

// callShape calls the shape of means from the first level to the last. A
// difference makes a shape only when it exceeds see.
func callShape(p []length.Exact, see length.Length) Shape {
	if len(p) < 2 {
		return Shape{}
	}
	tells := func(d length.Exact) bool { return d.CmpLength(see) > 0 }
	all := spread(p)
	if !tells(all) {
		return Shape{Profile: Straight, By: all}
	}
	if s := bellMouth(p, see); s.Profile != NoProfile {
		return s
	}
	last := len(p) - 1
	inner, ends := p[1:last], []length.Exact{p[0], p[last]}
	bulge := length.Max(inner...).Sub(length.Max(ends...))
	neck := length.Min(ends...).Sub(length.Min(inner...))
	taper := p[0].Sub(p[last])
	switch {
	case tells(bulge) && tells(neck):
		return Shape{Profile: Uneven, By: all}
	case tells(bulge):
		return Shape{Profile: Barrel, By: bulge}
	case tells(neck):
		return Shape{Profile: Waisted, By: neck}
	case tells(taper.Abs()):
		return Shape{Profile: Tapered, First: taper.Sign() > 0, Last: taper.Sign() < 0, By: taper.Abs()}
	}
	return Shape{Profile: Uneven, By: all}
}

// bellMouth calls a shape bell-mouthed when an end level, or each of both, is
// wider than all others by more than see, and at least two others are left that
// differ by no more than see or a quarter of that; else it calls none.
func bellMouth(p []length.Exact, see length.Length) Shape {
	last := len(p) - 1
	for _, c := range []struct {
		flare       length.Exact
		rest        []length.Exact
		first, last bool
	}{
		{p[0].Sub(length.Max(p[1:]...)), p[1:], true, false},
		{p[last].Sub(length.Max(p[:last]...)), p[:last], false, true},
		{length.Min(p[0], p[last]).Sub(length.Max(p[1:last]...)), p[1:last], true, true},
	} {
		left := spread(c.rest)
		alike := left.Measured() && (left.CmpLength(see) <= 0 || left.Times(4).Cmp(c.flare) <= 0)
		if alike && c.flare.CmpLength(see) > 0 {
			return Shape{Profile: BellMouthed, First: c.first, Last: c.last, By: c.flare}
		}
	}
	return Shape{}
}
