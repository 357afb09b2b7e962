package engine

import (
	"borewright/engine/fit"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// Fit is one running clearance: a hole, the shaft that runs in it and what the
// two make. All of it is diametral.
type Fit struct {
	Hole, Shaft plan.Feature
	// Name is how a sentence names it, by its hole.
	Name      string
	Clearance fit.Clearance
	Places    int
	pair      pair
	findings  []Finding
}

// pair is a hole and its shaft.
type pair struct{ hole, shaft plan.Feature }

// fitted are the families that make a clearance together, hole first.
var fitted = [][2]plan.Family{
	{plan.Bore, plan.Piston},
	{plan.MainBearing, plan.MainJournal},
}

// pairs returns the clearances of the plan: those whose hole and shaft are
// both measured.
func (s *Session) pairs() []pair {
	var out []pair
	for _, f := range fitted {
		if _, ok := s.plan.Group(f[1]); !ok {
			continue
		}
		for _, hole := range s.plan.Features(s.layout) {
			if hole.Family == f[0] {
				out = append(out, pair{hole, plan.Feature{Family: f[1], At: hole.At}})
			}
		}
	}
	return out
}

// fit computes one clearance from the figures that a already holds.
func (s *Session) fit(a *Assessment, p pair) Fit {
	hole, _ := a.Feature(p.hole)
	shaft, _ := a.Feature(p.shaft)
	f := Fit{Hole: p.hole, Shaft: p.shaft, Name: s.Name(p.hole), Places: max(hole.Places, shaft.Places), pair: p}
	limits := s.clearanceLimits(p.hole)
	by := limit.Usual(limit.Clearance)
	if len(limits) > 0 {
		by = s.definition(limits[0])
	} else if s.rules.Clearance != "" {
		by = s.rules.Clearance
	}
	f.Clearance = fit.Between(hole.judgedGrid.Values, shaft.judgedGrid.Values, fit.Definition(by))
	for _, l := range limits {
		f.findings = append(f.findings, s.judgeFit(f, l, hole, shaft))
	}
	return f
}

func (s *Session) clearanceLimits(hole plan.Feature) []limit.Limits {
	var out []limit.Limits
	for _, l := range s.limitsOf(hole) {
		if l.On == limit.Clearance {
			out = append(out, l)
		}
	}
	return out
}

func (s *Session) judgeFit(f Fit, l limit.Limits, hole, shaft Measured) Finding {
	by := s.definition(l)
	c := f.Clearance
	if fit.Definition(by) != c.By {
		c = fit.Between(hole.judgedGrid.Values, shaft.judgedGrid.Values, fit.Definition(by))
	}
	found := s.worstOf(f.Hole, nil, f.Places, l, by, clearanceCandidates(c, len(shaft.judgedGrid.Values)))
	found.With = f.Shaft
	return found
}

// clearanceCandidates are the clearances that a limit is put to: of a shaft
// read at one level, which travels the hole, its one clearance; else those of
// every level.
func clearanceCandidates(c fit.Clearance, shaftLevels int) []candidate {
	if c.Bound || shaftLevels == 1 {
		return measuredOnly(candidate{c.Judged, c.Level, -1, c.Bound})
	}
	var out []candidate
	for i, l := range c.ByLevel {
		out = append(out, candidate{l.Judged, i, -1, false})
	}
	return measuredOnly(out...)
}
