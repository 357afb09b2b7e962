package engine

import (
	"borewright/engine/doubt"
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/plan"
)

// placeFigure is what a place reads now, as a sum: its own readings and, where
// the gauge was zeroed on a measured feature, the readings of that feature.
func (s *Session) placeFigure(p plan.Place) doubt.Figure {
	return s.stageFigure(p, s.Stage(p.Of))
}

func (s *Session) stageFigure(p plan.Place, stage int, through ...string) doubt.Figure {
	list := s.At(p, stage)
	if len(list) == 0 {
		return doubt.Figure{}
	}
	f := doubt.Of(s.reading(p, list))
	set, _ := s.Set(list[len(list)-1].Set)
	x, _ := s.Setting(set.Setting)
	on, chained := masterFeature(x)
	if !chained || list[0].Dev.IsZero() {
		return f
	}
	for _, seen := range through {
		if seen == x.ID {
			return f
		}
	}
	var master []doubt.Figure
	for _, q := range s.plan.Places(on) {
		at := s.stageOf(on, s.zeroings[x.ID].n)
		if len(s.At(q, at)) > 0 {
			master = append(master, s.stageFigure(q, at, append(through, x.ID)...))
		}
	}
	return f.Plus(doubt.MeanOf(master...))
}

// placeReading is what a place reads for itself.
func (s *Session) placeReading(p plan.Place) doubt.Reading { return s.reading(p, s.Now(p)) }

// reading is a place's readings with what may be wrong with them.
func (s *Session) reading(p plan.Place, list []Taken) doubt.Reading {
	r := doubt.Reading{Key: p.Of.String() + " " + p.Level + " " + p.Dir, Count: len(list)}
	if len(list) == 0 {
		return r
	}
	t := list[len(list)-1]
	i := s.instrumentOf(t.Set)
	if i.ID == "" {
		return r
	}
	r.Gauge, r.Step, r.Repeat = i.Name, i.Resolution(), s.Repeatability(i.ID)
	r.Common = s.common(r.Key, t)
	return r
}

// common is what repeating a reading does not make smaller.
func (s *Session) common(key string, t Taken) []doubt.Contribution {
	set, _ := s.Set(t.Set)
	x, _ := s.Setting(set.Setting)
	var out []doubt.Contribution
	if x.Doubt.Length > 0 {
		c := doubt.Master(masterID(x), x.Doubt.Length)
		if x.On == gauge.OnScale { // it has no master but its own scale
			c.Name = "the scale of " + s.instrumentOf(t.Set).Name
		}
		out = append(out, c)
	}
	if d := s.zeroings[x.ID].drift; d > 0 && !s.rules.DriftSpread {
		out = append(out, doubt.Drift(key, d))
	}
	influences, err := s.Warm(t).Influences()
	if err != nil {
		return out
	}
	for _, i := range influences {
		out = append(out, doubt.Contribution{
			Name: i.Name, Source: i.Source, Kind: doubt.Rectangular, Value: i.Doubt, Sensitivity: i.Sensitivity,
		})
	}
	return out
}

// masterID tells a setting's master from others: two settings on one ring of
// one size are wrong alike.
func masterID(x gauge.Setting) string {
	if x.On == gauge.OnRing || x.On == gauge.OnBlocks {
		return x.On + " " + x.Size.String()
	}
	return "setting " + x.ID
}

// Repeatability is an instrument's, pooled over every place of this session
// that was read more than once in one set of it, blind repeats among them, and
// its past repeats.
func (s *Session) Repeatability(instrument string) doubt.Estimate {
	if e, ok := s.pooled[instrument]; ok {
		return e
	}
	var past doubt.Estimate
	if i, _ := s.Instrument(instrument); !i.S.IsZero() {
		past = doubt.Estimate{S: i.S.Exact().Float(), DF: i.DF}
	}
	e := doubt.Pool(past, s.repeats(instrument)...)
	if s.pooled == nil {
		s.pooled = map[string]doubt.Estimate{}
	}
	s.pooled[instrument] = e
	return e
}

// repeats returns the sizes read again and again at one place in one set of an
// instrument.
func (s *Session) repeats(instrument string) [][]length.Length {
	var out [][]length.Length
	for _, p := range s.Places() {
		for stage := range s.Stage(p.Of) + 1 {
			bySet := map[string][]length.Length{}
			for _, t := range append(s.At(p, stage), s.Blind(p, stage)...) {
				if s.instrumentOf(t.Set).ID == instrument {
					bySet[t.Set] = append(bySet[t.Set], s.SizeOf(t).Round())
				}
			}
			for _, set := range s.sets {
				if group := bySet[set.ID]; len(group) > 1 {
					out = append(out, group)
				}
			}
		}
	}
	return out
}
