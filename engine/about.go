package engine

import (
	"slices"

	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// Details returns what is on the bench.
func (s *Session) Details() record.Details { return s.details }

// Layout returns the engine's layout.
func (s *Session) Layout() plan.Layout { return s.layout }

// Plan returns what is measured.
func (s *Session) Plan() plan.Plan { return s.plan }

// Rules returns how the session judges.
func (s *Session) Rules() record.Rules { return s.rules }

// Limits returns the limits in the order they were first given.
func (s *Session) Limits() []limit.Limits { return slices.Clip(s.limits) }

// Instruments returns the session's instruments in the order they came.
func (s *Session) Instruments() []gauge.Instrument { return slices.Clip(s.instruments) }

// Sets returns the sets in the order they were opened.
func (s *Session) Sets() []gauge.Set { return slices.Clip(s.sets) }

// Settings returns the settings in the order they were made.
func (s *Session) Settings() []gauge.Setting { return slices.Clip(s.settings) }

// Lifecycle returns the last of closed, reopened, archived or restored, or "".
func (s *Session) Lifecycle() string { return s.lifecycle }

// Unit returns the unit figures are shown in: the rules', else the details'.
func (s *Session) Unit() length.Unit {
	if s.rules.Unit != length.NoUnit {
		return s.rules.Unit
	}
	if s.details.Unit != length.NoUnit {
		return s.details.Unit
	}
	return length.MM
}

// Name returns the feature as a sentence names it, by its label.
func (s *Session) Name(f plan.Feature) string { return s.layout.Name(f) }

// LevelName returns what a level of a feature's family is called.
func (s *Session) LevelName(f plan.Family, id string) string {
	g, _ := s.plan.Group(f)
	return levelName(g, id)
}

func levelName(g plan.Group, id string) string {
	if l, ok := g.Level(id); ok {
		return l.Called()
	}
	return id
}

// PlaceName returns a place as a sentence names it, such as
// "bore 2, middle, across"; what has one place alone is named by its feature.
func (s *Session) PlaceName(p plan.Place) string { return PlaceName(s.layout, s.plan, p) }

// PlaceName returns a place of a layout and a plan as a sentence names it. A
// level of a family that is not planned is called by its id: "bore 2, level b".
func PlaceName(l plan.Layout, planned plan.Plan, p plan.Place) string {
	name := l.Name(p.Of)
	if level := levelWord(planned, p.Of.Family, p.Level); level != "" {
		name += ", " + level
	}
	if p.Dir != plan.Once && p.Dir != "" {
		name += ", " + DirName(p.Dir)
	}
	return name
}

// levelWord is what a sentence calls a level: nothing for the only point of
// what is read as one figure.
func (s *Session) levelWord(f plan.Family, id string) string { return levelWord(s.plan, f, id) }

func levelWord(planned plan.Plan, f plan.Family, id string) string {
	t, _ := f.Traits()
	g, found := planned.Group(f)
	switch {
	case id == "" || t.Figure != "" && len(g.Levels) == 1:
		return ""
	case !found:
		return "level " + id
	}
	return levelName(g, id)
}

// DirName returns a direction as it is shown: its name, or its angle with °.
func DirName(dir string) string {
	if dir != "" && dir[0] >= '0' && dir[0] <= '9' {
		return dir + "°"
	}
	return dir
}

// StageName returns what a stage of a feature is called: as found, after work
// or final. A later stage than the first says how many works went before.
func (s *Session) StageName(f plan.Feature, stage int) string {
	switch {
	case s.closed && stage == s.Stage(f):
		return "final"
	case stage == 0:
		return "as found"
	default:
		return "after work"
	}
}
