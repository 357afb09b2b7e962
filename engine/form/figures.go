package form

import (
	"math"

	"borewright/engine/length"
)

// Figures are the figures of one feature, all diametral. An index is -1 where
// its figure is not measured; of equals it is the first.
type Figures struct {
	// Planned and Measured count the places, each once however often it was read.
	Planned, Measured       int
	Smallest, Largest, Mean length.Exact

	Levels     []LevelFigures
	Directions []DirFigures

	// OutOfRound is that of the worst level.
	OutOfRound      length.Exact
	OutOfRoundLevel int
	// EndToEnd is the taper of the worst direction by magnitude, signed: first
	// level less last, + larger at the head end or front.
	EndToEnd    length.Exact
	EndToEndDir int
	// Spread is the largest less the smallest over the levels in one direction,
	// of the worst direction.
	Spread    length.Exact
	SpreadDir int
	// Overall is the largest less the smallest of all readings.
	Overall length.Exact
	// Slope is the slope of the direction with the steepest least-squares line,
	// and SlopeTaper what that line has between the ends: see DirFigures.
	Slope      float64
	SlopeTaper length.Exact
	SlopeDir   int

	Shape Shape
}

// LevelFigures are the figures of one level.
type LevelFigures struct {
	Planned, Measured       int
	Smallest, Largest, Mean length.Exact
	// OutOfRound is the largest less the smallest over the directions. It is
	// not measured with fewer than two directions or with three contacts.
	OutOfRound length.Exact
	// AcrossLessAlong is the diameter at 90° less the one at 0°, signed; as
	// OutOfRound not measured with three contacts.
	AcrossLessAlong length.Exact
	Fit             Lobes
}

// DirFigures are the figures of one direction.
type DirFigures struct {
	Planned, Measured int
	// EndToEnd is the first planned level less the last, signed: + larger at
	// the head end or front. It is not measured when either of the two is not.
	EndToEnd length.Exact
	// Spread is the largest less the smallest over the levels there are.
	Spread length.Exact
	// Slope is the least-squares slope of size over depth, a number without a
	// unit: + growing away from the head end or front. It needs two readings at
	// different known depths.
	Slope    float64
	HasSlope bool
	// SlopeTaper is what that line has between the first and the last planned
	// level, signed as EndToEnd is and rounded half to even to 1 pm.
	SlopeTaper length.Exact
}

// Measure computes every figure of a feature. see is the least difference its
// gauge can tell, its reading step; it decides nothing but the shape.
func Measure(g Grid, see length.Length) Figures { return new(Meter).Measure(g, see) }

// Meter measures one feature after another, in the same room: to make it anew for
// each was a twelfth of what a full assessment allocated. The zero value is ready.
type Meter struct {
	lobes               lobeFit
	all, column, common []length.Exact
	rows                [][]length.Exact
	means               []length.Exact
	x, y                []float64
}

// Measure is the function of that name.
func (m *Meter) Measure(g Grid, see length.Length) Figures {
	f := Figures{Planned: len(g.Values) * len(g.Angles), Shape: m.shape(g, see)}
	f.Levels, f.Directions = make([]LevelFigures, 0, len(g.Values)), make([]DirFigures, 0, len(g.Angles))
	m.all = m.all[:0]
	for level := range g.Values {
		f.Levels = append(f.Levels, m.level(g, level))
		m.all = append(m.all, g.row(level)...)
	}
	for dir := range g.Angles {
		f.Directions = append(f.Directions, m.direction(g, dir))
	}
	all := m.all
	f.Measured = measured(all)
	f.Smallest, f.Largest, f.Mean = length.Min(all...), length.Max(all...), length.MeanOf(all...)
	f.Overall = spread(all)
	f.pickWorst()
	return f
}

// pickWorst takes the figures of the worst level and the worst directions.
func (f *Figures) pickWorst() {
	levels, dirs := f.Levels, f.Directions
	f.OutOfRound, f.OutOfRoundLevel = worst(len(levels), func(i int) length.Exact { return levels[i].OutOfRound })
	f.EndToEnd, f.EndToEndDir = worst(len(dirs), func(i int) length.Exact { return dirs[i].EndToEnd })
	f.Spread, f.SpreadDir = worst(len(dirs), func(i int) length.Exact { return dirs[i].Spread })
	f.SlopeDir = -1
	for i, d := range dirs {
		if d.HasSlope && (f.SlopeDir < 0 || math.Abs(d.Slope) > math.Abs(f.Slope)) {
			f.Slope, f.SlopeTaper, f.SlopeDir = d.Slope, d.SlopeTaper, i
		}
	}
}

// worst returns the largest of n figures by magnitude, and which it is.
func worst(n int, of func(int) length.Exact) (most length.Exact, at int) {
	at = -1
	for i := range n {
		if v := of(i); v.Measured() && (at < 0 || v.Abs().Cmp(most.Abs()) > 0) {
			most, at = v, i
		}
	}
	return most, at
}

// level computes the figures of a level.
func (m *Meter) level(g Grid, level int) LevelFigures {
	row := g.row(level)
	f := LevelFigures{
		Planned: len(row), Measured: measured(row),
		Smallest: length.Min(row...), Largest: length.Max(row...), Mean: length.MeanOf(row...),
	}
	if !g.TwoContact {
		f.Fit = Lobes{Why: "a three-contact head cannot see an oval"}
		return f
	}
	f.Fit = m.lobes.fit(g.Angles, row)
	if f.Fit.Rank >= 2 {
		f.OutOfRound = spread(row)
	}
	f.AcrossLessAlong = g.toward(row, 90).Sub(g.toward(row, 0))
	return f
}

// toward returns the reading of a row at an angle, from 0 to 179.
func (g Grid) toward(row []length.Exact, angle int) length.Exact {
	for dir, a := range g.Angles {
		if halfTurn(a) == angle && row[dir].Measured() {
			return row[dir]
		}
	}
	return length.Exact{}
}

// direction computes the figures of a direction.
func (m *Meter) direction(g Grid, dir int) DirFigures {
	m.column = g.column(dir, m.column[:0])
	column := m.column
	last := len(column) - 1
	f := DirFigures{Planned: len(column), Measured: measured(column), Spread: spread(column)}
	if last > 0 {
		f.EndToEnd = column[0].Sub(column[last])
	}
	line, ok := m.line(g)
	if !ok {
		return f
	}
	f.Slope, f.HasSlope = line.Slope, true
	if way := g.depth(last).Sub(g.depth(0)); way.Measured() {
		f.SlopeTaper = rounded(-line.Slope * way.Float())
	}
	return f
}

// line fits the readings of the direction in the column over their depths, both
// counted from the first so that no digit is lost.
func (m *Meter) line(g Grid) (Line, bool) {
	m.x, m.y = m.x[:0], m.y[:0]
	var depth, size length.Exact
	for level, v := range m.column {
		d := g.depth(level)
		if !d.Measured() || !v.Measured() {
			continue
		}
		if len(m.x) == 0 {
			depth, size = d, v
		}
		m.x, m.y = append(m.x, d.Sub(depth).Float()), append(m.y, v.Sub(size).Float())
	}
	return FitLine(m.x, m.y)
}

// rounded takes a floating-point number of picometres back to a length; not
// measured when it is beyond every length.
func rounded(pm float64) length.Exact {
	if !(math.Abs(pm) < math.MaxInt64) {
		return length.Exact{}
	}
	return length.Of(length.Length(math.RoundToEven(pm)))
}

// halfTurn returns an angle modulo 180°, from 0 to 179.
func halfTurn(angle int) int { return (angle%180 + 180) % 180 }
