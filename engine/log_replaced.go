package engine

import (
	"borewright/engine/plan"
	"borewright/engine/record"
)

// replacements returns, for each live event that another live one stands in
// the stead of, the number of that one: a reading that began its place's list
// afresh replaces those before it in the same stage, and what sets something
// replaces what was set before under the same name.
func (s *Session) replacements() map[int64]int64 {
	out := map[int64]int64{}
	for p, sp := range s.spots {
		s.replacedReadings(p, sp, out)
	}
	set := map[string]int64{}
	for _, e := range s.events {
		name := record.NameOf(e.Body)
		if name == "" || !s.Live(e.N) {
			continue
		}
		if old, have := set[name]; have {
			out[old] = e.N
		}
		set[name] = e.N
	}
	return out
}

// replacedReadings adds the replaced readings of one place, and its having been
// left out when it was read after all.
func (s *Session) replacedReadings(p plan.Place, sp *spot, out map[int64]int64) {
	counting := map[int][]int64{} // by stage
	for _, n := range sp.readings {
		t, stage := s.taken(n, p), s.stageOf(p.Of, n)
		if t.As != record.Repeat {
			for _, n := range counting[stage] {
				out[n] = t.N
			}
			counting[stage] = nil
		}
		counting[stage] = append(counting[stage], t.N)
		if _, have := out[sp.leftOut]; sp.leftOut > 0 && t.N > sp.leftOut && !have {
			out[sp.leftOut] = t.N
		}
	}
}
