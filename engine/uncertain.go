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
	x := s.settingOf(list[len(list)-1].Set)
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
	for q := range s.plan.Each(on) {
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
	x := s.settingOf(t.Set)
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
	if s.setOf(t.Set).At.IsZero() { // nothing was corrected for
		return out
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
func masterID(x *gauge.Setting) string {
	if x.On == gauge.OnRing || x.On == gauge.OnBlocks {
		return x.On + " " + x.Size.String()
	}
	return "setting " + x.ID
}

// pool is what the repeats of a session say of its instruments, by their ids, with
// their past.
type pool map[string]*doubt.Pooling

// Repeatability is an instrument's, pooled over every place of this session
// that was read more than once in one set of it, blind repeats among them, and
// its past repeats.
func (s *Session) Repeatability(instrument string) doubt.Estimate {
	if s.pooled == nil {
		s.pooled = &pool{}
		s.poolAll()
	}
	return s.pool(instrument).Estimate()
}

// pool is the pool of an instrument, with its past alone when there was none.
func (s *Session) pool(instrument string) *doubt.Pooling {
	p, ok := (*s.pooled)[instrument]
	if !ok {
		var past doubt.Estimate
		if i, _ := s.Instrument(instrument); !i.S.IsZero() {
			past = doubt.Estimate{S: i.S.Exact().Float(), DF: i.DF}
		}
		p = doubt.NewPooling(past)
		(*s.pooled)[instrument] = p
	}
	return p
}

// poolAll pools the sizes read again and again at one place in one set, for all
// instruments at once: to walk the places for each was an eighth of a full
// assessment.
func (s *Session) poolAll() {
	var room []length.Length
	for _, f := range s.plan.Features(s.layout) {
		stages := s.Stage(f) + 1
		for _, sp := range s.spotsOf(f) {
			for stage := range stages {
				if taken := append(sp.at(stage), sp.blind(stage)...); len(taken) > 1 {
					room = s.poolSets(taken, room)
				}
			}
		}
	}
}

// poolSets pools the sizes that were read more than once in one set, of readings
// at one place, for the set's instrument. Room is for the sizes of one set, and
// is handed back: with a list for each they were a thirtieth of what a full
// assessment allocated.
func (s *Session) poolSets(taken []Taken, room []length.Length) []length.Length {
	for i := range s.sets {
		set, n := s.sets[i].ID, 0
		for k := range taken {
			if taken[k].Set == set {
				n++
			}
		}
		if n < 2 {
			continue
		}
		group := room[:0]
		for k := range taken {
			if taken[k].Set == set {
				group = append(group, s.SizeOf(taken[k]).Round())
			}
		}
		s.pool(s.instrumentOf(set).ID).Add(group)
		room = group
	}
	return room
}
