package setup

import (
	"slices"

	"borewright/engine"
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// Draft is a whole session setup as a plain value: what is on the bench, how
// the engine is laid out, what is measured of it, by which limits and with
// which gauges. A screen edits it; Check says what is wrong with it, Events
// and Changes turn it into what happened. Its zero value sets nothing up.
type Draft struct {
	Title, Customer, Engine string
	// Initials are those of whoever begins or changes the session. They go
	// into the events' By.
	Initials string
	Unit     length.Unit
	Layout   plan.Layout
	// Order is the order in which the places of a feature are read, as in a
	// plan.Plan.
	Order string
	// Families has a row for every family there is; those that are measured
	// are read in this order.
	Families []FamilyDraft
	// From is the session that the draft was copied from, nil for none, and
	// SameEngine says that its engine is on the bench again.
	From       *Source
	SameEngine bool
}

// FamilyDraft is what is measured of one family: its grid and nominal, its
// limits, and the gauge it is read with, how that was zeroed, and the set that
// its readings join.
type FamilyDraft struct {
	plan.Group
	Measured bool
	// Limits are those of the family. Limits of a single feature are no part
	// of a draft, and a draft leaves them alone.
	Limits []limit.Limits
	// Gauge is none while its ID is empty.
	Gauge   gauge.Instrument
	Setting gauge.Setting
	Set     gauge.Set
}

// New returns a draft of a layout in which nothing is measured yet. Of
// what will be measured, the families named come in the order given.
func New(unit length.Unit, layout plan.Layout, families ...plan.Family) Draft {
	d := Draft{Unit: unit, Layout: layout.Filled()}
	for _, f := range familyOrder(families) {
		d.Families = append(d.Families, FamilyDraft{Group: plan.Group{Family: f}})
	}
	return d
}

// Of returns the family's row, to be read or changed, or nil when the draft
// has none.
func (d *Draft) Of(f plan.Family) *FamilyDraft {
	for i := range d.Families {
		if d.Families[i].Family == f {
			return &d.Families[i]
		}
	}
	return nil
}

// Measured returns the rows of what is measured, in the order it is read.
func (d Draft) Measured() []FamilyDraft {
	var out []FamilyDraft
	for _, f := range d.Families {
		if f.Measured {
			out = append(out, f)
		}
	}
	return out
}

// Plan returns the plan that the draft makes.
func (d Draft) Plan() plan.Plan {
	p := plan.Plan{Order: d.Order}
	for _, f := range d.Measured() {
		g := f.Group
		g.Instrument = f.Gauge.ID
		p.Families = append(p.Families, g)
	}
	return p
}

// NeedsMaster reports whether the family is read from a zero, so that the size
// of the setting master has to be known before a reading can be taken.
func (f FamilyDraft) NeedsMaster() bool {
	return f.Measured && f.Gauge.Kind == gauge.Comparator && f.Setting.On != gauge.OnFeature
}

// shares reports whether another measured family is read with the same gauge.
func (d Draft) shares(f FamilyDraft) bool {
	return slices.ContainsFunc(d.Measured(), func(x FamilyDraft) bool {
		return x.Family != f.Family && x.Gauge.ID != "" && x.Gauge.ID == f.Gauge.ID
	})
}

// ready reports whether the gauge is zeroed: its setting can be recorded.
func (f FamilyDraft) ready() bool {
	return f.Gauge.ID != "" && (!f.NeedsMaster() || !f.Setting.Size.IsZero())
}

// Limit returns the family's limits of a characteristic by a definition; ok is
// false when there are none.
func (f FamilyDraft) Limit(on limit.Characteristic, by limit.Definition) (l limit.Limits, ok bool) {
	return limit.Limits{On: on, Of: string(f.Family), By: by}.Among(f.Limits)
}

// Judge returns which limits the family says it is judged by: limit.New,
// limit.Wear, or "" where the session and the limits themselves decide.
func (f FamilyDraft) Judge() string {
	for _, by := range []string{limit.Wear, limit.New} {
		if slices.ContainsFunc(f.Limits, func(l limit.Limits) bool { return l.JudgeBy == by }) {
			return by
		}
	}
	return ""
}

// Of returns the setup of a session as it stands.
func Of(s *engine.Session) Draft {
	d := Draft{
		Title: s.Details().Title, Customer: s.Details().Customer, Engine: s.Details().Engine,
		Unit: s.Unit(), Layout: s.Layout(), Order: s.Plan().Order,
	}
	if n := len(s.Events()); n > 0 {
		d.Initials = s.Events()[n-1].By
	}
	var order []plan.Family
	for _, g := range s.Plan().Families {
		order = append(order, g.Family)
	}
	for _, f := range familyOrder(order) {
		d.Families = append(d.Families, familyDraft(s, f))
	}
	return d
}

// familyOrder returns every family: those of a plan in its order, each of the
// others before the first of the plan's that usually follows it.
func familyOrder(planned []plan.Family) []plan.Family {
	rank := map[plan.Family]int{}
	for i, t := range plan.Families() {
		rank[t.Family] = i
	}
	out := slices.Clone(planned)
	for _, t := range plan.Families() {
		if slices.Contains(out, t.Family) {
			continue
		}
		at := slices.IndexFunc(out, func(f plan.Family) bool { return rank[f] > rank[t.Family] })
		if at < 0 {
			at = len(out)
		}
		out = slices.Insert(out, at, t.Family)
	}
	return out
}

func familyDraft(s *engine.Session, f plan.Family) FamilyDraft {
	row := FamilyDraft{Group: plan.Group{Family: f}}
	for _, l := range s.Limits() {
		if l.Of == string(f) {
			row.Limits = append(row.Limits, l)
		}
	}
	g, ok := s.Plan().Group(f)
	if !ok {
		return row
	}
	row.Measured, row.Group = true, g
	row.Levels, row.Directions = slices.Clone(g.Levels), slices.Clone(g.Directions)
	if row.Gauge, ok = s.Instrument(g.Instrument); !ok {
		row.Instrument = ""
		return row
	}
	row.Setting, row.Set = newestSet(s, row.Gauge)
	return row
}

// newestSet returns the set an instrument is read in now, as Hand finds it, or
// one that it could have.
func newestSet(s *engine.Session, i gauge.Instrument) (gauge.Setting, gauge.Set) {
	setting, set := proposedSetting(i, taken(s.Setting)), proposedSet(i, taken(s.Set))
	set.Setting = setting.ID
	for _, x := range s.Sets() {
		if y, _ := s.Setting(x.Setting); y.Instrument == i.ID {
			setting, set = y, x
		}
	}
	return setting, set
}

// taken reports of an id whether it is in use, by the lookup given.
func taken[T any](lookup func(id string) (T, bool)) func(id string) bool {
	return func(id string) bool {
		_, used := lookup(id)
		return used
	}
}

// details returns the details that the draft sets of a session.
func (d Draft) details(old record.Details) record.Details {
	old.Title, old.Customer, old.Engine, old.Unit = d.Title, d.Customer, d.Engine, d.Unit
	return old
}
