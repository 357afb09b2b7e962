package engine

import (
	"borewright/engine/doubt"
	"borewright/engine/fit"
	"borewright/engine/form"
	"borewright/engine/length"
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
	// FromParts says that it is worked out from housing, shell walls and
	// journal, not from the assembled bearing.
	FromParts bool
	// Difference is the assembled clearance less that from parts, of their
	// means, where both are known.
	Difference length.Exact
	Places     int
	pair       *pair
	findings   []Finding
}

// pair is a hole and its shaft, and which half of a shared journal it is.
type pair struct {
	hole, shaft plan.Feature
	half        string
	at          []int // positions in the summary line
	// parts are what the clearance is worked out from, when it is not that of the
	// assembled bearing; instead are those that an assembled one also has.
	parts, instead shells
}

// shells are the housing and the walls that a bearing is made of, when its
// clearance is worked out from parts.
type shells struct{ housing, upper, lower plan.Feature }

// touches reports whether a feature takes part in the clearance, or in the other
// one of its bearing.
func (p *pair) touches(f plan.Feature) bool {
	return f == p.hole || f == p.shaft || p.parts.has(f) || p.instead.has(f)
}

// features returns all that the clearance may be made of.
func (p *pair) features() []plan.Feature {
	return append([]plan.Feature{p.hole, p.shaft}, p.parts.features()...)
}

func (x *shells) has(f plan.Feature) bool { return f == x.housing || f == x.upper || f == x.lower }

func (x shells) features() []plan.Feature { return []plan.Feature{x.housing, x.upper, x.lower} }

// pairings are the families that make a clearance together, hole first. A
// bearing also has the housing and the shells that it is made of.
var pairings = []struct{ hole, shaft, housing, shell plan.Family }{
	{plan.Bore, plan.Piston, "", ""},
	{plan.MainBearing, plan.MainJournal, plan.MainHousing, plan.ShellMain},
	{plan.RodBearing, plan.RodJournal, plan.RodHousing, plan.ShellRod},
	{plan.CamBearing, plan.CamJournal, "", ""},
	{plan.PistonEye, plan.PistonPin, "", ""},
	{plan.RodEye, plan.PistonPin, "", ""},
	{plan.LifterBore, plan.Lifter, "", ""},
}

// pairs returns the clearances of the plan: those whose hole and shaft are
// both measured, and those whose parts are.
func (s *Session) pairs() []*pair {
	var out []*pair
	for _, x := range pairings {
		if !s.planned(x.shaft) {
			continue
		}
		t, _ := x.hole.Traits()
		for at := 1; at <= t.Count(s.layout); at++ {
			p, ok := s.pairAt(x.hole, x.shaft, at)
			if !ok {
				continue
			}
			inParts := x.shell != "" && s.planned(x.housing) && s.planned(x.shell)
			if inParts {
				p.instead = s.shellsAt(x.housing, x.shell, at)
			}
			if s.planned(x.hole) {
				out = append(out, &p)
			}
			if inParts {
				made := p
				made.parts, made.instead = p.instead, shells{}
				out = append(out, &made)
			}
		}
	}
	return out
}

func (s *Session) planned(f plan.Family) bool {
	_, ok := s.plan.Group(f)
	return ok
}

// pairAt returns the hole and the shaft that meet at a position; ok is false
// when either is missing there.
func (s *Session) pairAt(hole, shaft plan.Family, at int) (p pair, ok bool) {
	p.hole, p.at = s.FeatureAt(hole, "", at), []int{at}
	if shaft == plan.RodJournal {
		journal, half := s.layout.RodJournalOf(at)
		p.shaft, p.half = plan.Feature{Family: shaft, At: journal}, half
	} else {
		p.shaft = s.FeatureAt(shaft, "", at)
	}
	return p, !p.hole.IsZero() && !p.shaft.IsZero()
}

func (s *Session) shellsAt(housing, shell plan.Family, at int) shells {
	return shells{
		s.FeatureAt(housing, "", at), s.FeatureAt(shell, plan.Upper, at), s.FeatureAt(shell, plan.Lower, at),
	}
}

// fit computes one clearance from the figures that a already holds.
func (s *Session) fit(a *Assessment, p *pair) *Fit {
	shaft, hole := a.feature(p.shaft), a.feature(p.hole)
	f := &Fit{Hole: p.hole, Shaft: p.shaft, Name: s.Name(p.hole), FromParts: !p.parts.housing.IsZero(), pair: p}
	f.Places = max(hole.Places, shaft.Places)
	holes, shafts := hole.judgedGrid.Values, s.halfOf(shaft, p.half)
	if f.FromParts {
		holes = s.installed(a, p.parts)
	}
	cells := s.fitCells(a, p)
	limits := s.clearanceLimits(p.hole)
	by := fit.Definition(s.clearanceBy(limits))
	f.Clearance = fit.Between(holes, shafts, by)
	var assembled fit.Clearance
	if hole.Of == p.hole {
		assembled = fit.Between(hole.judgedGrid.Values, shafts, by)
	}
	if f.FromParts && assembled.Judged.Measured() {
		f.Difference = assembled.Mean.Sub(f.Clearance.Mean)
	}
	if !s.judgedSo(a, f, assembled, shafts) {
		return f
	}
	f.findings = make([]Finding, len(limits))
	for i, l := range limits {
		f.findings[i] = s.judgeFit(a, f, l, holes, shafts, cells)
	}
	return f
}

// judgedSo reports whether it is this clearance of a bearing that limits are put
// to: the assembled one, but the one from parts where that alone is known.
func (s *Session) judgedSo(a *Assessment, f *Fit, assembled fit.Clearance, shafts [][]length.Exact) bool {
	p := f.pair
	switch {
	case f.FromParts && s.planned(p.hole.Family):
		return f.Clearance.Judged.Measured() && !assembled.Judged.Measured()
	case f.FromParts || p.instead == shells{} || assembled.Judged.Measured():
		return true
	default:
		return !fit.Between(s.installed(a, p.instead), shafts, f.Clearance.By).Judged.Measured()
	}
}

// clearanceBy is the definition that clearances are shown by.
func (s *Session) clearanceBy(limits []*limit.Limits) limit.Definition {
	if len(limits) > 0 {
		return s.definition(limits[0])
	}
	if s.rules.Clearance != "" {
		return s.rules.Clearance
	}
	return limit.Usual(limit.Clearance)
}

// halfOf returns a journal's figures, or those of one half's levels: a level
// of neither half counts for both.
func (s *Session) halfOf(m *Measured, half string) [][]length.Exact {
	if half == "" {
		return m.judgedGrid.Values
	}
	g, _ := s.plan.Group(m.Of.Family)
	var out [][]length.Exact
	for i, row := range m.judgedGrid.Values {
		if l := g.Levels[i]; l.Half == "" || l.Half == half {
			out = append(out, row)
		}
	}
	return out
}

// installed returns what the bearing measures with its shells in: the housing
// less both walls, square to the parting line.
func (s *Session) installed(a *Assessment, x shells) [][]length.Exact {
	housing, upper, lower := a.feature(x.housing), a.feature(x.upper), a.feature(x.lower)
	square := columns(housing.Grid, "vertical")
	out := make([][]length.Exact, len(square.Values))
	for i, row := range square.Values {
		for _, v := range row {
			out[i] = append(out[i], v.Sub(upper.Figures.Mean).Sub(lower.Figures.Mean))
		}
	}
	return out
}

// columns returns the part of a grid in one direction, all of it when the grid
// has no such direction.
func columns(g form.Grid, name string) form.Grid {
	for dir, n := range g.Names {
		if n != name {
			continue
		}
		out := g
		out.Angles, out.Names = g.Angles[dir:dir+1], g.Names[dir:dir+1]
		out.Values = make([][]length.Exact, len(g.Values))
		for i, row := range g.Values {
			out.Values[i] = row[dir : dir+1]
		}
		return out
	}
	return g
}

func (s *Session) clearanceLimits(hole plan.Feature) []*limit.Limits {
	return s.limitsOf(hole, func(on limit.Characteristic) bool { return on == limit.Clearance })
}

func (s *Session) judgeFit(a *Assessment, f *Fit, l *limit.Limits, hole, shaft [][]length.Exact, cells fitCells) Finding {
	by := s.definition(l)
	c := f.Clearance
	if fit.Definition(by) != c.By {
		c = fit.Between(hole, shaft, fit.Definition(by))
	}
	var room [candidates]candidate
	found := s.worstOf(put{f.Hole, nil, f.Places, l, by, func(c candidate) doubt.Figure {
		return s.clearanceFigure(cells, by, c)
	}}, clearanceCandidates(room[:0], c, len(shaft)))
	found.With, found.at = f.Shaft, f.pair.at
	found.Judgement.Suspect = found.Value.Measured() && s.suspectFit(a, f.pair)
	s.note(&found, f.pair.features()...)
	return found
}

// clearanceCandidates adds to a list the clearances that a limit is put to: of a
// shaft read at one level, which travels the hole, its one clearance; else those
// of every level.
func clearanceCandidates(cs []candidate, c fit.Clearance, shaftLevels int) []candidate {
	if c.Bound || shaftLevels == 1 {
		return withMeasured(cs, candidate{c.Judged, c.Level, -1, c.Bound})
	}
	for i, l := range c.ByLevel {
		cs = withMeasured(cs, candidate{l.Judged, i, -1, false})
	}
	return cs
}
