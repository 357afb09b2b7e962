package engine

import (
	"reflect"

	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/prep"
	"borewright/engine/schema"
)

// AssessmentSchema is the identity that the schema of an assessment states.
const AssessmentSchema = "urn:borewright:assessment:1"

// ReportSchema returns the JSON Schema, draft 2020-12, of a Report as JSON. It
// is made of Report itself.
func ReportSchema() []byte {
	m := schema.Maker{Objects: map[string]schema.Object{
		"assessment": assessmentObject(), "finding": findingObject(), "feature": featureObject(),
		"figures": {About: "The figures of one stage of a feature, by every definition.", Rows: figureRows()},
		"level":   levelObject(), "clearance": clearanceObject(),
	}}
	for name, o := range smallObjects() {
		m.Objects[name] = o
	}
	top := m.Object("assessment", reflect.TypeFor[Report]()).With(&schema.Node{
		ID: AssessmentSchema, Title: "borewright assessment",
		Description: "What borewright assess --json prints. Every length is diametral, with its unit, and empty where it was not measured. " +
			"It advises, it does not certify: the part maker's data, local codes and a qualified person govern.",
	})
	top.Defs = m.Defs()
	return schema.Document(*top)
}

// says and tells are rows of fields that are always and not always written; of
// names the definition of the objects in it.
func says(name, about string, as *schema.Node, of ...string) schema.Row {
	row := tells(name, about, as, of...)
	row.Must = true
	return row
}

func tells(name, about string, as *schema.Node, of ...string) schema.Row {
	row := schema.Row{Name: name, About: about, As: as}
	if len(of) > 0 {
		row.Of = of[0]
	}
	return row
}

// figureText takes a figure in the session's unit, or nothing; filledText a text
// that is not empty.
func figureText() *schema.Node {
	return schema.Text(`|-?[0-9]+\.[0-9]+ (?:`+length.In.String()+`|`+length.MM.String()+`)`, 0)
}
func filledText() *schema.Node { return schema.Filled() }

// limitText takes a limit in the unit it was written in.
func limitText() *schema.Node {
	return schema.Text(`-?[0-9]+(?:\.[0-9]+)? (?:in|mm|µm|µin)`, 0)
}

func featureText() *schema.Node { return schema.Text(plan.FeaturePattern(), 0) }

// verdictText takes the words of a verdict.
func verdictText() *schema.Node {
	var words []string
	for v := limit.NotMeasured; v <= limit.NoLimits; v++ {
		words = append(words, v.String())
	}
	return schema.Words(words...)
}

// definitionText takes the definitions of some characteristics, each once.
func definitionText(of ...limit.Characteristic) *schema.Node {
	n, seen := &schema.Node{}, map[limit.Definition]bool{}
	for _, on := range of {
		for _, d := range limit.Definitions(on) {
			if !seen[d] {
				seen[d] = true
				n.Enum = append(n.Enum, string(d))
			}
		}
	}
	return n
}

func assessmentObject() schema.Object {
	return schema.Object{
		About: "What the readings of a session say.",
		Rows: []schema.Row{
			says("borewright", "the version of this form", &schema.Node{Const: 1}),
			says("digest", "which events were assessed", nil, "digest"),
			says("title", "what the session is called", nil),
			says("unit", "the unit that figures are in", schema.Words(length.In.String(), length.MM.String())),
			says("places", "how many places there are to read", nil, "places"),
			tells("prep", "where the prep list stands; missing without one", nil, "prep"),
			says("findings", "everything that was judged, worst first", nil, "finding"),
			says("cylinders", "the cylinders, worst first", nil, "rank"),
			says("mains", "the mains and the thrust, worst first", nil, "rank"),
			says("features", "the figures of every feature of the plan", nil, "feature"),
			says("clearances", "the clearances of all pairs", nil, "clearance"),
			tells("intended", "what was decided, and what came of it; missing when nothing was", nil, "intention"),
		},
	}
}

func findingObject() schema.Object {
	return schema.Object{
		About: "One characteristic of one feature as judged.",
		Rows: []schema.Row{
			says("of", "the feature, by position; of a clearance its hole", featureText()),
			tells("with", "the shaft of a clearance", featureText()),
			says("on", "the characteristic", schema.Words(limit.Characteristics()...)),
			tells("by", "by which definition it was judged", definitionText(limit.Characteristics()...)),
			says("value", "what was judged", figureText()),
			tells("as_read", "the figure as it was read, where what is judged is what it comes to elsewhere: a ring gap at the smallest place of its travel", figureText()),
			tells("bound", "whether it is a bound, made from different levels", nil),
			tells("level", "the id of the level where it is worst", filledText()),
			tells("direction", "the direction in which it is worst", filledText()),
			says("verdict", "whether it keeps to its limits", verdictText()),
			tells("suspect", "whether it rests on a gauge whose zero cannot be believed", nil),
			tells("margin", "the margin used: 0 at the target, 1 on a limit; missing when there is nothing to rank by", nil),
			tells("judged", "which limits judged", schema.Words(limit.New, limit.Wear)),
			tells("low", "the low limit that judged", limitText()),
			tells("high", "the high limit that judged", limitText()),
			tells("notes", "what stays on the figure", schema.Each(filledText(), 1, 0)),
			says("text", "the finding as a sentence", filledText()),
			tells("remedy", "what to do about it", filledText()),
		},
	}
}

func featureObject() schema.Object {
	return schema.Object{
		About: "The figures of one feature.",
		Rows: append(figureRows(),
			says("of", "the feature, by position", featureText()),
			says("name", "the feature, by its label", filledText()),
			says("stage", "the stage that the figures are of", schema.Words("as found", "after work", "final")),
			says("planned", "how many places are to be read", schema.From(1)),
			tells("left_out", "how many of them are left out", schema.From(1)),
			tells("notes", "what stays on its figures", schema.Each(filledText(), 1, 0)),
			tells("as_found", "its figures before any work", nil, "figures"),
		),
	}
}

// figureRows are the rows of the figures of one stage.
func figureRows() []schema.Row {
	return []schema.Row{
		says("read", "how many places were read", schema.From(0)),
		says("smallest", "the smallest reading", figureText()),
		says("largest", "the largest reading", figureText()),
		says("mean", "the mean of all readings", figureText()),
		says("out_of_round", "the largest less the smallest over the directions, at the level where that is most", figureText()),
		says("taper_end_to_end", "the first level less the last in the direction where that is most, + larger at the head end or front", figureText()),
		says("taper_spread", "the largest less the smallest over the levels, in the direction where that is most", figureText()),
		says("overall_spread", "the largest less the smallest of all readings", figureText()),
		tells("shape", "the profile, and which end is wide", filledText()),
		tells("eccentricity", "by how much a shell is larger at the parting line", figureText()),
		says("levels", "the figures at each level", nil, "level"),
	}
}

func levelObject() schema.Object {
	return schema.Object{
		About: "The figures at one level.",
		Rows: []schema.Row{
			says("level", "what the level is called", filledText()),
			says("smallest", "the smallest reading", figureText()),
			says("largest", "the largest reading", figureText()),
			says("mean", "the mean of the readings", figureText()),
			says("out_of_round", "the largest less the smallest over the directions", figureText()),
			tells("across_less_along", "the reading across less the one along", figureText()),
		},
	}
}

func clearanceObject() schema.Object {
	return schema.Object{
		About: "The clearance of a hole and the shaft that runs in it.",
		Rows: []schema.Row{
			says("hole", "the hole, by position", featureText()),
			says("shaft", "the shaft, by position", featureText()),
			says("by", "by which definition it is judged", definitionText(limit.Clearance)),
			says("judged", "the clearance by that definition", figureText()),
			says("tightest", "the smallest hole less the largest shaft", figureText()),
			says("mean", "the mean hole less the mean shaft", figureText()),
			says("loosest", "the largest hole less the smallest shaft", figureText()),
			tells("bound", "whether these are bounds, made from different levels", nil),
			tells("from_parts", "whether it is housing less shell walls less journal", nil),
			tells("difference", "the assembled clearance less that from parts, of their means", figureText()),
		},
	}
}

// smallObjects are what the others are made of.
func smallObjects() map[string]schema.Object {
	return map[string]schema.Object{
		"digest": {
			About: "What proves which events were assessed: the number of the last one, and its hash.",
			Rows: []schema.Row{
				says("n", "how many events there are", schema.From(1)),
				says("sha256", "the SHA-256 of the last event's stored bytes, in base64url without padding", schema.Text(`[A-Za-z0-9_\-]{43}`, 0)),
			},
		},
		"places": {
			About: "How far the readings have come.",
			Rows: []schema.Row{
				says("settled", "how many places were read or left out", schema.From(0)),
				says("planned", "how many the plan has", schema.From(0)),
			},
		},
		"rank": {
			About: "One member of a summary line.",
			Rows: []schema.Row{
				says("label", "what it is called", filledText()),
				says("verdict", "the verdict of its worst finding", verdictText()),
				tells("worst", "its worst finding as a sentence", filledText()),
			},
		},
		"intention": {
			About: "Something that was decided, and what came of it.",
			Rows: []schema.Row{
				says("n", "the event that says so", schema.From(1)),
				says("text", "what was decided", filledText()),
				says("done", "whether it was done", nil),
				tells("predicted", "the size or clearance that it makes", figureText()),
				tells("found", "the size or clearance that was found after it", figureText()),
			},
		},
		"prep": {
			About: "Where the prep list stands.",
			Rows: []schema.Row{
				says("ready", "whether nothing keeps the engine from being ready", nil),
				says("steps", "how many steps there are", schema.From(0)),
				says("done", "how many of them are done", schema.From(0)),
				says("findings", "what is to be said of it", nil, "prep-finding"),
				says("tallies", "what was counted out and what came back", nil, "tally"),
				tells("oil", "the oil path as decided", filledText()),
			},
		},
		"prep-finding": {
			About: "One thing to be said of the prep.",
			Rows: []schema.Row{
				says("kind", "what it is about", schema.Words(prep.NotBack, prep.Withdrawn, prep.Outside, prep.OilPathOf, prep.TickedEarly, prep.Open, prep.Forced)),
				tells("step", "the id of the step", filledText()),
				says("blocks", "whether the engine is not ready while it stands", nil),
				says("text", "the finding as a sentence", filledText()),
			},
		},
		"tally": {
			About: "What was counted out and what came back.",
			Rows: []schema.Row{
				says("name", "what is counted", filledText()),
				says("out", "how many came out", schema.From(0)),
				says("in", "how many went back in", schema.From(0)),
				says("accounted", "how many stay out for a reason", schema.From(0)),
				says("text", "the tally as a sentence", filledText()),
			},
		},
	}
}
