package engine

import (
	"fmt"

	"borewright/engine/gauge"
	"borewright/engine/plan"
)

// condition is what the part was held by and oiled with while it was read.
type condition struct{ plate, caps, torque, fastener, lube, oiled string }

func conditionOf(x gauge.Set) condition {
	return condition{x.Plate, x.Caps, x.Torque, x.Fastener, x.Lube, x.Oiled}
}

// apart names the first thing in which two conditions differ, and both values.
func (c condition) apart(o condition) (what, one, other string) {
	for _, x := range []struct{ what, one, other string }{
		{"deck plate", c.plate, o.plate},
		{"caps", c.caps, o.caps},
		{"torque", c.torque, o.torque},
		{"fastener", c.fastener, o.fastener},
		{"lubricant", c.lube, o.lube},
		{"oil", c.oiled, o.oiled},
	} {
		if x.one != x.other {
			return x.what, saidOr(x.one), saidOr(x.other)
		}
	}
	return "", "", ""
}

func saidOr(text string) string {
	if text == "" {
		return "none"
	}
	return text
}

// conditionsIn returns the conditions that a feature's readings of a stage were
// taken in, in the order of its places. Readings without a set say none.
func (s *Session) conditionsIn(f plan.Feature, stage int) []condition {
	var out []condition
	for p := range s.plan.Each(f) {
		for _, t := range s.At(p, stage) {
			if set, ok := s.Set(t.Set); ok {
				out = appendNew(out, conditionOf(set))
			}
		}
	}
	return out
}

// MixedConditions warns in a sentence where the figures of a feature rest on
// readings that were taken in different conditions of the part, or in another
// one than before it was worked on: without the deck plate, or with another
// fastener. It is empty where nothing is to be said. Before anything is read
// after work it is said of the set that is open.
func (s *Session) MixedConditions(f plan.Feature) string {
	stage := s.Stage(f)
	now := s.conditionsIn(f, stage)
	if len(now) > 1 {
		what, one, other := now[0].apart(now[1])
		return fmt.Sprintf("readings in different conditions are mixed in one figure: %s %s, and %s", what, one, other)
	}
	if len(now) == 0 {
		if h, err := s.Hand(f.Family); err == nil {
			now = []condition{conditionOf(h.Set)}
		}
	}
	for before := stage - 1; before >= 0 && len(now) > 0; before-- {
		if then := s.conditionsIn(f, before); len(then) > 0 {
			return s.changedCondition(f, before, then[len(then)-1], now[0])
		}
	}
	return ""
}

// changedCondition says what a bore lost by being read otherwise than before
// the work that closed a stage.
func (s *Session) changedCondition(f plan.Feature, stage int, then, now condition) string {
	did := s.works[f][stage].Did
	switch {
	case then.plate != "" && now.plate == "":
		return fmt.Sprintf("read on a deck plate (%s) before it was %s, and without one now: it has another shape without", then.plate, did)
	case then.plate == "" && now.plate != "":
		return fmt.Sprintf("read without a deck plate before it was %s, and on one now (%s): the two cannot be compared", did, now.plate)
	case then.fastener != "" && now.fastener != then.fastener:
		return fmt.Sprintf("fastener changed since it was %s: %s before, %s now; another one pulls it to another shape", did, then.fastener, saidOr(now.fastener))
	default:
		return ""
	}
}
