package engine

import (
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// GivenExpansion is the name of a given figure that is the expansion of a
// family's parts, in 1e-6 per °C, with its doubt; its source names the material.
const GivenExpansion = "expansion"

// given returns a figure that was stated: of the feature, of its family, or of
// all.
func (s *Session) given(name string, f plan.Feature) (g record.Given, ok bool) {
	for _, of := range []string{f.String(), string(f.Family), ""} {
		if g, ok := s.givens[givenKey{name, of}]; ok {
			return g, true
		}
	}
	return record.Given{}, false
}

// Warm returns a reading with what was warm or cold when it was made.
func (s *Session) Warm(t Taken) gauge.Warm {
	set, _ := s.Set(t.Set)
	x, _ := s.Setting(set.Setting)
	i, _ := s.Instrument(x.Instrument)
	part, _ := s.given(GivenExpansion, t.Of)
	w := gauge.Warm{
		Read:  t.Size.Length,
		Part:  gauge.Body{Of: "part", Material: part.Source, Alpha: part.Value, AlphaDoubt: part.Doubt, Moment: "set " + set.ID + " part", At: set.At.Part, AtDoubt: set.At.Doubt},
		Gauge: gauge.Body{Of: "gauge", Material: i.Material, Alpha: i.Alpha, AlphaDoubt: i.AlphaDoubt, Moment: "set " + set.ID + " gauge", At: set.At.Gauge, AtDoubt: set.At.Doubt},
	}
	if t.Dev.IsZero() {
		return w
	}
	w.Master = s.zeroSize(x.ID).Round()
	w.Read = w.Master + t.Dev.Length
	w.OnMaster = gauge.Body{Of: "master", Material: x.Material, Alpha: x.Alpha, AlphaDoubt: x.AlphaDoubt, Moment: "setting " + x.ID + " master", At: x.At.Master, AtDoubt: x.At.Doubt}
	w.GaugeSet, w.GaugeSetDoubt, w.SetMoment = x.At.Gauge, x.At.Doubt, "setting "+x.ID+" gauge"
	return w
}

// at20 brings a size as read to 20 °C, where it is known what was warm; what is
// not known is not corrected for, and a correction of zero leaves the size.
func (s *Session) at20(t Taken, size length.Exact) length.Exact {
	if s.setOf(t.Set).At.IsZero() || !size.Measured() {
		return size
	}
	c, err := s.Warm(t).At20()
	if err != nil || c.Correction == 0 {
		return size
	}
	return size.Add(length.Of(c.Correction))
}

// WarmNotes says of a place's present readings where temperatures matter, and
// what they were corrected by.
func (s *Session) WarmNotes(p plan.Place) []string {
	now := s.Now(p)
	if len(now) == 0 {
		return nil
	}
	t := now[len(now)-1]
	w := s.Warm(t)
	notes, err := w.Warnings(p.Of.Family.Noun(), s.Unit(), s.instrumentOf(t.Set).Resolution())
	if err != nil {
		return []string{err.Error()}
	}
	if c, err := w.At20(); err == nil && c.Correction != 0 {
		u := s.Unit()
		notes = append(notes, "corrected to 20 °C by "+length.Of(c.Correction).FormatSigned(u, u.Decimals()+1)+" "+u.String())
	}
	return notes
}

// GivenFor returns a figure that was stated of a family as a whole.
func (s *Session) GivenFor(name string, f plan.Family) (g record.Given, ok bool) {
	g, ok = s.givens[givenKey{name, string(f)}]
	return g, ok
}
