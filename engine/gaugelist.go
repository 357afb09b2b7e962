package engine

import (
	"time"

	"borewright/engine/doubt"
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/plan"
)

// GaugeState is an instrument of a session with all that was done with it.
type GaugeState struct {
	gauge.Instrument
	// For are the families it is chosen for.
	For []plan.Family
	// Repeats is its repeatability, pooled over this session and its past.
	Repeats  doubt.Estimate
	Settings []SettingState
}

// SettingState is one setting of an instrument as its zero checks tell it.
type SettingState struct {
	gauge.Setting
	// Size is the master's as it is known now, of a measured feature too.
	Size length.Exact
	// Made is when it was zeroed.
	Made time.Time
	Sets []gauge.Set
	// Checks are its zero checks in order.
	Checks []CheckState
	// Readings counts what stands now and was read with it, Suspect what of that
	// is in doubt.
	Readings, Suspect int
	// Doubtful says that its zero came back wrong and has not been good since.
	Doubtful bool
}

// CheckState is one zero check.
type CheckState struct {
	At time.Time
	// Drift is what the gauge read on its master, + larger; not measured where
	// the check was skipped.
	Drift length.Exact
	// Why says why it was skipped.
	Why string
}

// Gauges returns every instrument of the session, in the order they came.
func (s *Session) Gauges() []GaugeState {
	counts := s.countedBySetting()
	var out []GaugeState
	for _, i := range s.instruments {
		g := GaugeState{Instrument: i, Repeats: s.Repeatability(i.ID)}
		for _, f := range s.plan.Families {
			if f.Instrument == i.ID {
				g.For = append(g.For, f.Family)
			}
		}
		for _, x := range s.settings {
			if x.Instrument == i.ID {
				state := s.settingState(x)
				state.Readings = counts[x.ID]
				g.Settings = append(g.Settings, state)
			}
		}
		out = append(out, g)
	}
	return out
}

func (s *Session) settingState(x gauge.Setting) SettingState {
	out := SettingState{
		Setting: x, Size: s.zeroSize(x.ID), Made: s.events[s.zeroings[x.ID].n-1].At,
		Doubtful: s.Doubtful(x.ID), Suspect: s.SuspectReadings(x.ID),
	}
	for _, set := range s.sets {
		if set.Setting == x.ID {
			out.Sets = append(out.Sets, set)
		}
	}
	for _, z := range s.zeros {
		if set, _ := s.Set(z.Set); set.Setting == x.ID {
			c := CheckState{At: s.events[z.n-1].At, Why: z.Why}
			if !z.Skipped {
				c.Drift = z.Deviation.Exact()
			}
			out.Checks = append(out.Checks, c)
		}
	}
	return out
}

// countedBySetting counts the readings that stand now by their settings.
func (s *Session) countedBySetting() map[string]int {
	out := map[string]int{}
	for _, p := range s.Places() {
		for _, t := range s.Now(p) {
			set, _ := s.Set(t.Set)
			out[set.Setting]++
		}
	}
	return out
}
