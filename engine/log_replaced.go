package engine

import (
	"fmt"

	"borewright/engine/limit"
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
		name := settingName(e.Body)
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
	for _, t := range sp.readings {
		stage := s.stageOf(p.Of, t.N)
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

// settingName is the name under which an event sets something, or "" when it
// sets nothing.
func settingName(b record.Body) string {
	name := func(parts ...any) string { return fmt.Sprint(append([]any{b.Is(), "\x00"}, parts...)...) }
	switch b := b.(type) {
	case record.Details, record.Layout, record.Plan, record.Rules, record.Steps:
		return name()
	case record.Limit:
		return name(limitName(b.Limits))
	case record.Given:
		return name(b.Name, "\x00", b.Of)
	case record.Table:
		return name(b.Name, "\x00", b.Of)
	case record.Instrument:
		return name(b.ID)
	case record.Setting:
		return name(b.ID)
	case record.Set:
		return name(b.ID)
	case record.Fitted:
		return name(b.Part)
	default:
		return ""
	}
}

// limitName is what sameLimit compares, as one text.
func limitName(l limit.Limits) string {
	return string(l.On) + "\x00" + l.Of + "\x00" + string(l.By)
}
