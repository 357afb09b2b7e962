package tui

import (
	"borewright/engine"
	"borewright/engine/gauge"
	"borewright/engine/plan"
	"borewright/engine/record"
	"borewright/tui/draw"
)

// newSetForm opens a set: the condition of the part and the temperatures while
// it is read. A set in which nothing was read yet is amended; else a new one is
// opened on the same zero.
func newSetForm(st *Station, d *Desk, i gauge.Instrument, was gauge.Set) *entry {
	now := was
	if d.Session.SetUsed(was.ID) {
		now.ID = freshID("t", len(d.Session.Sets()))
	}
	opened := now
	rows := func() []row {
		out := []row{{heading: "Condition of the part while it is read"}}
		for _, x := range []struct {
			id, label, why string
			text           *string
		}{
			{"plate", "deck plate", "such as: 2.0 in plate with the gasket that will run; empty for none", &now.Plate},
			{"caps", "caps", "such as: main caps on, shells in; empty for off", &now.Caps},
			{"torque", "torqued to", "the value with its unit, in the steps the maker of the fastener gives", &now.Torque},
			{"fastener", "fastener", "such as: studs, new. Other fasteners pull the bore to another shape", &now.Fastener},
			{"lube", "lubricant", "what the threads are lubricated with: it changes the clamping force", &now.Lube},
			{"oiled", "dry or oiled", "how the surface is while it is read", &now.Oiled},
		} {
			out = append(out, row{label: x.label, fields: []field{wordsOf(x.id, x.why, mostTitle, x.text)}})
		}
		return append(append(out, row{heading: "Temperatures"}), temperatureRows("at", &now.At, "part", "gauge")...)
	}
	return &entry{
		filling: filling{st: st, form: newForm(rows)}, title: "condition and temperatures, " + i.Name,
		wrong: func() string { return faultText(now.Validate()) }, changed: func() bool { return now != opened },
		hint: func() string {
			if now.ID != was.ID {
				return "opens a new set on the same zero; what was read before keeps its own; "
			}
			return ""
		},
		keep: func() error {
			if now == opened {
				return nil
			}
			st.Say(draw.Plain, "what is read with "+i.Name+" from here on is read so")
			return d.Record(record.Set{Set: now})
		},
	}
}

// newExpansionForm states what the parts of a family are made of.
func newExpansionForm(st *Station, d *Desk, f plan.Family) *entry {
	was := expansionOf(d.Session, f)
	now := was
	return &entry{
		filling: filling{st: st, form: newForm(func() []row { return materialRows("part", "part", &now.Source, &now.Value, &now.Doubt) })},
		title:   "expansion of " + f.Plural(),
		changed: func() bool { return now != was },
		hint:    func() string { return "sizes of " + f.Plural() + " are brought to 20 °C by it; " },
		wrong: func() string {
			if now.Value == "" && now != was {
				return "an expansion is missing"
			}
			return faultText(gauge.Warm{Part: gauge.Body{Of: f.Noun(), Alpha: now.Value, AlphaDoubt: now.Doubt}}.Validate())
		},
		keep: func() error {
			if now == was {
				return nil
			}
			st.Say(draw.Plain, "the expansion of "+f.Plural()+" is given")
			return d.Record(now)
		},
	}
}

// expansionOf is the expansion that is given for a family, or none yet.
func expansionOf(s *engine.Session, f plan.Family) record.Given {
	if g, ok := s.GivenFor(engine.GivenExpansion, f); ok {
		return g
	}
	return record.Given{Name: engine.GivenExpansion, Of: string(f)}
}
