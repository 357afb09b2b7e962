package tui

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/setup"
)

// rows returns the form as the draft stands: first what measuring cannot begin
// without, then what is on the bench, the engine, and each family.
func (s *setupForm) rows() []row {
	out := s.sizeRows()
	out = append(out, s.benchRows()...)
	out = append(out, s.engineRows()...)
	out = append(out, s.measuredRows()...)
	for i := range s.draft.Families {
		if s.draft.Families[i].Measured {
			out = append(out, s.familyRows(&s.draft.Families[i])...)
		}
	}
	return out
}

// sizeRows ask for the nominal of what is measured and for the masters.
func (s *setupForm) sizeRows() []row {
	out := []row{{heading: "Sizes, diametral, in " + unitWord(s.draft.Unit)}}
	first := true
	for i := range s.draft.Families {
		f := &s.draft.Families[i]
		if !f.Measured {
			continue
		}
		if t, _ := f.Family.Traits(); t.Shape != plan.NoShape {
			out = append(out, s.nominalRow(f))
		}
		if f.NeedsMaster() {
			out = append(out, s.masterRow(f, first))
		}
		out = append(out, s.shopRows(f)...)
		first = false
	}
	return append(out, row{fields: []field{{
		id: "begin", kind: buttonField, wide: 22,
		why:   "or F2 from anywhere; whatever is here can be changed later, readings stay as they are",
		get:   func() string { return s.finishing() },
		press: s.finish,
	}}})
}

func (s *setupForm) nominalRow(f *setup.FamilyDraft) row {
	plural := f.Family.Plural()
	x := lengthField(string(f.Family)+".nominal", s.draft.Unit, func() length.Written { return f.Nominal }, func(w length.Written) error {
		if t, _ := f.Family.Traits(); w.IsZero() && t.Figure == "" {
			return errors.New("no nominal size for " + plural + " yet")
		}
		f.SetNominal(w)
		return nil
	})
	x.why = "the size " + plural + " are meant to have: last digits, slips and proposed limits are told by it"
	return row{label: plural + ", nominal", fields: []field{x}}
}

func (s *setupForm) masterRow(f *setup.FamilyDraft, first bool) row {
	x := lengthField(string(f.Family)+".master", f.Gauge.Unit, func() length.Written { return f.Setting.Size }, func(w length.Written) error {
		f.SetMaster(f.Setting.On, w)
		s.draft.Share(f.Family)
		return nil
	})
	x.why = "the master's size: the " + f.Gauge.Name + " counts from it. Key what is engraved or set, not what is hoped for"
	if s.desk != nil {
		x.why = "the master's size: putting it right here puts right every reading taken from it; a new zero is made while measuring"
	}
	r := row{label: plural(f) + ", master", fields: []field{x}}
	if f.Setting.Size.IsZero() && !first {
		r.note = "may wait until they are measured"
	}
	return r
}

func plural(f *setup.FamilyDraft) string { return f.Family.Plural() }

// unitWord is a unit in a sentence.
func unitWord(u length.Unit) string {
	if u == length.In {
		return "inches"
	}
	return "millimetres"
}

// lengthField is a field of a length in a usual unit.
func lengthField(id string, unit length.Unit, get func() length.Written, set func(length.Written) error) field {
	return field{
		id: id, kind: numberField, wide: 12, unit: unit,
		get: func() string { return showLength(get(), unit) },
		set: func(text string) error {
			w, err := readLength(text, unit)
			if err != nil {
				return err
			}
			return set(w)
		},
	}
}

// wordsOf is a field of words kept at a text.
func wordsOf(id, why string, most int, text *string) field {
	return field{
		id: id, kind: wordsField, wide: 40, most: most, why: why,
		get: func() string { return *text },
		set: func(t string) error {
			*text = t
			return nil
		},
	}
}

// choiceOf is a field of choices.
func choiceOf(id, why string, choices []string, at int, other string, pick func(int)) field {
	return field{
		id: id, kind: choiceField, wide: 40, why: why, choices: choices, at: at, pick: pick,
		get: func() string {
			if at >= 0 && at < len(choices) {
				return choices[at]
			}
			return other
		},
	}
}

// The most bytes that texts may have, as the engine has it.
const (
	mostTitle    = 200
	mostInitials = 32
	mostName     = 64
	mostSource   = 500
)

// benchRows ask what is on the bench, and whose it is.
func (s *setupForm) benchRows() []row {
	d := &s.draft
	units := []length.Unit{length.In, length.MM}
	out := []row{
		{heading: "On the bench"},
		{label: "title", fields: []field{wordsOf("title", "what the session is called in the list and on the build sheet", mostTitle, &d.Title)}},
		{label: "customer", fields: []field{wordsOf("customer", "whose engine it is; may stay empty", mostTitle, &d.Customer)}},
		{label: "engine", fields: []field{wordsOf("engine", "what engine it is, with its number if it has one; may stay empty", mostTitle, &d.Engine)}},
		{label: "initials", fields: []field{wordsOf("initials", "yours: they stand beside every reading; may stay empty", mostInitials, &d.Initials)}},
		{label: "unit", fields: []field{choiceOf("unit", "the unit figures are shown in and bare sizes are keyed in here; what is written keeps its own",
			[]string{"in", "mm"}, slices.Index(units, d.Unit), d.Unit.String(), func(i int) {
				if s.desk != nil {
					d.Unit = units[i] // the gauges are what they are
					return
				}
				d.SetUnit(units[i])
			})}},
	}
	if d.From != nil {
		out = slices.Insert(out, 4, sameEngineRow(d))
	}
	return out
}

// engineRows ask how the engine is laid out, and how it is read.
func (s *setupForm) engineRows() []row {
	d := &s.draft
	forms := []string{plan.Inline, plan.Vee, plan.Flat}
	counts := setup.CylinderCounts(d.Layout.Form)
	out := []row{
		{heading: "The engine"},
		{label: "form", fields: []field{choiceOf("layout.form", "how the cylinders stand", forms, slices.Index(forms, d.Layout.Form), d.Layout.Form,
			func(i int) { d.SetForm(forms[i]) })}},
		{label: "cylinders", fields: []field{choiceOf("layout.cylinders", "how many there are; they count from the front, left bank first",
			numbers(counts), slices.Index(counts, d.Layout.Cylinders), strconv.Itoa(d.Layout.Cylinders), func(i int) { d.SetCylinders(counts[i]) })}},
	}
	if d.Layout.Form == plan.Vee {
		shared := 0
		if d.Layout.Shared {
			shared = 1
		}
		out = append(out, row{label: "rod journals", fields: []field{choiceOf("layout.rods", "whether two rods stand on one rod journal",
			[]string{"split, one rod each", "shared, two rods each"}, shared, "", func(i int) { d.SetShared(i == 1) })}})
	}
	if d.Layout.Banks() > 1 {
		leads := []string{"", plan.RightBank}
		out = append(out, row{label: "bank in front", fields: []field{choiceOf("layout.lead", "the bank whose rods stand in front on the crank, seen from the rear looking forward",
			[]string{"left", "right"}, slices.Index(leads, d.Layout.Lead), d.Layout.Lead, func(i int) { d.SetLead(leads[i]) })}})
	}
	out = append(out, s.numberingRows()...)
	orders := []string{plan.ByLevel, plan.ByDirection}
	out = append(out, row{label: "mains", fields: []field{choiceOf("layout.mains", "how many main bearings there are, the usual number unless changed",
		numbers(span(1, 17)), d.Layout.Mains-1, strconv.Itoa(d.Layout.Mains), func(i int) { d.SetMains(i + 1) })}})
	out = append(out, s.mainLabelRows()...)
	return append(out,
		row{label: "order", fields: []field{choiceOf("order", "whether the gauge is turned at each level or goes through all levels first",
			[]string{"level by level", "direction by direction"}, max(0, slices.Index(orders, d.Order)), "", func(i int) { d.Order = orders[i] })}})
}

// span returns the whole numbers from low to high.
func span(low, high int) []int {
	var out []int
	for n := low; n <= high; n++ {
		out = append(out, n)
	}
	return out
}

func numbers(ns []int) []string {
	var out []string
	for _, n := range ns {
		out = append(out, strconv.Itoa(n))
	}
	return out
}

// measuredRows ask of every family whether it is measured.
func (s *setupForm) measuredRows() []row {
	out := []row{{heading: "What is measured, in the order it is read"}}
	for i := range s.draft.Families {
		f := &s.draft.Families[i]
		measured := 0
		if f.Measured {
			measured = 1
		}
		out = append(out, row{label: plural(f), labelWide: 30, fields: []field{choiceOf(string(f.Family)+".measured",
			"whether "+plural(f)+" are in the plan; what is, has its own rows below", []string{"no", "yes"}, measured, "",
			func(i int) { s.draft.SetMeasured(f.Family, i == 1) })}})
	}
	return out
}

// familyRows ask where a family is read, by which limits and with what.
func (s *setupForm) familyRows(f *setup.FamilyDraft) []row {
	out := []row{{heading: capital(f.Family.Plural())}}
	out = append(out, s.gridRows(f)...)
	out = append(out, s.limitRows(f)...)
	return append(out, s.gaugeRows(f)...)
}

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// gridRows ask where a feature is read.
func (s *setupForm) gridRows(f *setup.FamilyDraft) []row {
	name := string(f.Family)
	t, _ := f.Family.Traits()
	var levels, dirs []string
	for n := 1; n <= 6; n++ {
		levels = append(levels, fmt.Sprintf("%d: %s", n, s.levelNames(f, n)))
	}
	at := -1
	for n, usual := range t.Usual {
		dirs = append(dirs, fmt.Sprintf("%d: %s", n+1, dirNames(usual)))
		if slices.Equal(usual, f.Directions) {
			at = n
		}
	}
	depths := row{label: "depths, in " + unitWord(s.draft.Unit)}
	for i := range f.Levels {
		x := lengthField(fmt.Sprintf("%s.grid.depth.%d", name, i+1), s.draft.Unit,
			func() length.Written { return f.Levels[i].Depth },
			func(w length.Written) error {
				f.SetDepth(i, w)
				return nil
			})
		x.wide = 7
		x.why = "how deep the level " + f.Levels[i].Called() + " is; may stay empty, but a slope and a taper per length need it"
		depths.fields = append(depths.fields, x)
	}
	out := []row{
		{label: "levels", fields: []field{choiceOf(name+".grid.levels", "how many levels are read in each", levels, len(f.Levels)-1, "",
			func(i int) { s.draft.SetLevels(f.Family, i+1) })}},
	}
	if t.Figure != "" {
		return out
	}
	return append(out, depths,
		row{label: "directions", fields: []field{choiceOf(name+".grid.directions", "how many directions are read at each level; two cannot see an oval that lies between them",
			dirs, at, dirNames(f.Directions), func(i int) { f.SetDirections(i + 1) })}})
}

// levelNames are what so many levels would be called.
func (s *setupForm) levelNames(f *setup.FamilyDraft, n int) string {
	trial := setup.Draft{Layout: s.draft.Layout, Families: []setup.FamilyDraft{*f}}
	trial.SetLevels(f.Family, n)
	var names []string
	for _, l := range trial.Families[0].Levels {
		names = append(names, l.Called())
	}
	if len(names) > 3 {
		return names[0] + " to " + names[len(names)-1]
	}
	return strings.Join(names, ", ")
}

func dirNames(dirs []string) string {
	var names []string
	for _, d := range dirs {
		if d != "" && d[0] >= '0' && d[0] <= '9' {
			d += "°"
		}
		names = append(names, d)
	}
	return strings.Join(names, ", ")
}
