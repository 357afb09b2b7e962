package engine

import (
	"borewright/engine/fit"
	"borewright/engine/length"
	"borewright/engine/plan"
)

// Ring is one ring in the bore it is in: its gap as read and brought to the
// smallest place of its travel, and what the gap should be.
type Ring struct {
	Of, Bore plan.Feature
	// Read is the gap as read, Gap what it is at the smallest place of the
	// ring's travel, the same when the bore is not read or its depth not known.
	Read, Gap length.Exact
	// Corrected says that Gap is not as read.
	Corrected bool
	// Target is what the gap should be at the smallest place of the travel, by
	// the given factor; not measured when none is given.
	Target length.Exact
	// Hot is the gap when bore and rings run warm; ButtsAt the temperature of the
	// ring in °C at which its ends touch, 0 when that is not known.
	Hot     length.Exact
	ButtsAt float64
	// Missing says in sentences what is not known.
	Missing []string
}

// Ring works a ring's gap out.
func (s *Session) Ring(a *Assessment, of plan.Feature) Ring {
	m, _ := a.Feature(of)
	x := s.ringTravel(a, of)
	r := Ring{Of: of, Bore: plan.Feature{Family: plan.Bore, At: s.Seat(of)}, Read: m.Figures.Mean}
	r.Gap = r.Read.Add(x.opens())
	r.Corrected = r.Gap != r.Read
	smallest := x.smallest()
	switch {
	case x.bore.IsZero():
		r.Missing = append(r.Missing, "the bore of "+s.Name(of)+" is not measured: its gap is as read")
		return r
	case !x.known():
		r.Missing = append(r.Missing, "no ring gap depth is given, or the bore's levels have none: the gap is as read")
	}
	if !smallest.Measured() {
		bore, _ := a.Feature(r.Bore)
		smallest = bore.Figures.Smallest
	}
	r.Target = s.gapTarget(of, smallest)
	s.heat(&r, smallest)
	return r
}

// gapDepth is how deep a ring's gap was measured: as given, else at the one
// level that the plan has for it.
func (s *Session) gapDepth(of plan.Feature) length.Exact {
	if e := s.givenLength(GivenGapDepth, of); e.Measured() {
		return e
	}
	if g, _ := s.plan.Group(of.Family); len(g.Levels) == 1 {
		return g.Levels[0].Depth.Exact()
	}
	return length.Exact{}
}

// gapTarget is the gap that the factor of a ring asks for in a bore this large.
func (s *Session) gapTarget(of plan.Feature, bore length.Exact) length.Exact {
	for _, name := range []string{of.Part + " " + GivenGapFactor, GivenGapFactor} {
		g, ok := s.given(name, of)
		if !ok {
			continue
		}
		number := numberOf(g.Value)
		if d, err := length.ParseDecimal(number); err == nil {
			per := length.Length(1)
			for range d.Places {
				per *= 10
			}
			return fit.TargetGap(length.Length(d.Coef), per, bore)
		}
	}
	return length.Exact{}
}

// heat works out the hot gap, where it is known how warm what runs.
func (s *Session) heat(r *Ring, bore length.Exact) {
	h := fit.Heat{Bore: bore}
	ok := true
	for _, x := range []struct {
		to   *float64
		name string
		of   plan.Feature
		less float64
	}{
		{&h.BoreAlpha, GivenExpansion, r.Bore, 0},
		{&h.BoreRise, GivenRunning, r.Bore, reference},
		{&h.RingAlpha, GivenExpansion, r.Of, 0},
		{&h.RingRise, GivenRunning, r.Of, reference},
	} {
		v, known := s.givenNumber(x.name, x.of)
		*x.to, ok = v-x.less, ok && known
	}
	if !ok {
		return
	}
	r.Hot = h.HotGap(r.Gap)
	if rise, butts := h.ButtsAt(r.Gap); butts {
		r.ButtsAt = rise + reference
	}
}

// reference is the temperature at which a size is stated, in °C (ISO 1).
const reference = 20

// opensGaps predicts the gaps of the rings in a bore that is honed to a size:
// they open with the mean diameter where they were measured.
func (s *Session) opensGaps(out map[plan.Place]length.Exact, bore plan.Feature, size length.Exact) {
	m := s.measure(bore, new(measurer))
	for _, f := range s.changedBy(Change{Did: Hone, Of: bore})[1:] {
		at := fit.MeansOf(m.Grid.Depths, m.Grid.Values).At(s.gapDepth(f))
		if !at.Measured() {
			at = m.Figures.Mean
		}
		if by := fit.GapChange(size.Sub(at)); by.Measured() {
			s.shifts(out, f, by)
		}
	}
}
