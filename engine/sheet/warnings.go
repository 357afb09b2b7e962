package sheet

import (
	"strings"

	"borewright/engine/form"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// warnings are what is to be known of figures before they are believed.
func warnings(views []view) Section {
	v := views[0]
	var all told
	for _, g := range v.s.Plan().Families {
		all.tell(g.Family.Plural(), v.sees(g))
	}
	for _, m := range v.a.Features {
		name := v.s.Name(m.Of)
		if len(m.Notes) > 0 {
			all.tell(name, "read while "+strings.Join(m.Notes, ", "))
		}
		all.tell(name, v.s.MixedConditions(m.Of))
	}
	for _, p := range v.s.Places() {
		name := p.Of.Family.Plural()
		for _, text := range append(v.s.WarmNotes(p), v.s.DriftNote(p)) {
			all.tell(name, text)
		}
	}
	for _, p := range v.s.MeasureAgain() {
		all.tell(v.s.PlaceName(p), "to be measured again, for the gauge's zero could not be believed")
	}
	return Section{Heading: "What to know of these figures", Notes: all.lines()}
}

// sees says what the out-of-round of a family can see, "" where nothing of it is
// measured, or it is read in one direction and no limit judges it.
func (v view) sees(g plan.Group) string {
	if t, _ := g.Family.Traits(); t.Figure != "" {
		return ""
	}
	for _, m := range v.a.Features {
		if m.Of.Family != g.Family || m.Read == 0 {
			continue
		}
		_, judged := limit.Find(v.s.Limits(), limit.OutOfRound, m.Of)
		if len(g.Directions) > 1 || judged {
			return form.Sees(m.Grid.Angles, m.Grid.TwoContact)
		}
	}
	return ""
}

// told are sentences with what each is said of, in the order of the first.
type told struct {
	texts []string
	of    map[string][]string
}

func (t *told) tell(of, text string) {
	if text == "" {
		return
	}
	if t.of == nil {
		t.of = map[string][]string{}
	}
	names := t.of[text]
	if names == nil {
		t.texts = append(t.texts, text)
	}
	if len(names) == 0 || names[len(names)-1] != of {
		t.of[text] = append(names, of)
	}
}

func (t *told) lines() []string {
	var out []string
	for _, text := range t.texts {
		out = append(out, upper(strings.Join(t.of[text], ", "))+": "+strings.TrimSuffix(text, ".")+".")
	}
	return out
}
