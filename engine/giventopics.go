package engine

import (
	"strings"

	"borewright/engine/plan"
	"borewright/engine/record"
)

// GivenKind is how a given figure is written.
type GivenKind uint8

// The kinds of given figures.
const (
	GivenLength GivenKind = iota // with its unit, "3.7512 in"
	GivenNumber                  // without one, "0.0035"
	GivenFigure                  // a number with a unit of its own, "50 lb ft"
)

// GivenField is one figure that may be given.
type GivenField struct {
	// Name and Of are those of the figure, Of a feature, a family or "".
	Name, Of string
	Kind     GivenKind
	// Label says what it is, Why what it is for. Fields of one label stand in a
	// row.
	Label, Why string
	// Heading stands above it, "" for none.
	Heading string
}

// GivenTopic is a group of figures that are given together.
type GivenTopic struct {
	Name   string
	Fields []GivenField
}

// GivenTopics returns what may be given for the fits of a session, as far as
// its plan has a use for it.
func (s *Session) GivenTopics() []GivenTopic {
	var out []GivenTopic
	for _, t := range []GivenTopic{
		s.honingTopic(), s.grindingTopic(), s.ringsTopic(), s.shellsTopic(), s.warmTopic(), s.chargeTopic(),
		s.fastenersTopic(plan.Rod, plan.RodBearing), s.fastenersTopic(plan.MainBearing, plan.MainJournal),
	} {
		if len(t.Fields) > 0 {
			out = append(out, t)
		}
	}
	return out
}

func (s *Session) honingTopic() GivenTopic {
	t := GivenTopic{Name: "honing and boring"}
	if s.planned(plan.Bore) {
		of := string(plan.Bore)
		t.Fields = []GivenField{
			{GivenHoneTarget, of, GivenLength, GivenHoneTarget, "the size that bores are honed to, diametral", ""},
			{GivenFinish, of, GivenLength, GivenFinish, "what finishing takes off the largest place at least, diametral: a smaller target is not possible", ""},
			{GivenReboreStock, of, GivenLength, GivenReboreStock, "what boring to an oversize takes off the largest place at least, diametral", ""},
		}
	}
	return t
}

func (s *Session) grindingTopic() GivenTopic {
	t := GivenTopic{Name: "grinding"}
	for _, f := range []plan.Family{plan.MainJournal, plan.RodJournal} {
		if s.planned(f) {
			t.Fields = append(t.Fields, GivenField{
				GivenGrindStock, string(f), GivenLength, f.Plural() + ", stock",
				"what grinding takes off the smallest place of a journal at least, diametral", "",
			})
		}
	}
	return t
}

func (s *Session) ringsTopic() GivenTopic {
	t := GivenTopic{Name: "rings"}
	if !s.planned(plan.RingGap) {
		return t
	}
	of := string(plan.RingGap)
	t.Fields = append(t.Fields, GivenField{
		GivenGapFactor, of, GivenNumber, "gap factor, all rings",
		"the gap for each unit of the bore's diameter, such as 0.0035; the ring maker's figure governs", "",
	})
	for _, part := range []string{plan.Top, plan.Second, plan.Oil} {
		t.Fields = append(t.Fields, GivenField{part + " " + GivenGapFactor, of, GivenNumber, part + " ring alone", "the gap factor of the " + part + " rings, where it is another", ""})
	}
	return GivenTopic{t.Name, append(t.Fields,
		GivenField{GivenGapDepth, of, GivenLength, "gaps measured at, depth", "how deep in the bore the rings stand while their gaps are measured, from the head end", ""},
		GivenField{GivenTravelTop, of, GivenLength, "rings travel from", "the depth where the top ring turns; empty is the bore's first level", ""},
		GivenField{GivenTravelBottom, of, GivenLength, "rings travel to", "the depth where the rings turn at the bottom; empty is the bore's last level", ""},
	)}
}

func (s *Session) shellsTopic() GivenTopic {
	t := GivenTopic{Name: "shells that are in"}
	for _, x := range []struct{ bearing, shell plan.Family }{{plan.MainBearing, plan.ShellMain}, {plan.RodBearing, plan.ShellRod}} {
		if !s.planned(x.bearing) && !s.planned(x.shell) {
			continue
		}
		of := string(x.shell)
		t.Fields = append(t.Fields,
			GivenField{GivenUndersize, of, GivenLength, x.bearing.Plural() + ", undersize", "of the shells that are in; empty is standard, below zero extra clearance", ""},
			GivenField{GivenWall, of, GivenLength, x.bearing.Plural() + ", wall", "of the shells that are in, where those on hand are told by their walls and none is measured", ""},
			GivenField{GivenMix, of, GivenLength, x.bearing.Plural() + ", halves differ", "by how much the undersizes of two halves may differ at most; empty is one step between those on hand", ""})
	}
	return t
}

// warmTopic asks of everything that runs in something else how warm it runs.
func (s *Session) warmTopic() GivenTopic {
	t := GivenTopic{Name: "running warm"}
	var fs []plan.Family
	for _, x := range pairings {
		if s.planned(x.hole) && s.planned(x.shaft) {
			fs = appendNew(appendNew(fs, x.hole), x.shaft)
		}
	}
	if s.planned(plan.RingGap) {
		fs = appendNew(appendNew(fs, plan.Bore), plan.RingGap)
	}
	for _, f := range fs {
		name := f.Plural()
		if f == plan.RingGap {
			name = "rings"
		}
		heading := ""
		if len(t.Fields) == 0 {
			heading = "runs at °C; grows per °C, in millionths"
		}
		t.Fields = append(t.Fields,
			GivenField{GivenRunning, string(f), GivenNumber, name, "how warm " + name + " run, in °C: clearances and gaps are worked out at it", heading},
			GivenField{GivenExpansion, string(f), GivenNumber, name, "by how much " + name + " grow per °C, in millionths of their size: iron about 11, aluminium about 23; the maker's figure governs", ""})
	}
	return t
}

// chargeTopic asks for what encloses the charge.
func (s *Session) chargeTopic() GivenTopic {
	t := GivenTopic{Name: "compression"}
	if !s.planned(plan.Bore) {
		return t
	}
	t.Fields = []GivenField{
		{GivenStroke, "", GivenLength, GivenStroke, "how far the pistons travel", ""},
		{GivenGasket, "", GivenLength, GivenGasket, "of the head gasket when it is tight", ""},
		{GivenGasketBore, "", GivenLength, GivenGasketBore, "the diameter of the hole in the gasket", ""},
		{GivenDish, "", GivenNumber, "dish, all pistons, cm³", "the volume of the dish in a piston; a dome is below zero", ""},
	}
	for at := 1; at <= s.layout.Cylinders; at++ {
		f := plan.Feature{Family: plan.Bore, At: at}
		label, heading := "cylinder "+s.layout.Label(f), ""
		if at == 1 {
			heading = "of each cylinder: chamber, dish, in cm³"
		}
		t.Fields = append(t.Fields,
			GivenField{GivenChamber, f.String(), GivenNumber, label, "the volume of its chamber in the head: with it the compression ratio is worked out", heading},
			GivenField{GivenDish, f.String(), GivenNumber, label, "of its own piston, where it is another than of all", ""})
	}
	return t
}

// fastenersTopic asks for the fasteners of a family, where what they hold is
// planned.
func (s *Session) fastenersTopic(f, planned plan.Family) GivenTopic {
	t := GivenTopic{Name: "fasteners of " + f.Plural()}
	if !s.planned(planned) {
		return t
	}
	of := string(f)
	t.Fields = []GivenField{
		{GivenLeastStretch, of, GivenLength, "stretch, least, most", "by how much they must be longer tight than free, at least", ""},
		{GivenMostStretch, of, GivenLength, "stretch, least, most", "by how much they may be longer tight than free, at most", ""},
		{GivenLeastTorque, of, GivenFigure, "torque, least, most", "N m, lb ft or lb in; a bare number has the unit that is chosen below", ""},
		{GivenMostTorque, of, GivenFigure, "torque, least, most", "N m, lb ft or lb in; a bare number has the unit that is chosen below", ""},
	}
	traits, _ := f.Traits()
	for at := 1; at <= traits.Count(s.layout); at++ {
		one := plan.Feature{Family: f, At: at}
		label, heading := s.Name(one), ""
		if at == 1 {
			heading = "of each: length free, length tight, torque"
		}
		t.Fields = append(t.Fields,
			GivenField{GivenFree, one.String(), GivenLength, label, "the fastener's length before it is tightened", heading},
			GivenField{GivenTight, one.String(), GivenLength, label, "the fastener's length once it is tight: its stretch is worked out", ""},
			GivenField{GivenTorque, one.String(), GivenFigure, label, "what it was tightened to; a bare number has the unit that is chosen below", ""})
	}
	return t
}

// GivenValue returns what is given of exactly a feature, a family or all, ""
// for nothing.
func (s *Session) GivenValue(name, of string) string { return s.givens[givenKey{name, of}].Value }

// GivenAround returns what counts for a feature or a family of which exactly
// nothing is given: what is given of its family, or of all; "" for nothing.
func (s *Session) GivenAround(name, of string) string {
	if s.GivenValue(name, of) != "" || of == "" {
		return ""
	}
	return s.givenText(name, featureOf(of))
}

// GivenBodies returns what is recorded for a figure to have a value: the figure,
// or for none the withdrawal of what was given before.
func (s *Session) GivenBodies(name, of, value string) []record.Body {
	was := s.givens[givenKey{name, of}]
	switch {
	case value == was.Value:
		return nil
	case value != "" && name == GivenExpansion:
		return []record.Body{record.Given{Name: name, Of: of, Value: value, Doubt: was.Doubt, Source: "as keyed"}}
	case value != "":
		return []record.Body{record.Given{Name: name, Of: of, Value: value, Source: "keyed at the bench"}}
	}
	var out []record.Body
	for _, e := range s.events {
		if g, ok := e.Body.(record.Given); ok && g.Name == name && g.Of == of && s.Live(e.N) {
			out = append(out, record.Withdrawn{Event: e.N, Why: "not given any more"})
		}
	}
	return out
}

// GivenText says what is given on a topic, "" for nothing.
func (s *Session) GivenText(t GivenTopic) string {
	var out []string
	for _, f := range t.Fields {
		if v := s.GivenValue(f.Name, f.Of); v != "" {
			out = append(out, f.Label+" "+v)
		}
	}
	return strings.Join(out, "; ")
}
