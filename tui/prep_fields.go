package tui

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"borewright/engine/prep"
)

// own reports whether the step is one of the hand's own making.
func (x *prepForm) own() bool { return strings.HasPrefix(x.now.ID, "own-") }

// ownKinds are the kinds that a step of one's own may be.
var ownKinds = []prep.Kind{prep.Once, prep.Counted, prep.PerPlace, prep.Value, prep.Choice}

// rows are the fields of the step as it stands.
func (x *prepForm) rows() []row {
	out := []row{
		{heading: "Step " + strconv.Itoa(x.number())},
		{label: "name", fields: []field{wordsOf("name", "a few words for the list", 26, &x.now.Name)}},
		{label: "what to do", fields: []field{wordsOf("text", "a sentence, shown while the step is in hand", 120, &x.now.Text)}},
	}
	if x.own() {
		out = append(out, x.ownRows()...)
	}
	switch x.now.Kind {
	case prep.Counted:
		out = append(out, row{label: "how many there are", fields: []field{x.countField()}, note: "empty: what is counted says so"})
	case prep.Value:
		out = append(out, x.valueRows()...)
	case prep.Choice:
		out = append(out, row{label: "choices", fields: []field{textsOf("choices", "what may be chosen, with commas between", &x.now.Choices)}})
	default: // ticked, without a number
	}
	if x.own() && x.now.Kind != prep.Once && x.now.Kind != prep.Counted {
		out = append(out, row{label: "places", fields: []field{textsOf("places", "where it is done, with commas between", &x.now.Places)}})
	}
	return append(out, row{fields: []field{{
		id: "keep", kind: buttonField, wide: 18, why: "or F2 from anywhere",
		get: func() string { return "keep the step" }, press: x.finish,
	}}})
}

// prepUnits are the units that a figure of a step is usually in.
var prepUnits = []string{"lb ft", "N m", "in", "mm", "min", "psi", "bar"}

// number is where the step stands, or will.
func (x *prepForm) number() int {
	l := x.desk.Session.Prep().List()
	if _, at, ok := l.Find(x.now.ID); ok {
		return at + 1
	}
	return len(l) + 1
}

// ownRows choose the kind of a step, what it comes after, and whether work on
// metal withdraws it.
func (x *prepForm) ownRows() []row {
	var kinds []string
	for _, k := range ownKinds {
		kinds = append(kinds, string(k))
	}
	names, ids := []string{"nothing"}, []string{""}
	for _, s := range x.desk.Session.Prep().List() {
		if s.ID != x.now.ID {
			names, ids = append(names, s.Name), append(ids, s.ID)
		}
	}
	after := ""
	if len(x.now.NotBefore) > 0 {
		after = x.now.NotBefore[0]
	}
	at := max(0, slices.Index(ids, after))
	metal := 0
	if x.now.Metal {
		metal = 1
	}
	yes := []string{"no", "yes"}
	return []row{
		{label: "how it is done", fields: []field{choiceOf("kind", "once, by counting, at each place, by a figure, or by a choice", kinds,
			slices.Index(ownKinds, x.now.Kind), string(x.now.Kind), func(i int) { x.now.Kind = ownKinds[i] })}},
		{label: "comes after", fields: []field{choiceOf("after", "ticked before that it is held", names, at, names[at], func(i int) {
			x.now.NotBefore = nil
			if i > 0 {
				x.now.NotBefore = []string{ids[i]}
			}
		})}},
		{label: "metal work withdraws it", fields: []field{choiceOf("metal", "as it does the wash", yes, metal, yes[metal], func(i int) { x.now.Metal = i == 1 })}},
	}
}

func (x *prepForm) countField() field {
	return field{
		id: "count", kind: numberField, wide: 8, why: "how many of them there are in all",
		get: func() string {
			if x.now.Count == 0 {
				return ""
			}
			return strconv.Itoa(x.now.Count)
		},
		set: func(text string) error {
			n, err := strconv.Atoi(text)
			if text != "" && (err != nil || n < 0 || n > 999) {
				return fmt.Errorf("%s is no count: a whole number from 0 to 999", text)
			}
			x.now.Count = n
			return nil
		},
	}
}

// valueRows are the unit of a figure and its limits.
func (x *prepForm) valueRows() []row {
	var out []row
	if x.now.Match {
		return nil
	}
	if x.own() {
		out = append(out, row{label: "unit", fields: []field{wordsOf("unit", "what the figure is in", 16, &x.now.Unit).offering(prepUnits)}})
	}
	return append(out,
		row{label: "lowest", fields: []field{x.limitField("low", &x.now.Low)}, note: x.now.Unit},
		row{label: "highest", fields: []field{x.limitField("high", &x.now.High)}, note: x.now.Unit})
}

func (x *prepForm) limitField(id string, to *string) field {
	return field{
		id: id, kind: numberField, wide: 12, why: "the part maker's figure; empty for none",
		get: func() string { return strings.TrimSpace(strings.TrimSuffix(*to, x.now.Unit)) },
		set: func(text string) error {
			if text == "" {
				*to = ""
				return nil
			}
			t, err := prep.Step{Kind: prep.Value, Unit: x.now.Unit}.Read("", text)
			if err != nil {
				return err
			}
			*to = t.Value
			return nil
		},
	}
}

// textsOf is a field of several texts with commas between them.
func textsOf(id, why string, to *[]string) field {
	return field{
		id: id, kind: wordsField, why: why, most: 200,
		get: func() string { return strings.Join(*to, ", ") },
		set: func(text string) error {
			*to = nil
			for _, t := range strings.Split(text, ",") {
				if t = strings.TrimSpace(t); t != "" {
					*to = append(*to, t)
				}
			}
			return nil
		},
	}
}
