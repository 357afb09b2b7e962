package record

import (
	"borewright/engine/schema"
)

// plainObjects are the rows of the plain form. What it has in common with
// events is said of both in one place.
func plainObjects() map[string]schema.Object {
	return map[string]schema.Object{
		"plain": {
			About: "The plain form of a session file, written by hand. Everything but the version may be left out.",
			Rows: append(titleRows(),
				must("borewright", "the version of the file's form", &schema.Node{Const: FileVersion}),
				may("unit", "the unit of numbers that have none of their own", nil),
				may("layout", "the layout; without one it is an inline one just large enough for the readings", nil, "plain-layout"),
				may("plan", "what is measured; without one it is what the readings hold", nil, "plain-group"),
				may("rules", "how the session judges", nil, "plain-rules"),
				may("limits", "the limits", nil, "plain-limits"),
				may("given", "figures that are stated, not measured here", nil, "plain-given"),
				may("tables", "stock on hand, ladders, costs and locks", nil, "plain-table"),
				may("parts", "where loose parts sit, each at its own number when it is not said", nil, "plain-part"),
				may("readings", "the readings, a row for each feature", nil, "plain-row"),
				may("work", "work done after the readings as found and before the others", nil, "plain-work"),
				may("stage", "where the session stands; final closes it", schema.Words("", AsFound, AfterWork, Final)),
			),
			Rules: []*schema.Node{
				schema.When(schema.Needed("stage", schema.Is(AsFound)), schema.Field("work", atMost(0))),
				schema.When(schema.Needed("stage", schema.Is(AfterWork)), schema.Needed("work", schema.Each(nil, 1, 0))),
			},
		},
		"plain-layout": {
			About: "How many of everything the engine has; counts that are left out are the usual ones.",
			Rows:  layoutRows(0),
			Rules: append(formRules(), sharedRule(schema.Numbers(0, 2), schema.Numbers(0, 1))),
		},
		"plain-group": {
			About: "What is measured of one family; without levels or directions it gets the usual ones.",
			Rows:  groupRows(0),
			Rules: append(groupRules(), sizeRules(isFamily, "nominal")...),
		},
		"plain-level": {
			About: "How deep in a feature a reading is taken.",
			Rows:  append(levelRows(), may("id", "what the level is called; a, b, c in their order when empty", schema.Text("|"+namePattern, 16))),
		},
		"plain-limits": {
			About: "The limits of one characteristic of a family or of one feature.",
			Rows:  limitRows("by", "plain-range"),
			Rules: limitRules("by"),
		},
		"plain-range": {About: "A low limit, a high limit or both.", Rows: rangeRows()},
		"plain-part": {
			About: "Where a loose part sits.",
			Rows: []schema.Row{
				must("part", "the loose part, by its own number", nil),
				must("at", "the position it sits at", nil),
			},
		},
		"plain-rules": {About: "How the session judges.", Rows: rulesRows()},
		"plain-given": {About: "A figure that is stated: a stroke, a hone target, an expansion.", Rows: givenRows()},
		"plain-table": {About: "Stock on hand, a ladder of sizes, costs or locks.", Rows: tableRows()},
		"plain-row": {
			About: "What was read on one feature, by direction: any field but of, level and stage is a direction, by its name or in degrees from 0 to 360.",
			Rows: []schema.Row{
				must("of", "the feature", nil),
				may("level", "the one level that the row holds, by its id or its number from 1; all of them when it is missing", schema.In("level-number")),
				may("stage", "when it was read; after work when the file lists work and the row does not say", schema.Words("", AsFound, AfterWork)),
			},
			Rules: rowRules(),
		},
		"plain-work": {
			About: "Something done to features. It changes what it was done to, if it does not say otherwise.",
			Rows: append(actionRows()[:2],
				may("amount", "how much", schema.In("amount")),
				may("changes", "the features whose earlier readings become as found", schema.Each(nil, 0, 0).Apart()),
				may("metal", "whether metal was taken off or worked", nil),
				may("note", "a remark", prose()),
			),
		},
	}
}

// atMost takes lists of at most so many items.
func atMost(n int) *schema.Node { return &schema.Node{MaxItems: &n} }
