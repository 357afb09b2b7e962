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
	unit := torqueUnit(d.Session.Unit(), conditionsUsed(d.Session, func(x gauge.Set) string { return x.Torque })...)
	rows := func() []row {
		out := append([]row{{heading: "Condition of the part while it is read"}}, conditionRows(d.Session, &now, &unit)...)
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

// conditions are what is said of a part while it is read, with what is usual.
var conditions = []struct {
	id, label, why string
	of             func(*gauge.Set) *string
	usual          []string
}{
	{
		"plate", "deck plate", "such as: 2.0 in plate with the gasket that will run; empty for none",
		func(x *gauge.Set) *string { return &x.Plate },
		[]string{"deck plate with gasket", "deck plate without gasket", "no deck plate"},
	},
	{
		"caps", "caps", "the caps of the bearings while this is read",
		func(x *gauge.Set) *string { return &x.Caps },
		[]string{"caps on, shells in", "caps on, without shells", "caps off"},
	},
	{
		"torque", "torqued to", "the value with its unit, in the steps the maker of the fastener gives, such as 30+60",
		func(x *gauge.Set) *string { return &x.Torque }, nil,
	},
	{
		"fastener", "fastener", "other fasteners pull the bore to another shape",
		func(x *gauge.Set) *string { return &x.Fastener },
		[]string{"studs, new", "studs, used", "bolts, new", "bolts, used"},
	},
	{
		"lube", "lubricant", "what the threads are lubricated with: it changes the clamping force",
		func(x *gauge.Set) *string { return &x.Lube },
		[]string{"engine oil", "assembly lubricant", "thread sealer", "none, dry"},
	},
	{
		"oiled", "dry or oiled", "how the surface is while it is read",
		func(x *gauge.Set) *string { return &x.Oiled },
		[]string{"dry", "oiled"},
	},
}

// conditionRows ask for the condition of the part: a digit takes what is usual or
// was said before, and a torque has its unit put behind it.
func conditionRows(s *engine.Session, now *gauge.Set, unit *string) []row {
	var out []row
	for _, c := range conditions {
		x := wordsOf(c.id, c.why, mostTitle, c.of(now))
		if c.id == "torque" {
			x.behind = *unit
		} else {
			x = x.offering(c.usual, conditionsUsed(s, func(x gauge.Set) string { return *c.of(&x) })...)
		}
		out = append(out, row{label: c.label, fields: []field{x}})
	}
	return append(out, torqueRow(unit, 0))
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
