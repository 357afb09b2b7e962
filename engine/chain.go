package engine

import (
	"borewright/engine/length"
	"borewright/engine/plan"
)

// Chained returns the clearance that a place's dial read straight off, diametral,
// and the measured feature that its gauge was zeroed on. ok is false where the
// place was not read so, or over more than one feature.
func (s *Session) Chained(p plan.Place) (clearance length.Exact, over plan.Feature, ok bool) {
	var all []length.Exact
	for i, t := range s.Now(p) {
		on, chained := masterFeature(s.settingOf(t.Set))
		if !chained || t.Dev.IsZero() || i > 0 && on != over {
			return length.Exact{}, plan.Feature{}, false
		}
		over, all = on, append(all, t.Dev.Exact().Sub(length.Of(s.Drift(t))))
	}
	return length.MeanOf(all...), over, len(all) > 0
}
