package tui

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/setup"
	"borewright/tui/draw"
)

// classRows take a tolerance class in the stead of a low and a high limit.
func (x *limitForm) classRows() []row {
	if x.now.On != limit.Size || x.family().Shape() == plan.NoShape {
		return nil
	}
	return []row{{label: "or a tolerance class", fields: []field{{
		id: "class", kind: wordsField, wide: lengthWide, most: 20,
		why: "a class of ISO 286 with its nominal size, such as " + classExample[x.family().Shape()] + ": it fills in the new limits. Capitals are holes",
		get: func() string { return x.class },
		set: x.byClass,
	}}}}
}

var classExample = map[plan.Shape]string{plan.Hole: "60 H6", plan.Shaft: "57 h5"}

func (x *limitForm) byClass(text string) error {
	if text = strings.TrimSpace(text); text == "" {
		x.class = ""
		return nil
	}
	r, source, err := setup.ByClass(text, x.family(), nominalOf(x.desk.Session, x.family()))
	if err != nil {
		return err
	}
	x.now.New, x.class = r, text
	if x.now.Source == "" || x.now.Source == keyedHere || setup.IsFilledIn(x.now.Source) {
		x.now.Source = source
	}
	x.printed = length.MM
	return nil
}

// formulaRows are the rules of thumb, each a button that fills the limits in,
// with where it comes from below it.
func (x *limitForm) formulaRows() []row {
	all := setup.Formulas(x.family(), x.now.On)
	if len(all) == 0 {
		return nil
	}
	out := []row{{heading: "Rules of thumb: the maker's data govern"}}
	for _, f := range all {
		out = append(out, row{labelWide: 1, fields: []field{{
			id: "formula " + f.Source, kind: buttonField, why: "fills the limits in. From: " + f.Source,
			get: func() string { return f.Text(x.printed) },
			press: func() tea.Cmd {
				x.fill(f)
				return nil
			},
		}}})
		for _, line := range draw.Wrap(f.Source, sourceWide) {
			out = append(out, row{label: "    " + line, labelWide: sourceWide + 4})
		}
	}
	return out
}

// sourceWide is how many cells the source of a rule of thumb takes.
const sourceWide = 72

// fill fills the limits in by a formula.
func (x *limitForm) fill(f setup.Formula) {
	nominal := nominalOf(x.desk.Session, f.From)
	l := f.Limits(nominal)
	if l == (limit.Limits{}) {
		x.refuse("there is no nominal size of " + f.From.Plural() + " to make limits of")
		return
	}
	l.Of, l.By = x.now.Of, x.now.By
	x.now, x.class = l, ""
	x.form.rebuild()
	x.st.Say(draw.Plain, "filled in; "+l.Source)
}
