package engine

import (
	"slices"
	"strings"

	"borewright/engine/plan"
	"borewright/engine/record"
)

// Concerns reports whether the entry is about what a name names as limits and
// notes do: a feature ("bore/3"), or a family ("bore") with all its features.
func (e Entry) Concerns(name string) bool {
	return slices.ContainsFunc(e.About, func(s string) bool {
		return s == name || strings.HasPrefix(s, name+"/")
	})
}

// about returns the names of the features and families that an event is about.
// A withdrawal is about what it took back, a gauge's event about the families
// that are read with that gauge.
func (s *Session) about(e record.Event) []string {
	switch b := e.Body.(type) {
	case record.Reading:
		return featureNames(b.Of, s.placeOf(e.N).Of)
	case record.LeftOut:
		return featureNames(b.Of)
	case record.Moved:
		return s.aboutMoved(b)
	case record.Work:
		return featureNames(append(b.To[:len(b.To):len(b.To)], b.Changes...)...)
	case record.Fitted:
		return featureNames(b.Part, b.At)
	case record.Withdrawn:
		if b.Event >= 1 && b.Event <= int64(len(s.events)) && b.Event < e.N {
			return s.about(s.events[b.Event-1].Event)
		}
		return nil
	case record.Note:
		return []string{b.On}
	case record.Limit:
		return []string{b.Of}
	case record.Given:
		return []string{b.Of}
	case record.Table:
		return []string{b.Of}
	default:
		return s.readWith(s.instrumentIn(e.Body))
	}
}

// featureNames writes features, each once and none for no feature.
func featureNames(fs ...plan.Feature) []string {
	var out []string
	for _, f := range fs {
		if name := f.String(); !f.IsZero() && !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	return out
}

// aboutMoved names where readings were moved from and to.
func (s *Session) aboutMoved(m record.Moved) []string {
	var fs []plan.Feature
	for _, n := range m.Readings {
		if n >= 1 && n <= int64(len(s.events)) {
			fs = append(fs, PlaceOf(s.events[n-1].Body).Of)
		}
	}
	for _, p := range m.Places {
		fs = append(fs, p.Of)
	}
	return featureNames(fs...)
}

// instrumentIn returns the id of the instrument that an event is about, or "".
func (s *Session) instrumentIn(b record.Body) string {
	switch b := b.(type) {
	case record.Instrument:
		return b.ID
	case record.Setting:
		return b.Instrument
	case record.Set:
		x, _ := s.Setting(b.Setting)
		return x.Instrument
	case record.Zero:
		return s.instrumentOf(b.Set).ID
	default:
		return ""
	}
}

// readWith names the families that are read with an instrument.
func (s *Session) readWith(instrument string) []string {
	var out []string
	for _, g := range s.plan.Families {
		if instrument != "" && g.Instrument == instrument {
			out = append(out, string(g.Family))
		}
	}
	return out
}

// noteOn returns the feature that a note is on, or none.
func noteOn(b record.Body) plan.Feature {
	n, is := b.(record.Note)
	if !is {
		return plan.Feature{}
	}
	f, err := plan.ParseFeature(n.On)
	if err != nil {
		return plan.Feature{}
	}
	return f
}

// NameOf names what a limit or a note is on: a feature by its label, a family
// by its plural, anything else as it is.
func (s *Session) NameOf(name string) string { return s.nameOf(name) }
