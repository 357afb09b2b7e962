package engine

import (
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// LiveFigure is one figure of the feature that is being read, as the bench
// sees it change.
type LiveFigure struct {
	// Name says what it is and by which definition, Value the figure in the
	// session's unit, Against the limits it is judged by.
	Name, Value, Against string
	Judgement            limit.Judgement
	// Judged is false where no limit judges it.
	Judged bool
}

// Live returns the figures of a feature and of the clearance it takes part in.
func (a *Assessment) Live(s *Session, f plan.Feature) []LiveFigure {
	m, ok := a.Feature(f)
	if !ok {
		return nil
	}
	var out []LiveFigure
	for _, on := range Characteristics(f.Family) {
		out = append(out, s.liveOf(m, on)...)
	}
	out = append(out, s.liveEccentricity(m)...)
	for _, c := range a.ClearancesOf(f) {
		out = append(out, s.liveFit(c)...)
	}
	return out
}

// liveOf returns what judges a characteristic, or its plain figure.
func (s *Session) liveOf(m Measured, on limit.Characteristic) []LiveFigure {
	var out []LiveFigure
	for _, f := range m.findings {
		if f.On == on {
			out = append(out, s.liveFinding(f, m.Places))
		}
	}
	if len(out) > 0 {
		return out
	}
	u := s.Unit()
	switch on {
	case limit.Clearance, limit.OverallSpread, limit.Step:
		return nil
	case limit.Size:
		return plainFigure("size, smallest to largest", rangeText(m.Figures.Smallest, m.Figures.Largest, u, m.Places))
	case limit.OutOfRound:
		if m.roundJudged() {
			return plainFigure("out-of-round", m.Figures.OutOfRound.Format(u, m.Places))
		}
	case limit.Taper:
		return plainFigure("taper end to end", m.Figures.EndToEnd.FormatSigned(u, m.Places))
	default:
		return plainFigure(string(on), rangeText(m.Figures.Smallest, m.Figures.Largest, u, m.Places))
	}
	return nil
}

// liveEccentricity is by how much a shell is wider at the parting line than
// square to it: made so, and never judged.
func (s *Session) liveEccentricity(m Measured) []LiveFigure {
	e := m.Eccentricity()
	if !e.Measured() {
		return nil
	}
	return plainFigure("eccentricity at the parting line", e.FormatSigned(s.Unit(), m.Places))
}

func plainFigure(name, value string) []LiveFigure {
	return []LiveFigure{{Name: name, Value: value}}
}

func rangeText(low, high length.Exact, u length.Unit, places int) string {
	if !low.Measured() {
		return ""
	}
	return low.Format(u, places) + " to " + high.Format(u, places)
}

func (s *Session) liveFinding(f Finding, places int) LiveFigure {
	x := LiveFigure{Name: shortName(f), Judgement: f.Judgement, Judged: true}
	if level := s.levelWord(f.Of.Family, f.Level); level != "" && f.Value.Measured() {
		x.Name += ", " + level
	}
	if f.Value.Measured() {
		x.Value = f.Shown(s.Unit(), places)
	}
	x.Against = s.limitsText(f)
	return x
}

// shortName is what a finding is about, with the definition of a taper.
func shortName(f Finding) string {
	if f.On == limit.Taper {
		return "taper " + string(f.By)
	}
	return what(&f)
}

// limitsText writes the limits that judge a finding, short and in the
// session's unit: with one decimal more where they were written in another.
func (s *Session) limitsText(f Finding) string {
	r, u := f.Limits.Range(f.Judgement.By), s.Unit()
	short := func(w length.Written) string {
		if w.Unit == u {
			return w.Exact().Format(u, max(u.Decimals(), w.Places))
		}
		return limitNumber(w, u)
	}
	switch {
	case r.IsZero():
		return ""
	case r.Low.IsZero():
		return "max " + short(r.High)
	case r.High.IsZero():
		return "min " + short(r.Low)
	default:
		return short(r.Low) + "-" + short(r.High)
	}
}

// liveFit returns the clearance: what is judged, and tightest to loosest.
func (s *Session) liveFit(c *Fit) []LiveFigure {
	u := s.Unit()
	var out []LiveFigure
	for _, f := range c.findings {
		out = append(out, s.liveFinding(f, c.Places))
	}
	name := "clearance, tightest to loosest"
	switch {
	case c.FromParts:
		name = "from parts, tightest to loosest"
	case c.Clearance.Bound:
		name = "clearance, bounds"
	}
	return append(out, LiveFigure{Name: name, Value: rangeText(c.Clearance.Tightest, c.Clearance.Loosest, u, c.Places)})
}
