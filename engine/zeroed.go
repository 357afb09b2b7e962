package engine

import (
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/plan"
)

// zeroing is one setting as its zero checks tell it: when it was made and
// between which events the gauge cannot be believed.
type zeroing struct {
	n       int64         // the event that first recorded it
	good    int64         // the last event at which its zero was known to be good
	bad     bool          // a check since then was bad
	drift   length.Length // the most that a good check was out
	doubted []span
	points  []zeroPoint // the good checks, in order
}

// span is the events after from, up to to; to is 0 while it is still open.
type span struct{ from, to int64 }

func (x span) holds(n int64) bool { return n > x.from && (x.to == 0 || n < x.to) }

// zeroed takes a setting's zero to be good at event n, when it is new: the
// same id again puts its size right and is no new zero.
func (st *state) zeroed(id string, n int64) {
	if st.zeroings == nil {
		st.zeroings = map[string]zeroing{}
	}
	if _, known := st.zeroings[id]; !known {
		st.zeroings[id] = zeroing{n: n, good: n}
	}
}

// checked folds a zero check in. A bad one makes everything doubtful that was
// read since the last good one, until the next good one.
func (st *state) checked(set gauge.Set, n int64, drift length.Length) {
	z := st.zeroings[set.Setting]
	x, _ := st.Setting(set.Setting)
	instrument, _ := st.Instrument(x.Instrument)
	limit := st.driftLimit(instrument)
	good := drift <= limit && drift >= -limit
	if good {
		z.drift = max(z.drift, drift, -drift)
		z.points = append(z.points[:len(z.points):len(z.points)], zeroPoint{n, drift})
	}
	switch {
	case good && z.bad:
		z.doubted[len(z.doubted)-1].to = n
		z.good, z.bad = n, false
	case good:
		z.good = n
	case !z.bad:
		z.doubted = append(z.doubted[:len(z.doubted):len(z.doubted)], span{from: z.good})
		z.bad = true
	}
	st.zeroings[set.Setting] = z
}

// driftLimit is how far a zero may come back wrong before the readings since
// are doubted: the session's rule, else one graduation (common practice, no
// source).
func (st *state) driftLimit(i gauge.Instrument) length.Length {
	if !st.rules.Drift.IsZero() {
		return st.rules.Drift.Length
	}
	if i.Graduation.Length > 0 {
		return i.Graduation.Length
	}
	return i.Resolution().Round()
}

// Drifted reports whether a reading was taken while its gauge's zero cannot be
// believed.
func (s *Session) Drifted(t Taken) bool {
	for _, x := range s.zeroings[s.setOf(t.Set).Setting].doubted {
		if x.holds(t.N) {
			return true
		}
	}
	return false
}

// masterFeature returns the measured feature that a setting is zeroed on; ok is
// false for a ring, blocks or a micrometer set to a stated size.
func masterFeature(x *gauge.Setting) (f plan.Feature, ok bool) {
	if x.On != gauge.OnFeature || !x.Size.IsZero() {
		return plan.Feature{}, false
	}
	f, err := plan.ParseFeature(x.Feature)
	return f, err == nil
}

// zeroSize returns the size of a setting's master as it is known now: as
// stated, or as the feature it was zeroed on measures at the stage it was in
// then. Settings that rest on themselves have none.
func (s *Session) zeroSize(id string, through ...string) length.Exact {
	x := s.setting(id)
	f, chained := masterFeature(x)
	if !chained {
		return x.Size.Exact()
	}
	for _, seen := range through {
		if seen == id {
			return length.Exact{}
		}
	}
	var all []length.Exact
	stage := s.stageOf(f, s.zeroings[id].n)
	for p := range s.plan.Each(f) {
		all = append(all, s.figure(p, stage, append(through, id)...))
	}
	return length.MeanOf(all...)
}

// restsOn returns the features whose sizes enter a feature's sizes through the
// settings it was read with, nearest first.
func (s *Session) restsOn(f plan.Feature, stage int) []plan.Feature {
	return s.mastersOf(f, stage, s.spotsOf(f))
}

func (s *Session) mastersOf(f plan.Feature, stage int, spots []*spot) []plan.Feature {
	var out []plan.Feature
	for _, sp := range spots {
		for _, t := range sp.at(stage) {
			if on, ok := masterFeature(s.settingOf(t.Set)); ok && !t.Dev.IsZero() && on != f {
				out = appendNew(out, on)
			}
		}
	}
	return out
}

// appendNew adds x unless it is there.
func appendNew[T comparable](list []T, x T) []T {
	for _, have := range list {
		if have == x {
			return list
		}
	}
	return append(list, x)
}
