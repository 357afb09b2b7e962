package engine

import (
	"borewright/engine/doubt"
	"borewright/engine/limit"
)

// fitCells are the places that a clearance is made of, laid out as its figures
// are; shells are what is taken off the housing when it is from parts.
type fitCells struct {
	hole, shaft cells
	shells      doubt.Figure
}

func (s *Session) fitCells(a *Assessment, p *pair) fitCells {
	x := fitCells{hole: s.cellsOf(a.feature(p.hole)), shaft: s.halfCells(a.feature(p.shaft), p.half)}
	if p.parts.housing.IsZero() {
		return x
	}
	housing, upper, lower := a.feature(p.parts.housing), a.feature(p.parts.upper), a.feature(p.parts.lower)
	square := columns(housing.Grid, "vertical")
	x.hole = s.cellsIn(housing.Of, &square)
	x.shells = s.meanOf(s.cellsOf(upper)).Plus(s.meanOf(s.cellsOf(lower)))
	return x
}

// halfCells are a journal's cells, or those of one half's levels.
func (s *Session) halfCells(m *Measured, half string) cells {
	x := s.cellsOf(m)
	if half == "" {
		return x
	}
	g, _ := s.plan.Group(m.Of.Family)
	x.levels, x.values = nil, nil
	for i, row := range m.judgedGrid.Values {
		if l := g.Levels[i]; l.Half == "" || l.Half == half {
			x.levels, x.values = append(x.levels, l), append(x.values, row)
		}
	}
	return x
}

// clearanceFigure is a clearance by its definition as a sum of places.
func (s *Session) clearanceFigure(x fitCells, by limit.Definition, c candidate) doubt.Figure {
	hole, shaft := x.hole, x.shaft
	if !c.bound && c.level >= 0 && c.level < len(hole.values) && len(shaft.values) > 0 {
		hole, shaft = hole.row(c.level), shaft.row(min(c.level, len(shaft.values)-1))
	}
	tight, _, okHole := hole.extremes()
	small, large, okShaft := shaft.extremes()
	if !okHole || !okShaft {
		return doubt.Figure{}
	}
	var f doubt.Figure
	switch by {
	case limit.SmallestMean:
		f = s.placeFigure(tight).Less(s.meanOf(shaft))
	case limit.SmallestSmallest:
		f = s.placeFigure(tight).Less(s.placeFigure(small))
	case limit.MeanMean:
		f = s.meanOf(hole).Less(s.meanOf(shaft))
	default:
		f = s.placeFigure(tight).Less(s.placeFigure(large))
	}
	return f.Less(x.shells)
}
