package engine

import (
	"borewright/engine/doubt"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// cell is one figure of a grid and where it was read.
type cell struct {
	value length.Exact
	place plan.Place
}

// cellsOf lays the places of a feature's judged figures out as its grid is.
func (s *Session) cellsOf(m Measured) [][]cell {
	g, _ := s.plan.Group(m.Of.Family)
	out := make([][]cell, len(m.judgedGrid.Values))
	for i, row := range m.judgedGrid.Values {
		out[i] = make([]cell, len(row))
		for k, v := range row {
			out[i][k] = cell{v, plan.Place{Of: m.Of, Level: g.Levels[i].ID, Dir: m.judgedGrid.Names[k]}}
		}
	}
	return out
}

// column returns the cells in a direction, one for each level.
func column(cells [][]cell, dir int) []cell {
	var out []cell
	for _, row := range cells {
		if dir >= 0 && dir < len(row) {
			out = append(out, row[dir])
		}
	}
	return out
}

// flat returns every cell.
func flat(cells [][]cell) []cell {
	var out []cell
	for _, row := range cells {
		out = append(out, row...)
	}
	return out
}

// extremes returns the cells with the smallest and the largest figure; ok is
// false when none is measured.
func extremes(cells []cell) (small, large cell, ok bool) {
	for _, c := range cells {
		switch {
		case !c.value.Measured():
			continue
		case !ok:
			small, large, ok = c, c, true
		case c.value.Cmp(small.value) < 0:
			small = c
		case c.value.Cmp(large.value) > 0:
			large = c
		}
	}
	return small, large, ok
}

// spreadOf is the largest less the smallest of cells.
func (s *Session) spreadOf(cells []cell) doubt.Figure {
	small, large, ok := extremes(cells)
	if !ok {
		return doubt.Figure{}
	}
	return s.placeFigure(large.place).Less(s.placeFigure(small.place))
}

// meanOf is the mean of the cells that are measured.
func (s *Session) meanOf(cells []cell) doubt.Figure {
	var fs []doubt.Figure
	for _, c := range cells {
		if c.value.Measured() {
			fs = append(fs, s.placeFigure(c.place))
		}
	}
	return doubt.MeanOf(fs...)
}

// figureOf is the figure that a candidate of a feature is, as a sum of places.
func (s *Session) figureOf(m Measured, l limit.Limits, by limit.Definition, c candidate) doubt.Figure {
	cells := s.cellsOf(m)
	switch {
	case by == limit.Average:
		return s.meanOf(flat(cells))
	case c.level >= 0 && c.dir >= 0:
		return s.placeFigure(cells[c.level][c.dir].place)
	case l.On == limit.OutOfRound && c.level >= 0:
		return s.spreadOf(cells[c.level])
	case l.On == limit.Taper && by == limit.Spread:
		return s.spreadOf(column(cells, c.dir))
	case l.On == limit.Taper && by == limit.EndToEnd:
		col := column(cells, c.dir)
		return s.placeFigure(col[0].place).Less(s.placeFigure(col[len(col)-1].place))
	case l.On == limit.Taper:
		return s.slopeFigure(m, column(cells, c.dir))
	default:
		return s.spreadOf(flat(cells))
	}
}

// slopeFigure is what the least-squares line of a direction has between the
// ends.
func (s *Session) slopeFigure(m Measured, col []cell) doubt.Figure {
	var rs []doubt.Reading
	var depths []float64
	for i, c := range col {
		if d := m.judgedGrid.Depths[i]; c.value.Measured() && d.Measured() {
			rs, depths = append(rs, s.placeReading(c.place)), append(depths, d.Float())
		}
	}
	return doubt.SlopeTaper(rs, depths)
}
