package engine

import (
	"strings"

	"borewright/engine/fit"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// fasteners works out what is given of fasteners, in the order of their names.
func (s *Session) fasteners() []WorkedOut {
	var out []WorkedOut
	for _, of := range s.givenOf(GivenTight) {
		out = append(out, s.stretch(of))
	}
	for _, of := range s.givenOf(GivenTorque) {
		out = append(out, s.torque(of))
	}
	return out
}

// givenOf returns what a figure is given of: features and families, in order.
func (s *Session) givenOf(name string) []string {
	var out []string
	for _, e := range s.events {
		if g, ok := e.Body.(record.Given); ok && g.Name == name && s.Live(e.N) {
			out = appendNew(out, g.Of)
		}
	}
	return out
}

// featureOf is the feature, or the family as a feature of none, that a name
// names.
func featureOf(name string) plan.Feature {
	if f, err := plan.ParseFeature(name); err == nil {
		return f
	}
	return plan.Feature{Family: plan.Family(name)}
}

func (s *Session) stretch(of string) WorkedOut {
	f := featureOf(of)
	out := WorkedOut{Name: strings.TrimSpace("fastener of " + s.nameOf(of) + ", stretch")}
	e := fit.Stretch(s.givenLength(GivenFree, f), s.givenLength(GivenTight, f))
	if !e.Measured() {
		out.Missing = "its free length is not given"
		return out
	}
	low, high := s.givenLength(GivenLeastStretch, f), s.givenLength(GivenMostStretch, f)
	out.Outside = low.Measured() && e.Cmp(low) < 0 || high.Measured() && e.Cmp(high) > 0
	out.Value = s.amount(e) + boundsText(s.givenText(GivenLeastStretch, f), s.givenText(GivenMostStretch, f))
	return out
}

// boundsText says between which bounds a figure should be; "" is none.
func boundsText(low, high string) string {
	switch {
	case low != "" && high != "":
		return ", " + low + " to " + high
	case low != "":
		return ", at least " + low
	case high != "":
		return ", at most " + high
	default:
		return ""
	}
}

// torqueUnits are the words for units of torque.
var torqueUnits = map[string]fit.Torque{
	"n m": fit.NewtonMetre, "nm": fit.NewtonMetre, "n·m": fit.NewtonMetre,
	"lb ft": fit.PoundFoot, "lbf ft": fit.PoundFoot, "ft lb": fit.PoundFoot, "lb in": fit.PoundInch, "in lb": fit.PoundInch,
}

// givenTorque returns a given torque; ok is false for one in no unit of torque.
func (s *Session) givenTorque(name string, f plan.Feature) (t fit.Torque, ok bool) {
	g, have := s.given(name, f)
	if !have {
		return 0, false
	}
	number, _ := s.givenNumber(name, f)
	word := strings.TrimPrefix(strings.TrimSpace(g.Value), numberOf(g.Value))
	unit, known := torqueUnits[strings.ToLower(strings.TrimSpace(word))]
	return fit.Torque(number * float64(unit)), known
}

func (s *Session) torque(of string) WorkedOut {
	f := featureOf(of)
	out := WorkedOut{Name: strings.TrimSpace("fastener of " + s.nameOf(of) + ", torque")}
	t, ok := s.givenTorque(GivenTorque, f)
	if !ok {
		out.Missing = "it is in no unit of torque known here: N m, lb ft or lb in"
		return out
	}
	low, _ := s.givenTorque(GivenLeastTorque, f)
	high, _ := s.givenTorque(GivenMostTorque, f)
	out.Outside = !t.Within(low, high)
	out.Value = s.givenText(GivenTorque, f) + boundsText(s.givenText(GivenLeastTorque, f), s.givenText(GivenMostTorque, f))
	return out
}

// givenText returns a given figure as it is given, "" for none.
func (s *Session) givenText(name string, f plan.Feature) string {
	g, _ := s.given(name, f)
	return g.Value
}
