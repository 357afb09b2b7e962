package setup

import (
	"slices"

	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// CharacteristicsOf returns what can be limited of a family, in the order a
// list shows it: the one figure that is read, or what makes a diameter. Shells
// are eccentric by design, so their out-of-round has no limit, and nothing runs
// in a housing.
func CharacteristicsOf(f plan.Family) []limit.Characteristic {
	t, _ := f.Traits()
	if t.Figure != "" {
		return []limit.Characteristic{limit.Characteristic(t.Figure)}
	}
	out := []limit.Characteristic{limit.Size}
	if t.Judged == "" {
		out = append(out, limit.OutOfRound)
	}
	out = append(out, limit.Taper, limit.OverallSpread)
	if t.Shape == plan.Hole && f != plan.MainHousing && f != plan.RodHousing {
		out = append(out, limit.Clearance)
	}
	return out
}

// GaugeKinds returns the kinds of gauge that a family is usually read with.
func GaugeKinds(f plan.Family) []string {
	if t, _ := f.Traits(); t.Figure != "" {
		return []string{gauge.Indicator, gauge.Direct}
	}
	return []string{gauge.Comparator, gauge.Direct}
}

// Side is one of the four limits that a characteristic may have.
type Side uint8

// The sides.
const (
	NewLow Side = iota
	NewHigh
	WearLow
	WearHigh
)

var sideNames = [...]string{NewLow: "new.low", NewHigh: "new.high", WearLow: "wear.low", WearHigh: "wear.high"}

// Sides returns the four, in the order a table shows them.
func Sides() []Side { return []Side{NewLow, NewHigh, WearLow, WearHigh} }

// String returns the name of the side as fields are named, such as "new.low".
func (s Side) String() string { return sideNames[s] }

func (s Side) words() string {
	return [...]string{NewLow: "low new", NewHigh: "high new", WearLow: "low wear", WearHigh: "high wear"}[s]
}

// Of returns the limit of that side, to be read or changed.
func (s Side) Of(l *limit.Limits) *length.Written {
	switch s {
	case NewLow:
		return &l.New.Low
	case NewHigh:
		return &l.New.High
	case WearLow:
		return &l.Wear.Low
	default:
		return &l.Wear.High
	}
}

// keyedSource is where a limit comes from that was keyed over a proposed one.
const keyedSource = "keyed at setup"

// SetLimit sets one limit of a characteristic, or takes it away when w is not
// written. Limits that are keyed over proposed ones no longer name the
// proposal's source. A characteristic without any limit left has no row.
func (f *FamilyDraft) SetLimit(on limit.Characteristic, by limit.Definition, side Side, w length.Written) {
	l, have := f.Limit(on, by)
	if *side.Of(&l) == w {
		return
	}
	if !have {
		l = limit.Limits{On: on, Of: string(f.Family), By: by, Source: keyedSource}
		f.Limits = append(slices.Clone(f.Limits), l)
	}
	*side.Of(&l) = w
	if proposedSources[l.Source] {
		l.Source = keyedSource
	}
	if f.Judge() != "" {
		l.JudgeBy = f.Judge()
	}
	f.put(l)
}

// SetSource says where the limits of a characteristic come from.
func (f *FamilyDraft) SetSource(on limit.Characteristic, by limit.Definition, source string) {
	if l, ok := f.Limit(on, by); ok {
		l.Source = source
		f.put(l)
	}
}

// SetDefinition chooses the definition by which a characteristic's figure is
// computed, where it has limits by one definition only.
func (f *FamilyDraft) SetDefinition(on limit.Characteristic, by limit.Definition) {
	if by == limit.Usual(on) {
		by = ""
	}
	rows := slices.Clone(f.Limits)
	for i := range rows {
		if rows[i].On == on {
			rows[i].By = by
			f.Limits = rows
			return
		}
	}
}

// SetJudge chooses the limits that the family is judged by: limit.New or
// limit.Wear, or "" to leave it to the session. A characteristic that has none
// of the chosen kind is judged by what it has.
func (f *FamilyDraft) SetJudge(by string) {
	rows := slices.Clone(f.Limits)
	for i := range rows {
		rows[i].JudgeBy = by
		rows[i] = judgeable(rows[i])
	}
	f.Limits = rows
}

// judgeable drops a JudgeBy that the limits have no range for.
func judgeable(l limit.Limits) limit.Limits {
	if l.Range(l.JudgeBy).IsZero() {
		l.JudgeBy = ""
	}
	return l
}

// put replaces the limits of the same name, or takes the row out when nothing
// is limited any more.
func (f *FamilyDraft) put(l limit.Limits) {
	rows := slices.Clone(f.Limits)
	i := slices.IndexFunc(rows, l.Same)
	if l.New.IsZero() && l.Wear.IsZero() {
		rows = slices.Delete(rows, i, i+1)
	} else {
		rows[i] = judgeable(l)
	}
	if len(rows) == 0 {
		rows = nil
	}
	f.Limits = rows
}
