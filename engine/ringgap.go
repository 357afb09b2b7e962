package engine

import (
	"math"

	"borewright/engine/doubt"
	"borewright/engine/fit"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// ringTravel is the bore that a ring is in, as its gap depends on it: the gap
// follows the mean diameter, and is smallest where that is.
type ringTravel struct {
	bore  plan.Feature // none where no bore holds the ring, or nothing of it is read
	means fit.Means
	// at is the depth where the gap was measured, least the one in the ring's
	// travel where the bore is smallest; either may be not measured.
	at, least length.Exact
}

// ringTravel returns the bore that the ring of a gap is in, from the figures that a
// already holds: to work them out for each ring was a fifteenth of a full assessment.
func (s *Session) ringTravel(a *Assessment, gap plan.Feature) ringTravel {
	at := s.Seat(gap)
	bore := plan.Feature{Family: plan.Bore, At: at}
	if at == 0 || !s.isRead(bore) {
		return ringTravel{}
	}
	g := &a.feature(bore).Grid
	x := ringTravel{bore: bore, means: fit.MeansOf(g.Depths, g.Values), at: s.gapDepth(gap)}
	x.least = x.means.Narrowest(s.givenLength(GivenTravelTop, gap), s.givenLength(GivenTravelBottom, gap))
	return x
}

// known reports whether a gap can be brought to the smallest place of the
// travel.
func (x ringTravel) known() bool { return x.at.Measured() && x.least.Measured() }

// smallest is the smallest mean diameter in the travel.
func (x ringTravel) smallest() length.Exact { return x.means.At(x.least) }

// opens is by how much a gap is wider at the smallest place of the travel than
// where it was measured: below zero or none, and none where that is not known.
func (x ringTravel) opens() length.Exact {
	if !x.known() {
		return length.Of(0)
	}
	return fit.GapChange(x.smallest().Sub(x.means.At(x.at)))
}

// travelFigure is by how much a gap is wider at the smallest place of the travel, as
// a sum of the readings of the bore: π of each.
func (s *Session) travelFigure(a *Assessment, x ringTravel) doubt.Figure {
	var out doubt.Figure
	if !x.known() || x.at == x.least {
		return out
	}
	bore := s.cellsIn(x.bore, &a.feature(x.bore).Grid)
	at, least := x.means.Shares(x.at), x.means.Shares(x.least)
	for i, level := range x.means.Levels {
		if share := least[i] - at[i]; share != 0 {
			out = out.Plus(s.meanOf(bore.row(level)).Times(math.Pi * share))
		}
	}
	return out
}

// judgeGap judges the end gap of a ring as it is at the smallest place of the
// ring's travel.
func (s *Session) judgeGap(a *Assessment, m *Measured, l *limit.Limits, by limit.Definition) Finding {
	x := s.ringTravel(a, m.Of)
	opens := x.opens()
	var room [candidates]candidate
	cs := candidatesOf(room[:0], m, l, by)
	for i := range cs {
		cs[i].value = cs[i].value.Add(opens)
	}
	f := s.worstOf(put{m.Of, m.judgedGrid.Names, m.Places, l, by, func(c candidate) doubt.Figure {
		return s.figureOf(m, l, by, c).Plus(s.travelFigure(a, x))
	}}, cs)
	if opens.Sign() != 0 && f.Value.Measured() {
		f.AsRead = f.Value.Sub(opens)
		f.Text = s.sentence(&f, m.Places)
	}
	return f
}

// withGaps adds to features the ring gaps whose verdict goes by them.
func (s *Session) withGaps(fs []plan.Feature) []plan.Feature {
	if !s.planned(plan.RingGap) {
		return fs
	}
	for _, f := range fs {
		if f.Family != plan.Bore {
			continue
		}
		for _, part := range []string{plan.Top, plan.Second, plan.Oil} {
			if gap := s.FeatureAt(plan.RingGap, part, f.At); !gap.IsZero() {
				fs = appendNew(fs, gap)
			}
		}
	}
	return fs
}
