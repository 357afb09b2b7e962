package record

import (
	"borewright/engine/gauge"
	"borewright/engine/plan"
	"borewright/engine/schema"
)

// gaugeObjects are the rows of what readings are taken with.
func gaugeObjects() map[string]schema.Object {
	id := func(of string) schema.Row {
		return must("id", "what the "+of+" is called in the session", nameText(maxName))
	}
	return map[string]schema.Object{
		"instrument": {
			About: "A gauge or micrometer, copied into the session.",
			Rows:  append(instrumentRows(), id("instrument")),
			Rules: []*schema.Node{
				{AnyOf: []*schema.Node{schema.Needed("kind", schema.Is(gauge.Indicator)), schema.Needed("graduation", filled())}},
				schema.When(schema.Needed("alpha_doubt", filled()), schema.Needed("alpha", filled())),
				schema.When(schema.Needed("proved", filled()), schema.Needed("sense", filled())),
				schema.When(schema.Needed("s", filled()), schema.Needed("df", schema.From(1))),
			},
		},
		"setting": {
			About: "An instrument that was zeroed on a master of known size.",
			Rows: []schema.Row{
				id("setting"),
				must("instrument", "the id of the instrument", nameText(maxName)),
				must("on", "what it was zeroed on; scale is an instrument read on its own", schema.Words(gauge.OnRing, gauge.OnBlocks, gauge.OnMicrometer, gauge.OnFeature, gauge.OnScale)),
				may("size", "the size of the master", aboveZero()),
				may("feature", "the measured feature that it was zeroed on", schema.Text("|"+plan.FeaturePattern(), 0)),
				may("doubt", "how far the master may be wrong", notBelowZero()),
				may("temperatures", "how warm it was", nil, "temperatures"),
				may("material", "what the master is made of", line(maxName)),
				may("alpha", "the master's expansion in 1e-6 per °C, 0 to 1000", decimalText()),
				may("alpha_doubt", "how far that may be wrong, in 1e-6 per °C", decimalText()),
			},
			Rules: []*schema.Node{
				schema.When(schema.Needed("on", schema.Words(gauge.OnRing, gauge.OnBlocks, gauge.OnMicrometer)), schema.Needed("size", filled())),
				schema.When(schema.Needed("on", schema.Is(gauge.OnScale)), schema.Field("size", schema.Empty())),
				schema.When(schema.Needed("on", schema.Is(gauge.OnFeature)), schema.Needed("feature", filled())).
					With(&schema.Node{Else: schema.Field("feature", schema.Empty())}),
			},
		},
		"set": {
			About: "The readings between two zero checks of one instrument, and the part's condition. The same id amends it.",
			Rows: []schema.Row{
				id("set"),
				must("setting", "the id of the setting", nameText(maxName)),
				may("plate", "whether a deck plate was on", line(maxTitle)),
				may("caps", "how the caps were", line(maxTitle)),
				may("torque", "what they were torqued to", line(maxTitle)),
				may("fastener", "which fasteners held them", line(maxTitle)),
				may("lube", "what the threads were lubricated with", line(maxTitle)),
				may("oiled", "whether the part was dry or oiled", line(maxTitle)),
				may("temperatures", "how warm it was", nil, "temperatures"),
			},
		},
		"temperatures": {
			About: "Temperatures in °C, from -60 to 300; empty is not measured.",
			Rows: []schema.Row{
				may("part", "of the part", decimalText()),
				may("master", "of the setting master", decimalText()),
				may("gauge", "of the instrument", decimalText()),
				may("doubt", "how far each of them may be wrong to either side", decimalText()),
			},
		},
		"zero": {
			About: "Going back to the master, or why that was skipped.",
			Rows: []schema.Row{
				must("set", "the id of the set that it opens or closes", nameText(maxName)),
				may("keyed", "what was keyed", line(maxName)),
				may("deviation", "what it read off zero, + larger", nil),
				may("skipped", "whether the check was skipped", nil),
				may("why", "why it was skipped", prose()),
			},
			Rules: []*schema.Node{
				schema.When(
					schema.Needed("skipped", &schema.Node{Const: true}),
					schema.Needed("why", filled()).Field("keyed", schema.Empty()).Field("deviation", schema.Empty()),
				).With(&schema.Node{Else: schema.Needs("keyed", "deviation").Field("keyed", nameText(0)).Field("deviation", filled())}),
			},
		},
	}
}

// instrumentRows are the rows of an instrument but for its id.
func instrumentRows() []schema.Row {
	return []schema.Row{
		must("name", "what it is called", nameText(maxName)),
		must("kind", "whether it shows a deviation from a master, a size, or what an indicator or feeler shows", schema.Words(gauge.Comparator, gauge.Direct, gauge.Indicator)),
		may("contacts", "with how many contacts; with three, out-of-round is not measured", schema.Numbers(0, 2, 3)),
		must("unit", "the unit of a bare number, in or mm", sessionUnit("")),
		may("graduation", "one mark of the dial or thimble", aboveZero()),
		may("step", "the finest reading, often half a graduation", aboveZero()),
		may("turn", "one revolution of dial or thimble", aboveZero()),
		may("low", "the smallest size it reads", notBelowZero()),
		may("high", "the largest size it reads", nil),
		may("sense", "how the needle was proved to move", schema.Words("", gauge.ClockwiseLarger, gauge.ClockwiseSmaller)),
		may("proved", "the known step that it was proved with", aboveZero()),
		may("sends", "what its cable sends", schema.Words("", gauge.SendsSize, gauge.SendsDeviation, gauge.SendsGraduations)),
		may("material", "what its body is made of", line(maxName)),
		may("alpha", "its expansion in 1e-6 per °C, 0 to 1000", decimalText()),
		may("alpha_doubt", "how far that may be wrong, in 1e-6 per °C", decimalText()),
		may("due", "the day its calibration ends, such as 2026-11-25", schema.Text("|"+dayPattern, 0)),
		may("s", "its repeatability, pooled over past repeats", notBelowZero()),
		may("df", "the degrees of freedom of its repeatability", schema.From(0)),
	}
}
