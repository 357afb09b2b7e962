package record

import (
	"borewright/engine/schema"
)

// readingObjects are the rows of what happens at the bench.
func readingObjects() map[string]schema.Object {
	return map[string]schema.Object{
		"reading": {
			About: "What was keyed at a place, and what it was taken to mean: a size, or a deviation from the zero of its set.",
			Rows: append(placeRows(),
				may("set", "the id of the set it was taken in", line(maxName)),
				must("keyed", "the text as keyed", nameText(maxName)),
				must("via", "how it came in", schema.Words(ViaKeypad, ViaCable, ViaFile)),
				may("size", "the size that was read", nil),
				may("dev", "the deviation from zero that was read, + larger", nil),
				must("as", "whether it starts the place's list, adds to it, or replaces it", schema.Words(First, Repeat, Replace)),
				may("blind", "whether the readings before it were hidden", nil),
				may("despite", "why it was held before it was kept", prose()),
			),
			Rules: append(append(placeRules(), sizeRules(isOf, "size")...), &schema.Node{OneOf: []*schema.Node{
				schema.Needed("size", filled()).Field("dev", schema.Empty()),
				schema.Needs("dev", "set").Field("dev", filled()).Field("set", filled()).Field("size", schema.Empty()),
			}}),
		},
		"left-out": {
			About: "A place that will not be read.",
			Rows:  append(placeRows(), may("why", "why not", prose())),
			Rules: placeRules(),
		},
		"place": {About: "Where one reading is taken.", Rows: placeRows(), Rules: placeRules()},
		"moved": {
			About: "Readings that belong to other places than they were taken at.",
			Rows: []schema.Row{
				must("readings", "the events of the readings", schema.Each(schema.From(1), 1, 0).Apart()),
				must("places", "where each of them belongs, in the same order", schema.Each(nil, 1, 0), "place"),
			},
		},
		"withdrawn": {
			About: "An event that is taken back; a withdrawal that is withdrawn brings it back.",
			Rows: []schema.Row{
				must("event", "the number of the event", schema.From(1)),
				may("why", "why", prose()),
			},
		},
		"work": {
			About: "Something done to features between readings. It closes a stage of what it changes.",
			Rows: append(actionRows(),
				may("changes", "the features whose earlier readings become as found", schema.Each(nil, 0, 0).Apart()),
				may("metal", "whether metal was taken off or worked", nil),
				may("after", "the number of the event that it really followed, when it was keyed late", schema.From(0)),
				may("note", "a remark", prose()),
			),
		},
		"fitted": {
			About: "Where a loose part sits.",
			Rows: []schema.Row{
				must("part", "the loose part, by its own number", nil),
				must("to", "the position it sits at", nil),
			},
		},
		"intended": {
			About: "What is meant to be done. It replaces what was meant before.",
			Rows:  []schema.Row{may("actions", "what is meant", nil, "action")},
		},
		"action": {About: "One thing that is meant to be done.", Rows: actionRows()},
	}
}

// placeRows are the rows of a place.
func placeRows() []schema.Row {
	return []schema.Row{
		must("of", "the feature", nil),
		must("level", "the id of the level", nameText(16)),
		must("dir", "the direction, by its name or in whole degrees from 0 to 179; of a point it is once", nil),
	}
}

// actionRows are the rows of what is done, or meant to be.
func actionRows() []schema.Row {
	return []schema.Row{
		must("did", "what is done, such as honed", nameText(maxName)),
		must("to", "what it is done to", schema.Each(nil, 1, 0).Apart()),
		may("amount", "how much, with its unit", figureText()),
	}
}
