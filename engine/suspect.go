package engine

import (
	"slices"

	"borewright/engine/plan"
)

// MeasureAgain returns the places of the plan whose present readings were taken
// while a gauge's zero could not be believed, in the plan's order: measuring
// them again clears the doubt, on them and on all that rests on them.
func (s *Session) MeasureAgain() []plan.Place {
	if !s.everDoubted() { // every key asks: that was an eighth of what it allocated
		return nil
	}
	var out []plan.Place
	for _, p := range s.Places() {
		if s.placeDrifted(p) {
			out = append(out, p)
		}
	}
	return out
}

// everDoubted reports whether any zero could not be believed for a while.
func (s *Session) everDoubted() bool {
	for _, z := range s.zeroings {
		if len(z.doubted) > 0 {
			return true
		}
	}
	return false
}

func (s *Session) placeDrifted(p plan.Place) bool { return s.anyDrifted(s.Now(p)) }

func (s *Session) anyDrifted(list []Taken) bool {
	for _, t := range list {
		if s.Drifted(t) {
			return true
		}
	}
	return false
}

// believe works out whether a feature's own present readings are in doubt, and what
// they rest on.
func (s *Session) believe(f plan.Feature, stage int, spots []*spot) belief {
	drifted := slices.ContainsFunc(spots, func(sp *spot) bool { return s.anyDrifted(sp.at(stage)) })
	return belief{drifted, s.mastersOf(f, stage, spots)}
}

// belief is how far a feature's own readings are to be believed: whether any was
// taken while its gauge's zero could not be, and what its gauge was zeroed on.
type belief struct {
	drifted bool
	on      []plan.Feature
}

// suspect reports whether a feature's sizes are in doubt: by its own readings,
// or by those of a feature that its gauge was zeroed on.
func (s *Session) suspect(f plan.Feature, through ...plan.Feature) bool {
	return s.suspects(f, s.believe(f, s.Stage(f), s.spotsOf(f)), through...)
}

func (s *Session) suspects(f plan.Feature, own belief, through ...plan.Feature) bool {
	if own.drifted {
		return true
	}
	for _, on := range own.on {
		for _, seen := range through {
			if seen == on {
				return false
			}
		}
		if s.suspect(on, append(through, f)...) {
			return true
		}
	}
	return false
}

// suspectFit reports whether a clearance is in doubt. What the hole's gauge was
// zeroed on cancels when that is the very shaft: then only what both read for
// themselves counts.
func (s *Session) suspectFit(a *Assessment, p *pair) bool {
	parts := []plan.Feature{p.hole, p.shaft}
	if !p.parts.housing.IsZero() {
		parts = []plan.Feature{p.parts.housing, p.parts.upper, p.parts.lower, p.shaft}
	}
	for _, f := range parts {
		own := &a.feature(f).belief
		if own.drifted && !s.cancels(a, p, f) {
			return true
		}
		for _, on := range own.on {
			if on != p.shaft && s.suspect(on) {
				return true
			}
		}
	}
	return false
}

// cancels reports whether the shaft's own size falls out of a clearance: the
// hole was read with a gauge zeroed on that very shaft, and the shaft was read
// at one place alone, so that its size is the same one twice.
func (s *Session) cancels(a *Assessment, p *pair, f plan.Feature) bool {
	if f != p.shaft {
		return false
	}
	on := a.feature(p.hole).belief.on
	if len(on) != 1 || on[0] != p.shaft {
		return false
	}
	read := 0
	for place := range s.plan.Each(p.shaft) {
		if len(s.Now(place)) > 0 {
			read++
		}
	}
	return read == 1
}

// dependents returns a feature and every feature whose sizes rest on it.
func (s *Session) dependents(f plan.Feature) []plan.Feature {
	out := []plan.Feature{f}
	for i := 0; i < len(out); i++ {
		for _, other := range s.chained() {
			for _, on := range s.restsOn(other, s.Stage(other)) {
				if on == out[i] {
					out = appendNew(out, other)
				}
			}
		}
	}
	return out
}

// chained returns the features that were read with a gauge zeroed on another
// feature; most sessions have none.
func (s *Session) chained() []plan.Feature {
	any := false
	for i := range s.settings {
		if _, ok := masterFeature(&s.settings[i]); ok {
			any = true
		}
	}
	if !any {
		return nil
	}
	return s.plan.Features(s.layout)
}
