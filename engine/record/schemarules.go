package record

import (
	"fmt"
	"strings"

	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/schema"
)

// alike groups what has the same key, in the order it comes.
func alike[T any](all []T, key func(T) string) [][]T {
	at := map[string]int{}
	var out [][]T
	for _, x := range all {
		i, seen := at[key(x)]
		if !seen {
			i = len(out)
			at[key(x)], out = i, append(out, nil)
		}
		out[i] = append(out[i], x)
	}
	return out
}

// sizeRules hold the length in a field to what can be a size of its family: see
// plan.Family.CheckSize.
func sizeRules(is func([]plan.Traits) *schema.Node, field string) []*schema.Node {
	zero, below := length.Written{Unit: length.MM}, length.Written{Length: -1, Unit: length.MM}
	var out []*schema.Node
	for _, of := range alike(plan.Families(), func(t plan.Traits) string {
		return fmt.Sprint(t.Family.CheckSize(zero) == nil, t.Family.CheckSize(below) == nil)
	}) {
		switch f := of[0].Family; {
		case f.CheckSize(zero) != nil:
			out = append(out, schema.When(is(of), schema.Field(field, aboveZero())))
		case f.CheckSize(below) != nil:
			out = append(out, schema.When(is(of), schema.Field(field, notBelowZero())))
		}
	}
	return out
}

// byFamily makes a rule for all families whose directions have the same
// pattern: an object that is of one of them is as then says of the pattern.
func byFamily(is func([]plan.Traits) *schema.Node, pattern func(plan.Traits) string, then func(string) *schema.Node) []*schema.Node {
	var out []*schema.Node
	for _, of := range alike(plan.Families(), pattern) {
		out = append(out, schema.When(is(of), then(pattern(of[0]))))
	}
	return out
}

// namesOf returns the names of families.
func namesOf(of []plan.Traits) []plan.Family {
	var names []plan.Family
	for _, t := range of {
		names = append(names, t.Family)
	}
	return names
}

// isFamily says that the field "family" is one of the families, and isOf that
// the field "of" is a feature of one of them.
func isFamily(of []plan.Traits) *schema.Node {
	return schema.Needed("family", schema.Words(namesOf(of)...))
}

func isOf(of []plan.Traits) *schema.Node {
	var names []string
	for _, f := range namesOf(of) {
		names = append(names, string(f))
	}
	return schema.Needed("of", &schema.Node{Pattern: "^(?:" + strings.Join(names, "|") + ")/"})
}

// placeRules hold the direction of a place to those of its feature's family,
// groupRules the directions of a plan, and rowRules those of a plain row.
func placeRules() []*schema.Node {
	return byFamily(isOf, plan.Traits.DirectionPattern, func(p string) *schema.Node {
		return schema.Field("dir", schema.Text(p, 0))
	})
}

func groupRules() []*schema.Node {
	return byFamily(isFamily, plan.Traits.DirectionPattern, func(p string) *schema.Node {
		return schema.Field("directions", texts(schema.Text(p, 0)))
	})
}

func rowRules() []*schema.Node {
	return byFamily(isOf, plan.Traits.WrittenPattern, func(p string) *schema.Node {
		return &schema.Node{PropertyNames: &schema.Node{AnyOf: []*schema.Node{schema.Words("of", "level", "stage"), schema.Text(p, 0)}}}
	})
}

// definitions returns the definitions of all characteristics, each once.
func definitions() []limit.Definition {
	var out []limit.Definition
	for _, of := range alike(limit.Characteristics(), definitionsKey) {
		out = append(out, limit.Definitions(of[0])...)
	}
	var once []limit.Definition
	for _, same := range alike(out, func(d limit.Definition) string { return string(d) }) {
		once = append(once, same[0])
	}
	return once
}

// definitionsKey tells characteristics with other definitions apart.
func definitionsKey(on limit.Characteristic) string {
	var key strings.Builder
	for _, d := range limit.Definitions(on) {
		key.WriteString(string(d) + "\n")
	}
	return key.String()
}

// limitRules hold the definition in the field called by to those of the
// characteristic, and say that there is a limit at all.
func limitRules(by string) []*schema.Node {
	var out []*schema.Node
	for _, on := range alike(limit.Characteristics(), definitionsKey) {
		of := append(limit.Definitions(on[0]), "")
		out = append(out, schema.When(schema.Needed("on", schema.Words(on...)), schema.Field(by, schema.Words(of...))))
	}
	some := &schema.Node{AnyOf: []*schema.Node{schema.Needed("low", filled()), schema.Needed("high", filled())}}
	return append(out,
		&schema.Node{AnyOf: []*schema.Node{schema.Needed(limit.New, some), schema.Needed(limit.Wear, some)}},
		schema.When(schema.Needed("per", filled()), schema.Needed("travel", filled())),
		schema.When(schema.Needed("travel", filled()), schema.Needed("per", filled())),
	)
}

// formRules say how many cylinders and banks each form has.
func formRules() []*schema.Node {
	even := 2
	form := func(form string, low, high int) *schema.Node {
		then := schema.Between(low, high)
		if form != plan.Inline {
			then.MultipleOf = &even
		}
		return schema.When(schema.Needed("form", schema.Is(form)), schema.Field("cylinders", then))
	}
	inline := form(plan.Inline, 1, 8)
	inline.Then = inline.Then.Field("lead", schema.Words("", plan.LeftBank))
	return []*schema.Node{inline, form(plan.Vee, 2, 16), form(plan.Flat, 2, 12)}
}

// sharedRule says how many rods a rod journal carries when it is shared, and
// when it is not.
func sharedRule(shared, single *schema.Node) *schema.Node {
	is := schema.Needed("shared", &schema.Node{Const: true})
	rule := schema.When(is, schema.Field("rods_per_journal", shared))
	rule.Else = schema.Field("rods_per_journal", single)
	return rule
}
