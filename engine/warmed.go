package engine

import (
	"fmt"
	"math"
	"strconv"

	"borewright/engine/gauge"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// usualStaleWarm is by how many °C part or gauge may differ from when the gauge
// was zeroed where the session does not say: common practice, no source.
const usualStaleWarm = 2

// StaleWarm is by how many °C part or gauge may differ from when the gauge was
// zeroed until its zero is checked.
func (s *Session) StaleWarm() float64 {
	if f, err := strconv.ParseFloat(s.rules.StaleWarm, 64); err == nil {
		return f
	}
	return usualStaleWarm
}

// Warmed says in a few words by how much the part or the gauge of a family is
// warmer or colder now than when its zero was made or checked last, where that
// is more than the session allows; "" where it is not, or not known. The zero is
// checked first then, or that is skipped.
func (s *Session) Warmed(f plan.Family) string {
	h, err := s.Hand(f)
	if err != nil || h.Set.At.Part == "" && h.Set.At.Gauge == "" {
		return "" // to walk the session for it was an eighth of Enter on 100,000 events
	}
	then := s.zeroedAt(h.Setting.ID)
	for _, x := range []struct{ of, at, from string }{
		{"the part", h.Set.At.Part, then.Part}, {h.Instrument.Name, h.Set.At.Gauge, then.Gauge},
	} {
		if x.at != "" && x.from != "" && math.Abs(gauge.Rise(x.at, x.from)) > s.StaleWarm() {
			return fmt.Sprintf("%s is %s than at the last zero", x.of, gauge.Apart(x.at, x.from))
		}
	}
	return ""
}

// zeroedAt is how warm it was when a setting was made, or checked last, a check
// that was skipped too. Temperatures that were taken after it and before anything
// was read are its own.
func (s *Session) zeroedAt(setting string) gauge.Temperatures {
	var then gauge.Temperatures
	sets := map[string]gauge.Temperatures{}
	open := true // nothing was read since
	for _, e := range s.events {
		if !s.Live(e.N) {
			continue
		}
		switch b := e.Body.(type) {
		case record.Setting:
			if b.ID == setting {
				then = merged(then, b.At)
			}
		case record.Set:
			if b.Setting == setting {
				sets[b.ID] = b.At
				if open {
					then = merged(then, b.At)
				}
			}
		case record.Zero:
			if at, ok := sets[b.Set]; ok {
				then, open = merged(then, at), true
			}
		case record.Reading:
			if _, ok := sets[b.Set]; ok {
				open = false
			}
		}
	}
	return then
}

// merged is what was taken last of each temperature.
func merged(before, at gauge.Temperatures) gauge.Temperatures {
	if at.Part != "" {
		before.Part = at.Part
	}
	if at.Gauge != "" {
		before.Gauge = at.Gauge
	}
	return before
}
