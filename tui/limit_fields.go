package tui

import (
	"slices"
	"strings"

	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/setup"
	"borewright/tui/draw"
)

// besideEnd ends the id of the field in which a second printing is keyed.
const besideEnd = " beside"

// fieldOf returns the limit that a field of the form is of, "" for none, and
// whether it is the one for what is printed beside it.
func fieldOf(id string) (f limit.Field, beside bool) {
	name, beside := strings.CutSuffix(id, besideEnd)
	if !slices.Contains(limit.Fields(), limit.Field(name)) {
		return "", false
	}
	return limit.Field(name), beside
}

// rows are the fields of the form as its limits stand.
func (x *limitForm) rows() []row {
	out := []row{{heading: x.heading()}}
	out = append(out, x.onRows()...)
	out = append(out, x.forRows()...)
	out = append(out, x.definitionRows()...)
	out = append(out, x.lengthRows()...)
	out = append(out, x.classRows()...)
	out = append(out, x.perRows()...)
	out = append(out, x.judgeRow(), row{label: "comes from", fields: []field{wordsOf("source",
		"the book, its edition and page: whoever reads the figures later wants to look it up", mostSource, &x.now.Source).offering(nil, x.sources()...)}})
	out = append(out, row{fields: []field{{
		id: "keep", kind: buttonField, wide: 22, why: "or F2 from anywhere; verdicts change at once",
		get: func() string { return "keep the limits" }, press: x.finish,
	}}})
	return append(out, x.formulaRows()...)
}

// sources are where the session's other limits come from.
func (x *limitForm) sources() []string {
	var out []string
	for _, l := range x.desk.Session.Limits() {
		out = append(out, l.Source)
	}
	return out
}

func (x *limitForm) heading() string {
	text := capital(limitTitle(x.desk.Session, x.now))
	if t, _ := x.family().Traits(); t.Figure == "" {
		text += ", diametral"
	}
	if n := nominalOf(x.desk.Session, x.family()); !n.IsZero() {
		text += ", nominal " + n.String()
	}
	return text
}

// onRows choose what is limited, where that is open.
func (x *limitForm) onRows() []row {
	if len(x.open) < 2 {
		return nil
	}
	var names []string
	for _, on := range x.open {
		names = append(names, string(on))
	}
	return []row{{label: "on", fields: []field{choiceOf("on", "what is limited", names, slices.Index(x.open, x.now.On), string(x.now.On),
		func(i int) {
			x.now.On = x.open[i]
			x.now.By, x.class = "", ""
		})}}}
}

// forRows choose the one feature that the limits are for.
func (x *limitForm) forRows() []row {
	if len(x.features) == 0 {
		return nil
	}
	var names []string
	at := -1
	for i, f := range x.features {
		names = append(names, x.desk.Session.Name(f)+" alone")
		if f.String() == x.now.Of {
			at = i
		}
	}
	return []row{{label: "for", fields: []field{choiceOf("of", "limits of one feature go before those of its family", names, at, x.now.Of,
		func(i int) { x.now.Of = x.features[i].String() })}}}
}

// definitionRows choose by which definition the figure is computed, where there
// are several.
func (x *limitForm) definitionRows() []row {
	all := limit.Definitions(x.now.On)
	if len(all) < 2 {
		return nil
	}
	choices := []string{"as the session says, else " + string(limit.Usual(x.now.On))}
	for _, by := range all {
		choices = append(choices, string(by))
	}
	which := choiceOf("definition", "published manuals compute different figures under one name: choose the one the limits are meant for",
		choices, 1+slices.Index(all, x.now.By), string(x.now.By), func(i int) {
			if x.now.By = ""; i > 0 {
				x.now.By = all[i-1]
			}
		})
	which.wide = 0
	return []row{{label: string(x.now.On) + " is", fields: []field{which}}}
}

// lengthWide and besideWide are how many cells a limit takes, and what is
// printed beside it.
const lengthWide, besideWide = 12, 16

// lengthRows are the limits, each with room for what is printed beside it.
func (x *limitForm) lengthRows() []row {
	units := []length.Unit{length.In, length.MM}
	out := []row{
		{label: "printed in", fields: []field{choiceOf("printed", "the unit of a bare number here; a number may carry its own, and what is written keeps it",
			[]string{"in", "mm"}, slices.Index(units, x.printed), x.printed.String(), func(i int) { x.printed = units[i] })}},
		{label: draw.Fit("", labelWide+1) + draw.Fit("as printed", lengthWide+2) + "and beside it, to compare", labelWide: 76},
	}
	for _, f := range x.fields() {
		out = append(out, row{label: fieldWords[f], fields: []field{x.lengthField(f), x.besideField(f)}})
	}
	return out
}

var fieldWords = map[limit.Field]string{
	limit.NewLow: "new, at least", limit.NewHigh: "new, at most",
	limit.WearLow: "worn, at least", limit.WearHigh: "worn, at most", limit.Target: "target",
}

func (x *limitForm) lengthField(f limit.Field) field {
	out := lengthField(string(f), x.printed, func() length.Written { return x.now.At(f) }, func(w length.Written) error {
		x.put(f, w)
		return nil
	})
	out.wide = lengthWide
	out.why = "the " + string(f) + " limit on " + limitTitle(x.desk.Session, x.now) + ", as printed; a unit may follow it"
	if f == limit.Target {
		out.why = "what is aimed at, where the book says so: no margin is used there. Without one it is the middle"
	}
	return out
}

// besideField takes what is printed beside a limit. It is compared and kept
// nowhere.
func (x *limitForm) besideField(f limit.Field) field {
	other := length.MM
	if w := x.now.At(f); w.Unit == length.MM || w.IsZero() && x.printed == length.MM {
		other = length.In
	}
	return field{
		id: string(f) + besideEnd, kind: wordsField, wide: besideWide, most: 40,
		why: "what the book prints for the same limit beside it or elsewhere, such as 13.972 cm; a bare number is in " + unitWord(other) + ". It is only compared",
		get: func() string { return x.also[f] },
		set: func(text string) error {
			text = strings.TrimSpace(text)
			if _, err := length.ParseDecimal(text); err == nil {
				text += " " + other.String()
			}
			if _, err := limit.ParsePrinted(text); text != "" && err != nil {
				return err
			}
			x.also[f] = text
			return nil
		},
	}
}

// put sets a limit. What was filled in by the program and is keyed over no
// longer comes from there.
func (x *limitForm) put(f limit.Field, w length.Written) {
	at := lengthAt(&x.now, f)
	if *at == w {
		return
	}
	*at = w
	x.keyedOver()
	if x.now.Range(x.now.JudgeBy).IsZero() {
		x.now.JudgeBy = ""
	}
}

func (x *limitForm) keyedOver() {
	if setup.IsFilledIn(x.now.Source) {
		x.now.Source, x.class = keyedHere, ""
	}
}

// perRows take limits that are printed per length, and the length they hold
// for.
func (x *limitForm) perRows() []row {
	if x.now.On == limit.Size {
		return nil
	}
	take := func(at *length.Written) func(length.Written) error {
		return func(w length.Written) error {
			*at = w
			return nil
		}
	}
	get := func(at *length.Written) func() length.Written { return func() length.Written { return *at } }
	per := lengthField("per", x.printed, get(&x.now.Per), take(&x.now.Per))
	over := lengthField("travel", x.printed, get(&x.now.Travel), take(&x.now.Travel))
	per.wide, over.wide = lengthWide, besideWide
	per.why = `for limits printed "per inch of travel" or "of diameter": the length they are per, such as 1 in; else empty`
	over.why = "the travel, length or diameter that they hold for"
	if n := nominalOf(x.desk.Session, x.family()); !n.IsZero() {
		over.why += "; the nominal of " + x.family().Plural() + " is " + n.String()
	}
	r := row{label: "per, and over", fields: []field{per, over}}
	if text := inEffect(x.now); text != "" {
		r.note = "in effect " + text
	}
	return []row{r}
}

// judgeRow chooses which limits judge.
func (x *limitForm) judgeRow() row {
	judges := []string{"", limit.New, limit.Wear}
	choices := []string{"as the session says"}
	for _, by := range judges[1:] {
		text := by
		if x.now.Range(by).IsZero() {
			text += ", once there are some"
		}
		choices = append(choices, text)
	}
	choices[0] += ": by " + draw.Cut(orDash(x.now.JudgedBy(x.desk.Session.Rules().Judge), x.st), 8)
	return row{label: "judged by", fields: []field{choiceOf("judge", "which limits decide; wear limits are for parts that go back in as they are",
		choices, slices.Index(judges, x.now.JudgeBy), x.now.JudgeBy, func(i int) { x.now.JudgeBy = judges[i] })}}
}

func orDash(text string, st *Station) string {
	if text == "" {
		return st.Signs.Dash
	}
	return text
}
