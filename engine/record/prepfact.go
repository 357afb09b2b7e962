package record

import (
	"time"

	"borewright/engine/plan"
	"borewright/engine/prep"
)

// PrepFact returns what an event says of the prep: a list set, a tick, or work
// on metal; ok is false when it says nothing of it.
func PrepFact(e Event) (f prep.Fact, ok bool) {
	f = prep.Fact{N: e.N, At: e.At, By: e.By}
	switch b := e.Body.(type) {
	case Steps:
		f.Set, f.List = true, b.List
	case Done:
		f.Tick = &b.Tick
	case Work:
		f.After, f.Work = b.After, &prep.Work{Did: b.Did, On: b.Changes}
		if len(b.Changes) == 0 {
			f.Work.On = b.To
		}
		return f, b.Metal
	default:
		return prep.Fact{}, false
	}
	return f, true
}

// PrepMark is an event of the prep as a heading keeps it: what was set, ticked
// or worked, without times and long texts.
type PrepMark struct {
	Mark
	Fact prep.Fact `json:"fact"`
}

// prepared notes an event of the prep. Work before the first list is no part
// of it.
func (h Heading) prepared(e Event) []PrepMark {
	f, ok := PrepFact(e)
	if !ok || f.Work != nil && len(h.Prep) == 0 {
		return h.Prep
	}
	f.N, f.At, f.By, f.List = 0, time.Time{}, "", f.List.Brief()
	return append(h.Prep[:len(h.Prep):len(h.Prep)], PrepMark{Mark{N: e.N}, f})
}

// NotReady says in one line what keeps the engine from being ready, or "" when
// nothing does or the session has no prep list.
func (h Heading) NotReady() string {
	var facts []prep.Fact
	for _, m := range h.Prep {
		if !m.Off {
			m.Fact.N = m.N
			facts = append(facts, m.Fact)
		}
	}
	return prep.NotReady(prep.Fold(facts).Findings(plan.Layout{Labels: h.Labels}))
}
