package tui

import (
	"slices"

	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/setup"
	"borewright/tui/draw"
)

// limitLabel and limitCell are how many cells the label of a limit and each of
// its values take.
const limitLabel, limitCell = 19, 9

// limitRows are the table of a family's limits, and how they judge.
func (s *setupForm) limitRows(f *setup.FamilyDraft) []row {
	head := draw.Fit("limits, "+unitWord(s.draft.Unit), limitLabel+1)
	for _, column := range []string{"new, low", "new, high", "wear, low", "wear, high"} {
		head += draw.Fit(column, limitCell+2)
	}
	out := []row{{label: head + "come from", labelWide: 76}}
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

// limitKey names a row of the table.
type limitKey struct {
	on limit.Characteristic
	by limit.Definition
}

// limitKeys are the rows of the table: every limit there is, and an empty row
// for each characteristic that has none.
func limitKeys(f *setup.FamilyDraft) []limitKey {
	var out []limitKey
	for _, on := range setup.CharacteristicsOf(f.Family) {
		n := len(out)
		for _, l := range f.Limits {
			if l.On == on {
				out = append(out, limitKey{on, l.By})
			}
		}
		if len(out) == n {
			out = append(out, limitKey{on, ""})
		}
	}
	return out
}

// limitRow is one characteristic: its four limits and where they come from.
func (s *setupForm) limitRow(f *setup.FamilyDraft, k limitKey) row {
	id := string(f.Family) + "." + string(k.on)
	if k.by != "" {
		id += "." + string(k.by)
	}
	l, have := f.Limit(k.on, k.by)
	r := row{label: string(k.on), labelWide: limitLabel}
	for _, side := range setup.Sides() {
		x := lengthField(id+"."+side.String(), s.draft.Unit,
			func() length.Written { return *side.Of(&l) },
			func(w length.Written) error {
				f.SetLimit(k.on, k.by, side, w)
				return nil
			})
		x.wide = limitCell
		x.why = limitWhy(f, k, side)
		if have {
			x.why += "; from: " + l.Source
		}
		r.fields = append(r.fields, x)
	}
	if have {
		r.fields = append(r.fields, field{
			id: id + ".source", kind: wordsField, most: mostSource,
			why: "say where these limits come from; so far: " + l.Source,
			get: func() string { return l.Source },
			set: func(text string) error {
				f.SetSource(k.on, k.by, text)
				return nil
			},
		})
	}
	return r
}

// limitWhy says what a limit limits, and by which definition where there are
// several.
func limitWhy(f *setup.FamilyDraft, k limitKey, side setup.Side) string {
	what := string(k.on) + " of " + f.Family.Plural()
	if by := (limit.Limits{On: k.on, By: k.by}).Definition(""); len(limit.Definitions(k.on)) > 1 {
		what += " (" + string(by) + ")"
	}
	return what + map[setup.Side]string{
		setup.NewLow: ", least, new", setup.NewHigh: ", most, new",
		setup.WearLow: ", least, worn", setup.WearHigh: ", most, worn",
	}[side]
}

// definitionRows choose by which definition figures are computed, where a
// characteristic has limits and several definitions.
func (s *setupForm) definitionRows(f *setup.FamilyDraft) []row {
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
