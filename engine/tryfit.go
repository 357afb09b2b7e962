package engine

import (
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/match"
)

// tryFit judges the clearance that a pair would make with its hole this much
// wider, and returns its worst finding. It is of nothing measured when there is
// no limit, or nothing read.
func (s *Session) tryFit(a *Assessment, p *pair, wider length.Exact) Finding {
	shaft, hole := a.feature(p.shaft), a.feature(p.hole)
	f := &Fit{Hole: p.hole, Shaft: p.shaft, pair: p, Places: max(hole.Places, shaft.Places)}
	holes, shafts := hole.judgedGrid.Values, s.halfOf(shaft, p.half)
	if !p.parts.housing.IsZero() {
		holes = s.installed(a, p.parts)
	}
	holes = widened(holes, wider)
	cells := s.fitCells(a, p)
	worst := Finding{Of: p.hole, With: p.shaft}
	for i, l := range s.clearanceLimits(p.hole) {
		if found := s.judgeFit(a, f, l, holes, shafts, cells); i == 0 || limit.Compare(found.Judgement, worst.Judgement) < 0 {
			worst = found
		}
	}
	return worst
}

func widened(grid [][]length.Exact, by length.Exact) [][]length.Exact {
	out := make([][]length.Exact, len(grid))
	for i, row := range grid {
		for _, v := range row {
			out[i] = append(out[i], v.Add(by))
		}
	}
	return out
}

// costOf returns what a finding means to an arrangement.
func costOf(f Finding) match.Cost {
	c := match.Cost{May: f.Value.Measured(), Outside: f.Judgement.Verdict == limit.Outside}
	if f.Judgement.Ranked {
		c.Margin = match.MarginOf(f.Judgement.Margin)
	}
	return c
}
