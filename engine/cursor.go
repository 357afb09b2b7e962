package engine

import (
	"slices"

	"borewright/engine/plan"
	"borewright/engine/record"
)

// Places returns every place of the plan in its order.
func (s *Session) Places() []plan.Place { return s.plan.All(s.layout) }

// Settled reports whether a place has a reading of its feature's present stage
// or is left out.
func (s *Session) Settled(p plan.Place) bool {
	return len(s.Now(p)) > 0 || s.IsLeftOut(p)
}

// Next returns the place to read after one: the first unsettled place behind
// it in the plan, else the first unsettled place of all. When every place is
// settled it is the place that follows in the plan, round to the first.
func (s *Session) Next(after plan.Place) plan.Place {
	var follows plan.Place
	behind := false
	for p := range s.plan.Every(s.layout) { // a list of them is 30 kB, for each reading
		if behind && follows.IsZero() {
			follows = p
		}
		if behind && !s.Settled(p) {
			return p
		}
		behind = behind || p == after
	}
	for p := range s.plan.Every(s.layout) {
		if follows.IsZero() {
			follows = p
		}
		if !s.Settled(p) {
			return p
		}
	}
	return follows
}

// Step returns the place so many places on in the plan (or back, below zero),
// settled or not, stopping at its ends.
func (s *Session) Step(from plan.Place, by int) plan.Place {
	places := s.Places()
	if len(places) == 0 {
		return plan.Place{}
	}
	i := slices.Index(places, from) + by
	return places[max(0, min(i, len(places)-1))]
}

// NextFeature returns the first unsettled place of the feature that follows in
// the plan, or its first place when it is settled throughout.
func (s *Session) NextFeature(from plan.Feature) plan.Place {
	features := s.plan.Features(s.layout)
	if len(features) == 0 {
		return plan.Place{}
	}
	return s.Enter(features[(slices.Index(features, from)+1)%len(features)])
}

// Enter returns the place where a feature is taken up: its first unsettled
// place, or its first. It is no place when the feature is not planned.
func (s *Session) Enter(f plan.Feature) plan.Place {
	places := s.plan.Places(f)
	if len(places) == 0 {
		return plan.Place{}
	}
	for _, p := range places {
		if !s.Settled(p) {
			return p
		}
	}
	return places[0]
}

// Resume returns the place where the session goes on: behind what was last
// read or left out, or there itself when that was taken back.
func (s *Session) Resume() plan.Place {
	if p := s.withdrawnLast(); !p.IsZero() {
		return p
	}
	return s.Next(s.lastPlace)
}

// withdrawnLast returns the place of the newest reading or place left out when
// it is withdrawn.
func (s *Session) withdrawnLast() plan.Place {
	for _, e := range slices.Backward(s.events) {
		p := PlaceOf(e.Body)
		switch {
		case p.IsZero():
			continue
		case s.Live(e.N) || s.inPlan(p) != nil:
			return plan.Place{}
		default:
			return p
		}
	}
	return plan.Place{}
}

// PlaceOf returns the place that an event is about, or none.
func PlaceOf(b record.Body) plan.Place {
	switch b := b.(type) {
	case record.Reading:
		return b.Place()
	case record.LeftOut:
		return b.Place()
	default:
		return plan.Place{}
	}
}

// Last returns the newest live reading; ok is false when there is none.
func (s *Session) Last() (t Taken, ok bool) {
	for _, e := range slices.Backward(s.events) {
		if e.Is() != record.IsReading || !s.Live(e.N) {
			continue
		}
		return s.taken(e.N, s.placeOf(e.N)), true
	}
	return Taken{}, false
}

// acts are the kinds of what the hand at the bench does.
var acts = []record.Kind{
	record.IsReading, record.IsLeftOut, record.IsZero, record.IsWork, record.IsNote, record.IsMoved, record.IsDone,
}

// LastAct returns the number of the newest live event that the hand at the
// bench may take back: a reading, a place left out, a zero check, work, a note
// or a tick. It is 0 when there is none.
func (s *Session) LastAct() int64 {
	for _, e := range slices.Backward(s.events) {
		if !s.Live(e.N) {
			continue
		}
		if slices.Contains(acts, e.Is()) {
			return e.N
		}
	}
	return 0
}

// Progress counts the places of the plan and those that are settled.
func (s *Session) Progress() (settled, planned int) {
	for _, f := range s.plan.Features(s.layout) {
		stage := s.Stage(f)
		for _, sp := range s.spotsOf(f) { // a list of all places was a sixth of what a key allocated
			planned++
			if len(sp.at(stage)) > 0 || s.leftOut(f, sp) {
				settled++
			}
		}
	}
	return settled, planned
}
