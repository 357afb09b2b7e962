package record

import (
	"borewright/engine/prep"
	"borewright/engine/schema"
)

// prepObjects are the rows of prep, studies and remarks.
func prepObjects() map[string]schema.Object {
	return map[string]schema.Object{
		"steps": {
			About: "The prep list. It replaces the one before; an empty one takes it away.",
			Rows:  []schema.Row{may("list", "the steps in the order they are shown", schema.Each(nil, 0, prep.MostSteps), "step")},
		},
		"step": {About: "One step of a prep list.", Rows: stepRows(), Rules: stepRules()},
		"done": {
			About: "A step of the prep list that was done, or a part of one.",
			Rows: []schema.Row{
				must("step", "the id of the step", nameText(maxName)),
				may("place", "where it was done", line(maxName)),
				may("count", "how many there are in all", schema.From(0)),
				may("way", "whether what was counted came out, went in, or is accounted for", schema.Words("", prep.Out, prep.In, prep.Accounted)),
				may("keyed", "the text as keyed", line(maxName)),
				may("value", "the figure with its unit", figureText()),
				may("choice", "what was chosen, or why what is accounted for stays out", line(maxName)),
				may("forced", "why it was held before it was forced", prose()),
			},
		},
		"study": {
			About: "A study of an instrument's repeatability.",
			Rows: []schema.Row{
				must("instrument", "the id of the instrument", nameText(maxName)),
				must("method", "how it is worked out", nameText(maxName)),
				must("rows", "the values", schema.Each(nil, 1, 0), "value"),
			},
		},
		"value": {
			About: "One value of a study.",
			Rows: []schema.Row{
				may("operator", "who read it", line(maxName)),
				must("part", "which part", nameText(maxName)),
				must("trial", "which trial, from 1", schema.From(1)),
				must("value", "what was read, with its unit or without", figureText().With(filled())),
			},
		},
		"note": {
			About: "A remark.",
			Rows: []schema.Row{
				may("on", "the feature or event it is on; the session when empty", line(maxName)),
				must("text", "the remark", told()),
			},
		},
		"state": {
			About: "The session is closed, opened again, put away or brought back.",
			Rows:  []schema.Row{must("state", "what becomes of it", schema.Words(Closed, Reopened, Archived, Restored))},
		},
	}
}

// stepRows are the rows of a step.
func stepRows() []schema.Row {
	return []schema.Row{
		must("id", "what the step is called among those of the list", nameText(maxName)),
		must("name", "a few words for a list", nameText(maxName)),
		may("text", "what is to be done", prose()),
		must("kind", "how it is done", schema.Words(prep.Once, prep.Counted, prep.PerPlace, prep.Value, prep.Choice)),
		may("on", "what it is about; everything when empty", schema.Words(prep.AnyPart, prep.Block, prep.Crank, prep.Loose)),
		may("count", "how many of what is counted there are; 0 when the count says so", nil),
		may("places", "where it is done", schema.Each(nameText(maxName), 0, prep.MostPlaces).Apart()),
		may("unit", "the unit of a bare figure", line(maxName)),
		may("low", "what the figure must not be below, with its unit", figureText()),
		may("high", "what the figure must not be above, with its unit", figureText()),
		may("match", "whether the figure is a number that must be its place's own", nil),
		may("choices", "what a choice may be", texts(nameText(maxName))),
		may("tally", "what is counted", line(maxName)),
		may("way", "whether it is counted out or in", line(maxText)),
		may("not_before", "the ids of the steps that come before it", nil),
		may("metal", "whether work on metal withdraws it", nil),
		may("did", "the work on metal that it is", line(maxName)),
		may("note", "what stays on the figures that are read before it is done", line(maxName)),
		may("cautions", "what can hurt", texts(nameText(maxName))),
		may("source", "where the step comes from", prose()),
	}
}

// stepRules say what each kind of step needs.
func stepRules() []*schema.Node {
	of := func(kind prep.Kind, then *schema.Node) *schema.Node {
		return schema.When(schema.Needed("kind", schema.Is(kind)), then)
	}
	counted := schema.Field("count", schema.From(0)).Field("way", schema.Words("", prep.Out, prep.In))
	counted.OneOf = []*schema.Node{
		schema.Needs("way", "tally").Field("way", filled()).Field("tally", filled()),
		schema.Field("way", schema.Empty()).Field("tally", schema.Empty()),
	}
	return []*schema.Node{
		of(prep.Counted, counted),
		of(prep.PerPlace, schema.Needed("places", schema.Each(nil, 1, 0))),
		of(prep.Choice, schema.Needed("choices", schema.Each(nil, 1, 0))),
	}
}
