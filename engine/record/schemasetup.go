package record

import (
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/schema"
)

// setupObjects are the rows of what a session is set up with.
func setupObjects() map[string]schema.Object {
	return map[string]schema.Object{
		"details": {
			About: "What is on the bench. It is the first event of every session.",
			Rows: append(titleRows(),
				must("uid", "the session's random identity", schema.Text(`[A-Za-z0-9_\-]{1,64}`, 0).With(&schema.Node{Not: schema.Is(ShopUID)})),
				must("unit", "the unit of the session, in or mm", sessionUnit("")),
				may("earlier", "the uid of the session before of the same engine", schema.Text(`[A-Za-z0-9_\-]{0,64}`, 0).With(&schema.Node{Not: schema.Is(ShopUID)})),
				may("copied", "the digest of the session that this one was copied from", line(maxTitle)),
				may("ran", "what the engine ran since the session before", line(maxTitle)),
			),
		},
		"layout": {
			About: "How many of everything the engine has, and what its positions are called.",
			Rows:  layoutRows(1),
			Rules: append(formRules(), sharedRule(schema.Numbers(2), schema.Numbers(1))),
		},
		"plan": {
			About: "What is measured, in the order it is read.",
			Rows: []schema.Row{
				must("families", "the families that are measured, each once", schema.Each(nil, 1, 0), "group"),
				may("order", "whether a feature is read level by level or direction by direction; by level when empty", schema.Words("", plan.ByLevel, plan.ByDirection)),
			},
		},
		"group": {
			About: "What is measured of one family.",
			Rows: append(groupRows(1),
				may("instrument", "the id of the instrument it is read with", line(maxName)),
			),
			Rules: append(groupRules(), sizeRules(isFamily, "nominal")...),
		},
		"level": {
			About: "How deep in a feature a reading is taken.",
			Rows:  append(levelRows(), must("id", "what the level is called for good; no other depth ever is", nameText(16))),
		},
		"limit": {
			About: "The limits of one characteristic of a family or of one feature, in the units they were written in. They replace those before them.",
			Rows:  limitRows("definition", "range"),
			Rules: limitRules("definition"),
		},
		"range": {About: "A low limit, a high limit or both.", Rows: rangeRows()},
		"rules": {
			About: "How the session judges. Each one replaces those before it.",
			Rows:  rulesRows(),
		},
		"given": {
			About: "A figure that is stated, not measured here: a stroke, a skirt height, an expansion.",
			Rows:  givenRows(),
		},
		"table": {
			About: "Stock on hand, a ladder of sizes, costs or lock sizes.",
			Rows:  tableRows(),
		},
	}
}

// titleRows are the rows that name what is on the bench, in either form.
func titleRows() []schema.Row {
	return []schema.Row{
		may("title", "what the session is called", line(maxTitle)),
		may("customer", "whose engine it is", line(maxTitle)),
		may("engine", "what engine it is", line(maxTitle)),
	}
}

// layoutRows are the rows of a layout whose counts are given from least on: 1,
// or 0 where a count that is left out is the usual one.
func layoutRows(least int) []schema.Row {
	count := may
	if least > 0 {
		count = must
	}
	label := schema.Text(namePattern, 8).With(&schema.Node{Type: schema.Types{"string"}})
	labels := schema.Each(label, 0, 0).Apart().With(&schema.Node{Type: schema.Types{"array"}})
	return []schema.Row{
		must("form", "how the cylinders stand", schema.Words(plan.Inline, plan.Vee, plan.Flat)),
		must("cylinders", "how many cylinders there are: inline 1 to 8, vee an even 2 to 16, flat an even 2 to 12", schema.Between(1, 16)),
		count("mains", "how many main bearings", schema.Between(least, 17)),
		count("rod_journals", "how many rod journals, of which each carries the same number of rods", schema.Between(least, 16)),
		count("rods_per_journal", "how many rods each rod journal carries", schema.Between(least, 2)),
		may("cam_bearings", "how many cam bearings", schema.Between(0, 20)),
		may("shared", "whether two rods stand on one rod journal", nil),
		may("lead", "the bank whose rods stand in front on the crank; left when empty", schema.Words("", plan.LeftBank, plan.RightBank)),
		may("labels", "what the positions are called, front first, left bank first: a list for each of cylinders, mains, rod journals, cam bearings, lifters and banks",
			&schema.Node{
				PropertyNames:        schema.Words("cylinders", "mains", "rod journals", "cam bearings", "lifters", "banks"),
				AdditionalProperties: labels,
			}),
	}
}

// groupRows are the rows of a group of a plan with so many levels and
// directions at least.
func groupRows(least int) []schema.Row {
	level, list := "level", must
	if least == 0 {
		level, list = "plain-level", may
	}
	return []schema.Row{
		must("family", "what is measured", schema.Words(namesOf(plan.Families())...)),
		may("nominal", "the size that bare last digits are read against", nil),
		list("levels", "how deep it is read, from the head end or the front", schema.Each(nil, least, 6), level),
		list("directions", "the directions it is read in: a name such as across or vertical, or whole degrees from 0 to 179", schema.Each(nil, least, 4).Apart()),
	}
}

// levelRows are the rows that a level has in either form.
func levelRows() []schema.Row {
	return []schema.Row{
		may("name", "what the level is called on the screen", line(maxName)),
		may("depth", "how deep it lies, from the head end or the front", notBelowZero()),
		may("half", "the half of a shared rod journal that it lies in; both when empty", schema.Words("", plan.FrontHalf, plan.RearHalf, "both")),
	}
}

// limitRows are the rows of limits; by is what the definition is called, and
// ranges what its ranges are.
func limitRows(by, ranges string) []schema.Row {
	return []schema.Row{
		must("on", "the characteristic that is judged", schema.Words(limit.Characteristics()...)),
		must("of", "the family or the one feature it is judged of; a clearance is named by its hole", ofText("")),
		may(by, "by which definition it is judged; by the usual one when empty", schema.Words(append(definitions(), "")...)),
		may("new", "the limits for new work", nil, ranges),
		may("wear", "the limits for what is worn", nil, ranges),
		may("target", "what is aimed at, where the middle is not", nil),
		may("per", "the length that the limits are per, such as 1 in", aboveZero()),
		may("travel", "the travel or journal length that limits per length hold for", aboveZero()),
		may("judge", "which limits judge; when empty the session says", schema.Words("", limit.New, limit.Wear)),
		may("source", "where the limits come from", prose()),
	}
}

// rangeRows are the rows of a range in either form.
func rangeRows() []schema.Row {
	return []schema.Row{
		may("low", "what it must not be below", nil),
		may("high", "what it must not be above", nil),
	}
}

// rulesRows are the rows of the rules of a session in either form.
func rulesRows() []schema.Row {
	by := &schema.Node{AdditionalProperties: schema.Never()}
	for _, on := range limit.Characteristics() {
		by = by.Field(string(on), schema.Words(limit.Definitions(on)...))
	}
	return []schema.Row{
		may("unit", "the unit that figures are shown in, in or mm", sessionUnit("|")),
		may("definitions", "by which definition each characteristic is judged where its limits do not say", by),
		may("clearance", "by which definition clearances are judged and shown", schema.Words(append(limit.Definitions(limit.Clearance), "")...)),
		may("judge", "which limits judge where a limit does not say", schema.Words("", limit.New, limit.Wear)),
		may("decision", "whether a figure is judged as it is, or by guard bands of its uncertainty", schema.Words("", Simple, Guarded)),
		may("coverage", "the coverage factor k, 0 to 10", decimalText()),
		may("drift", "how far a zero may wander", notBelowZero()),
		may("drift_spread", "whether the drift between two zero checks is spread over what was read between them, by time, and not counted as doubt", nil),
		may("stale_warm", "by how many °C part or gauge may differ from when the gauge was zeroed before its zero is checked, 0 to 100", decimalText()),
		may("stale_hours", "after how many hours a zero is too old", schema.From(0)),
		may("blind_rate", "the share of places that are read again unseen, 0 to 1", decimalText()),
	}
}

// tableRow takes a row of a table.
func tableRow() *schema.Node {
	some := 1
	return &schema.Node{
		MinProperties: &some, PropertyNames: nameText(maxName),
		AdditionalProperties: line(maxTitle).With(&schema.Node{Type: schema.Types{"string"}}),
	}
}

// givenRows are the rows of a stated figure in either form.
func givenRows() []schema.Row {
	return []schema.Row{
		must("name", "what is stated", nameText(maxName)),
		may("of", "the family or feature it holds for", ofText("|")),
		must("value", "the figure with its unit", figureText().With(filled())),
		may("doubt", "how far it may be wrong, with its unit", figureText()),
		may("source", "where it comes from", line(maxText)),
	}
}

// tableRows are the rows of a table in either form.
func tableRows() []schema.Row {
	return []schema.Row{
		must("name", "what it is a table of", schema.Words(Shells, Ladder, Costs, Locks)),
		may("of", "the family or feature it holds for", ofText("|")),
		may("rows", "its rows, each by the names of its columns", texts(tableRow())),
		may("source", "where it comes from", line(maxText)),
	}
}
