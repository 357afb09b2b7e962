package engine

import (
	"borewright/engine/doubt"
	"borewright/engine/length"
	"borewright/engine/limit"
)

// Doubt is how well a judged value is known.
type Doubt struct {
	// Budget is what the doubt is made of, Expanded the expanded uncertainty by
	// the session's coverage. Both are zero where nothing is known of the gauge.
	Budget   doubt.Budget
	Expanded length.Length
	// Chance is the probability that the true value is inside the limits that
	// judge, 0 to 1; known only where Budget.U is above zero.
	Chance float64
	// Settles says what would settle a verdict that is too close to call, or
	// inside simple acceptance but no further from a limit than the doubt.
	Settles string
	// Noise is the spread that readings alone would show, where the value is a
	// spread of two to six readings; not measured elsewhere.
	Noise length.Exact
}

// Coverage is how sure the session's expanded uncertainties are.
func (s *Session) Coverage() doubt.Coverage {
	c, err := doubt.ParseCoverage(s.rules.Coverage)
	if err != nil {
		return doubt.Coverage{}
	}
	return c
}

// doubtOf adds up why a figure may be wrong.
func (s *Session) doubtOf(f doubt.Figure) Doubt {
	b, err := f.Budget()
	if err != nil || b.U == 0 {
		return Doubt{}
	}
	return Doubt{Budget: b, Expanded: b.Guard(s.Coverage())}
}

// weigh adds to a judged finding how well it is known.
func (s *Session) weigh(f *Finding, sum doubt.Figure, subject limit.Subject) {
	f.Doubt = s.doubtOf(sum)
	if f.Doubt.Expanded == 0 {
		return
	}
	if !subject.Guard {
		subject.Doubt = f.Doubt.Expanded
		f.Judgement.Doubtful = f.Limits.Judge(f.Value, subject).Doubtful
	}
	f.Doubt.Chance = f.Limits.Range(f.Judgement.By).Chance(f.Judgement.Value, f.Doubt.Budget.U)
	f.Doubt.Noise = s.noise(*f)
	if f.Judgement.Doubtful || f.Judgement.Verdict == limit.TooClose {
		f.Doubt.Settles = s.settles(*f, sum)
	}
}

// settles says what takes the value clear of the nearest limit.
func (s *Session) settles(f Finding, sum doubt.Figure) string {
	var nearest length.Exact
	for _, l := range []length.Exact{f.Judgement.Low, f.Judgement.High} {
		if d := f.Judgement.Value.Sub(l).Abs(); d.Measured() && (!nearest.Measured() || d.Cmp(nearest) < 0) {
			nearest = d
		}
	}
	x, err := sum.Settle(nearest.Round(), s.Coverage())
	if err != nil {
		return ""
	}
	return x.Sentence(s.Unit())
}

// noise is the spread that repeatability alone would show in a finding that is
// a spread over places.
func (s *Session) noise(f Finding) length.Exact {
	n := s.spreadOver(f)
	if n < 2 {
		return length.Exact{}
	}
	g, _ := s.plan.Group(f.Of.Family)
	e := s.Repeatability(g.Instrument)
	floor, ok := doubt.NoiseFloor(n, e.S)
	if !ok || !e.Known() {
		return length.Exact{}
	}
	return length.Of(length.Length(floor))
}

// spreadOver returns how many readings a finding is the spread of, or 0.
func (s *Session) spreadOver(f Finding) int {
	g, _ := s.plan.Group(f.Of.Family)
	switch {
	case f.On == limit.OutOfRound:
		return len(g.Directions)
	case f.On == limit.Taper && f.By == limit.Spread:
		return len(g.Levels)
	case f.On == limit.OverallSpread:
		return len(g.Levels) * len(g.Directions)
	default:
		return 0
	}
}
