package engine

import (
	"borewright/engine/doubt"
	"borewright/engine/form"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// cells are figures of a feature by level and direction, and where each of them
// was read. Parts of them are cells too, of the same figures: to copy those took a
// seventh of what a full assessment allocated.
type cells struct {
	of     plan.Feature
	dirs   []string
	from   int // where dirs begin in a level's figures
	levels []plan.Level
	values [][]length.Exact // of each level
}

// cellsOf lays the places of a feature's judged figures out as its grid is.
func (s *Session) cellsOf(m *Measured) cells { return s.cellsIn(m.Of, m.judgedGrid) }

func (s *Session) cellsIn(f plan.Feature, grid *form.Grid) cells {
	g, _ := s.plan.Group(f.Family)
	return cells{of: f, dirs: grid.Names, levels: g.Levels, values: grid.Values}
}

// value is the figure at a level and direction, place where it was read.
func (x cells) value(level, dir int) length.Exact { return x.values[level][x.from+dir] }

func (x cells) place(level, dir int) plan.Place {
	return plan.Place{Of: x.of, Level: x.levels[level].ID, Dir: x.dirs[dir]}
}

// row returns the cells at a level.
func (x cells) row(level int) cells {
	x.levels, x.values = x.levels[level:level+1], x.values[level:level+1]
	return x
}

// column returns the cells in a direction.
func (x cells) column(dir int) cells {
	x.dirs, x.from = x.dirs[dir:dir+1], x.from+dir
	return x
}

// extremes returns the places of the smallest and the largest figure; ok is false
// when none is measured.
func (x cells) extremes() (small, large plan.Place, ok bool) {
	var least, most struct{ level, dir int }
	for i := range x.values {
		for k := range x.dirs {
			v, here := x.value(i, k), struct{ level, dir int }{i, k}
			switch {
			case !v.Measured():
			case !ok:
				least, most, ok = here, here, true
			case v.Cmp(x.value(least.level, least.dir)) < 0:
				least = here
			case v.Cmp(x.value(most.level, most.dir)) > 0:
				most = here
			}
		}
	}
	if !ok {
		return plan.Place{}, plan.Place{}, false
	}
	return x.place(least.level, least.dir), x.place(most.level, most.dir), true
}

// spreadOf is the largest less the smallest of cells.
func (s *Session) spreadOf(x cells) doubt.Figure {
	small, large, ok := x.extremes()
	if !ok {
		return doubt.Figure{}
	}
	return s.placeFigure(large).Less(s.placeFigure(small))
}

// meanOf is the mean of the cells that are measured.
func (s *Session) meanOf(x cells) doubt.Figure {
	fs := make([]doubt.Figure, 0, len(x.values)*len(x.dirs))
	for i := range x.values {
		for k := range x.dirs {
			if x.value(i, k).Measured() {
				fs = append(fs, s.placeFigure(x.place(i, k)))
			}
		}
	}
	return doubt.MeanOf(fs...)
}

// figureOf is the figure that a candidate of a feature is, as a sum of places.
func (s *Session) figureOf(m *Measured, l *limit.Limits, by limit.Definition, c candidate) doubt.Figure {
	x := s.cellsOf(m)
	switch {
	case by == limit.Average:
		return s.meanOf(x)
	case c.level >= 0 && c.dir >= 0:
		return s.placeFigure(x.place(c.level, c.dir))
	case l.On == limit.OutOfRound && c.level >= 0:
		return s.spreadOf(x.row(c.level))
	case l.On == limit.Taper && by == limit.Spread:
		return s.spreadOf(x.column(c.dir))
	case l.On == limit.Taper && by == limit.EndToEnd:
		return s.placeFigure(x.place(0, c.dir)).Less(s.placeFigure(x.place(len(x.values)-1, c.dir)))
	case l.On == limit.Taper:
		return s.slopeFigure(m, x.column(c.dir))
	default:
		return s.spreadOf(x)
	}
}

// slopeFigure is what the least-squares line of a direction has between the
// ends.
func (s *Session) slopeFigure(m *Measured, x cells) doubt.Figure {
	var rs []doubt.Reading
	var depths []float64
	for i := range x.values {
		if d := m.judgedGrid.Depths[i]; x.value(i, 0).Measured() && d.Measured() {
			rs, depths = append(rs, s.placeReading(x.place(i, 0))), append(depths, d.Float())
		}
	}
	return doubt.SlopeTaper(rs, depths)
}
