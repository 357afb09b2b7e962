package tui

import (
	"slices"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// limitLabel is how many cells the label of a limit takes.
const limitLabel = 16

// limitRows are the table of a family's limits, and how they judge.
func (s *setupForm) limitRows(f *engine.FamilyDraft) []row {
	out := []row{{
		label:     "limits, in " + pad(s.draft.Unit.String(), 5) + " new, low  new, high  wear, low  wear, high  come from",
		labelWide: 76,
	}}
	for _, k := range limitKeys(f) {
		out = append(out, s.limitRow(f, k))
	}
	if len(f.Limits) == 0 {
		return out
	}
	judges := []string{"", limit.New, limit.Wear}
	out = append(out, row{label: "judged by", fields: []field{choiceOf(string(f.Family)+".judge",
		"which limits decide; wear limits are for parts that go back in as they are",
		[]string{"new where there is one, else wear", "new", "wear"}, slices.Index(judges, f.Judge()), "",
		func(i int) { f.SetJudge(judges[i]) })}})
	return append(out, s.definitionRows(f)...)
}

func pad(s string, n int) string {
	for len(s) < n {
		s += " "
	}
	return s
}

// limitKey names a row of the table.
type limitKey struct {
	on limit.Characteristic
	by limit.Definition
}

// limitKeys are the rows of the table: every limit there is, and an empty row
// for each characteristic that has none.
func limitKeys(f *engine.FamilyDraft) []limitKey {
	t, _ := f.Family.Traits()
	var out []limitKey
	for _, on := range limit.Characteristics() {
		n := len(out)
		for _, l := range f.Limits {
			if l.On == on {
				out = append(out, limitKey{on, l.By})
			}
		}
		shell := on == limit.OutOfRound && t.Judged != ""
		if len(out) == n && !shell && (on != limit.Clearance || t.Shape == plan.Hole) {
			out = append(out, limitKey{on, ""})
		}
	}
	return out
}

// limitRow is one characteristic: its four limits and where they come from.
func (s *setupForm) limitRow(f *engine.FamilyDraft, k limitKey) row {
	id := string(f.Family) + "." + string(k.on)
	if k.by != "" {
		id += "." + string(k.by)
	}
	l, have := f.Limit(k.on, k.by)
	r := row{label: string(k.on), labelWide: limitLabel}
	for _, side := range engine.Sides() {
		x := s.lengthField(id+"."+side.String(), s.draft.Unit,
			func() length.Written { return *side.Of(&l) },
			func(w length.Written) error {
				f.SetLimit(k.on, k.by, side, w)
				return nil
			})
		x.wide = 9
		x.why = limitWhy(f, k, side)
		if have {
			x.why += "; from: " + l.Source
		}
		r.fields = append(r.fields, x)
	}
	if have {
		r.fields = append(r.fields, field{
			id: id + ".source", kind: wordsField, most: mostSource,
			why: "where these limits come from, such as the maker's manual and its page: " + l.Source,
			get: func() string { return l.Source },
			set: func(text string) error {
				f.SetSource(k.on, k.by, text)
				return nil
			},
		})
	}
	return r
}

// limitWhy says what a limit limits, and by which definition.
func limitWhy(f *engine.FamilyDraft, k limitKey, side engine.Side) string {
	by := k.by
	if by == "" {
		by = limit.Usual(k.on)
	}
	end := map[engine.Side]string{
		engine.NewLow: "at least, new work", engine.NewHigh: "at most, new work",
		engine.WearLow: "at least, worn", engine.WearHigh: "at most, worn",
	}[side]
	return string(k.on) + " of " + f.Family.Plural() + " (" + string(by) + "), " + end
}

// definitionRows choose by which definition figures are computed, where a
// characteristic has limits and several definitions.
func (s *setupForm) definitionRows(f *engine.FamilyDraft) []row {
	var out []row
	for _, on := range limit.Characteristics() {
		all := limit.Definitions(on)
		var have []limit.Limits
		for _, l := range f.Limits {
			if l.On == on {
				have = append(have, l)
			}
		}
		if len(all) < 2 || len(have) != 1 {
			continue
		}
		var choices []string
		for _, by := range all {
			choices = append(choices, string(by))
		}
		out = append(out, row{label: string(on) + " is", fields: []field{choiceOf(string(f.Family)+".definition."+string(on),
			"published manuals compute different figures under one name: choose the one the limits are meant for",
			choices, slices.Index(all, have[0].Definition("")), "", func(i int) { f.SetDefinition(on, all[i]) })}})
	}
	return out
}
