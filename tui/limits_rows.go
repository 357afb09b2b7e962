package tui

import (
	"cmp"
	"slices"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// limitRow is one line of the limits: limits that are given, or what nothing
// limits yet of a planned family.
type limitRow struct {
	family plan.Family
	limits limit.Limits
	doubts []limit.Doubt
	// open are the characteristics of the family that may be given limits, in
	// the row that stands for them.
	open []limit.Characteristic
}

// given reports whether the row is limits, and not what may be given some.
func (r limitRow) given() bool { return len(r.open) == 0 }

// of returns the one feature that the limits are for, or none.
func (r limitRow) of() plan.Feature {
	f, err := plan.ParseFeature(r.limits.Of)
	if err != nil {
		return plan.Feature{}
	}
	return f
}

// limitRows returns every limit of a session: by family in the order of the
// plan, then by characteristic, the family's before those of single features.
// A planned family ends in what nothing limits yet.
func limitRows(s *engine.Session) []limitRow {
	doubts := limit.Doubts(copied(s, s.Limits(), nil))
	var out []limitRow
	for _, f := range limitedFamilies(s) {
		var open []limit.Characteristic
		for _, on := range characteristicsOf(s, f) {
			rows := rowsOf(s, f, on, doubts)
			out = append(out, rows...)
			if len(rows) == 0 || !rows[0].of().IsZero() {
				open = append(open, on)
			}
		}
		if _, planned := s.Plan().Group(f); planned && len(open) > 0 {
			out = append(out, limitRow{family: f, open: open})
		}
	}
	return out
}

// rowsOf returns the limits on one characteristic of a family.
func rowsOf(s *engine.Session, f plan.Family, on limit.Characteristic, doubts []limit.Doubt) []limitRow {
	var rows []limitRow
	for i, l := range s.Limits() {
		if l.On == on && familyOf(l) == f {
			rows = append(rows, limitRow{family: f, limits: l, doubts: doubtsOf(doubts, i)})
		}
	}
	slices.SortStableFunc(rows, func(a, b limitRow) int {
		return cmp.Or(cmp.Compare(a.of().At, b.of().At), cmp.Compare(a.of().Part, b.of().Part))
	})
	return rows
}

// limitedFamilies are those of the plan, then others that have limits.
func limitedFamilies(s *engine.Session) []plan.Family {
	var out []plan.Family
	for _, g := range s.Plan().Families {
		out = append(out, g.Family)
	}
	for _, l := range s.Limits() {
		if f := familyOf(l); !slices.Contains(out, f) {
			out = append(out, f)
		}
	}
	return out
}

// characteristicsOf are what can be judged of a family, and what else has
// limits.
func characteristicsOf(s *engine.Session, f plan.Family) []limit.Characteristic {
	out := engine.Characteristics(f)
	for _, l := range s.Limits() {
		if familyOf(l) == f && !slices.Contains(out, l.On) {
			out = append(out, l.On)
		}
	}
	return out
}

// familyOf returns the family that limits are for, or are for a feature of.
func familyOf(l limit.Limits) plan.Family {
	f, _ := plan.FamilyOf(l.Of)
	return f
}

// featuresOf returns every feature of a family that the layout has.
func featuresOf(s *engine.Session, f plan.Family) []plan.Feature {
	t, ok := f.Traits()
	if !ok {
		return nil
	}
	parts := t.Parts
	if len(parts) == 0 {
		parts = []string{""}
	}
	var out []plan.Feature
	for at := range t.Count(s.Layout()) {
		for _, part := range parts {
			out = append(out, plan.Feature{Family: f, At: at + 1, Part: part})
		}
	}
	return out
}

// nominalOf returns the nominal size of a family in a session, zero for none.
func nominalOf(s *engine.Session, f plan.Family) length.Written {
	g, _ := s.Plan().Group(f)
	return g.Nominal
}

// copied returns limits as the cross-check takes them; also is what is printed
// beside those of the last row.
func copied(s *engine.Session, all []limit.Limits, also map[limit.Field]string) []limit.Copied {
	var out []limit.Copied
	for _, l := range all {
		out = append(out, limit.Copied{Limits: l, Nominal: nominalOf(s, familyOf(l))})
	}
	if n := len(out); n > 0 {
		out[n-1].Also = also
	}
	return out
}

// doubtsOf returns the doubts of one row.
func doubtsOf(all []limit.Doubt, row int) []limit.Doubt {
	var out []limit.Doubt
	for _, d := range all {
		if d.Row == row {
			out = append(out, d)
		}
	}
	return out
}

// limitUnit returns the unit that limits are written in, that of the first
// length there is, or another for none.
func limitUnit(l limit.Limits, other length.Unit) length.Unit {
	for _, f := range limit.Fields() {
		if w := l.At(f); !w.IsZero() {
			return w.Unit
		}
	}
	return other
}
