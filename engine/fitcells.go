package engine

import (
	"borewright/engine/doubt"
	"borewright/engine/limit"
)

// fitCells are the places that a clearance is made of, laid out as its figures
// are; shells are what is taken off the housing when it is from parts.
type fitCells struct {
	hole, shaft [][]cell
	shells      doubt.Figure
}

func (s *Session) fitCells(a *Assessment, p pair) fitCells {
	shaft, _ := a.Feature(p.shaft)
	hole, _ := a.Feature(p.hole)
	x := fitCells{hole: s.cellsOf(hole), shaft: s.halfCells(shaft, p.half)}
	if p.parts.housing.IsZero() {
		return x
	}
	housing, _ := a.Feature(p.parts.housing)
	upper, _ := a.Feature(p.parts.upper)
	lower, _ := a.Feature(p.parts.lower)
	housing.judgedGrid = columns(housing.Grid, "vertical")
	x.hole = s.cellsOf(housing)
	x.shells = s.meanOf(flat(s.cellsOf(upper))).Plus(s.meanOf(flat(s.cellsOf(lower))))
	return x
}

// halfCells are a journal's cells, or those of one half's levels.
func (s *Session) halfCells(m Measured, half string) [][]cell {
	cells := s.cellsOf(m)
	if half == "" {
		return cells
	}
	g, _ := s.plan.Group(m.Of.Family)
	var out [][]cell
	for i, row := range cells {
		if l := g.Levels[i]; l.Half == "" || l.Half == half {
			out = append(out, row)
		}
	}
	return out
}

// clearanceFigure is a clearance by its definition as a sum of places.
func (s *Session) clearanceFigure(x fitCells, by limit.Definition, c candidate) doubt.Figure {
	hole, shaft := flat(x.hole), flat(x.shaft)
	if !c.bound && c.level >= 0 && c.level < len(x.hole) && len(x.shaft) > 0 {
		hole, shaft = x.hole[c.level], x.shaft[min(c.level, len(x.shaft)-1)]
	}
	tight, _, okHole := extremes(hole)
	small, large, okShaft := extremes(shaft)
	if !okHole || !okShaft {
		return doubt.Figure{}
	}
	var f doubt.Figure
	switch by {
	case limit.SmallestMean:
		f = s.placeFigure(tight.place).Less(s.meanOf(shaft))
	case limit.SmallestSmallest:
		f = s.placeFigure(tight.place).Less(s.placeFigure(small.place))
	case limit.MeanMean:
		f = s.meanOf(hole).Less(s.meanOf(shaft))
	default:
		f = s.placeFigure(tight.place).Less(s.placeFigure(large.place))
	}
	return f.Less(x.shells)
}
