package setup

import (
	"fmt"
	"reflect"
	"slices"

	"borewright/engine"
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// OrphanError says that a change of the layout or the plan would leave
// readings without a place.
type OrphanError struct {
	// Of is the feature or place as a sentence names it, Why what is in the way.
	Of, Why string
}

// Error returns the sentence.
func (e *OrphanError) Error() string { return e.Of + " " + e.Why }

// Changes returns the events that bring a session to this setup: only what has
// changed, none when nothing has. Readings are never touched; the size of a
// master that is changed corrects its setting, so that deviations from it are
// read anew. The error is the draft's first Problem that is no doubt, or an
// *OrphanError.
func (d Draft) Changes(s *engine.Session) ([]record.Body, error) {
	if p, wrong := firstWrong(d.Check()); wrong {
		return nil, p
	}
	d.Families = slices.Clone(d.Families)
	for i := range d.Families {
		if err := d.Families[i].settle(s, d.shares(d.Families[i])); err != nil {
			return nil, err
		}
	}
	bodies := d.bench(s)
	layout, err := d.layoutChange(s)
	if err != nil {
		return nil, err
	}
	plan, err := d.planChange(s)
	if err != nil {
		return nil, err
	}
	bodies = slices.Concat(bodies, layout, plan)
	for _, f := range d.Families {
		bodies = append(bodies, f.limitChanges(s)...)
	}
	return append(bodies, d.gauges(s)...), nil
}

// bench returns the changes of the details, and of the unit of the rules.
func (d Draft) bench(s *engine.Session) []record.Body {
	var out []record.Body
	now := d.details(s.Details())
	if d.Unit == s.Unit() {
		now.Unit = s.Details().Unit
	}
	if now != s.Details() {
		out = append(out, now)
	}
	if s.Rules().Unit != length.NoUnit && s.Rules().Unit != d.Unit {
		r := s.Rules()
		r.Unit = d.Unit
		out = append(out, r)
	}
	return out
}

func (d Draft) layoutChange(s *engine.Session) ([]record.Body, error) {
	l := d.Layout.Filled()
	if reflect.DeepEqual(l, s.Layout()) {
		return nil, nil
	}
	var lost []string
	for _, p := range s.ReadPlaces() {
		if l.Has(p.Of) != nil {
			lost = append(lost, s.Name(p.Of))
		}
	}
	if len(lost) > 0 {
		return nil, &OrphanError{slices.Min(lost), "has been read or left out, so the layout has to keep it"}
	}
	return []record.Body{record.Layout{Layout: l}}, nil
}

func (d Draft) planChange(s *engine.Session) ([]record.Body, error) {
	p := d.Plan()
	if reflect.DeepEqual(p, s.Plan()) {
		return nil, nil
	}
	kept := map[plan.Place]bool{}
	for _, place := range p.All(d.Layout.Filled()) {
		kept[place] = true
	}
	for _, place := range s.Places() {
		if s.HasReadings(place) && !kept[place] {
			return nil, &OrphanError{s.PlaceName(place), "has a reading, so the plan has to keep it"}
		}
	}
	return []record.Body{record.Plan{Plan: p}}, nil
}

// limitChanges returns the family's limits that are new or changed, and takes
// back those that are gone.
func (f FamilyDraft) limitChanges(s *engine.Session) []record.Body {
	var out []record.Body
	for _, l := range s.Limits() {
		if _, kept := f.Limit(l.On, l.By); l.Of == string(f.Family) && !kept {
			out = append(out, s.TakeBack(l)...)
		}
	}
	for _, l := range f.Limits {
		old, have := l.Among(s.Limits())
		if (!have && f.Measured) || (have && old != l) {
			out = append(out, record.Limit{Limits: l})
		}
	}
	return out
}

// settle fits the row to a session: a level never gets the id that another
// depth had, a level that was read keeps its name and depth, and a gauge that
// was zeroed keeps its kind, another kind being another gauge.
func (f *FamilyDraft) settle(s *engine.Session, shared bool) error {
	f.settleGauge(s, shared)
	g, planned := s.Plan().Group(f.Family)
	if !planned || !f.Measured {
		return nil
	}
	f.Levels = slices.Clone(f.Levels)
	for i := range f.Levels {
		l := &f.Levels[i]
		old, have := g.Level(l.ID)
		switch read := readAt(s, f.Family, l.ID); {
		case have && read && !old.Depth.IsZero() && old.Depth != l.Depth:
			return &OrphanError{
				fmt.Sprintf("level %q of %s", old.Called(), f.Family.Plural()),
				fmt.Sprintf("has readings at a depth of %s, so its depth cannot become %q", old.Depth, l.Depth),
			}
		case have && read:
			l.Name = old.Name
		case levelWas(s, f.Family, *l):
			l.ID = freeID("", func(id string) bool { return levelUsed(s, f.Family, id) || hasLevel(f.Levels, id) })
		}
	}
	return nil
}

func hasLevel(levels []plan.Level, id string) bool {
	return slices.ContainsFunc(levels, func(l plan.Level) bool { return l.ID == id })
}

// readAt reports whether any feature of the family has a reading at a level.
func readAt(s *engine.Session, f plan.Family, level string) bool {
	for _, p := range s.ReadPlaces() {
		if p.Of.Family == f && p.Level == level && s.HasReadings(p) {
			return true
		}
	}
	return false
}

// levelWas reports whether a level's id was ever that of another depth.
func levelWas(s *engine.Session, f plan.Family, l plan.Level) bool {
	return slices.ContainsFunc(levelsEver(s, f), func(x plan.Level) bool {
		return x.ID == l.ID && x.Depth != l.Depth && !x.Depth.IsZero()
	})
}

// levelUsed reports whether an id was ever a level's.
func levelUsed(s *engine.Session, f plan.Family, id string) bool {
	return hasLevel(levelsEver(s, f), id)
}

// levelsEver returns the levels of every plan the session ever had.
func levelsEver(s *engine.Session, f plan.Family) []plan.Level {
	var out []plan.Level
	for _, e := range s.Events() {
		if b, is := e.Body.(record.Plan); is {
			g, _ := b.Group(f)
			out = append(out, g.Levels...)
		}
	}
	return out
}

// settleGauge gives a gauge that changed its kind since it was zeroed new ids,
// and ids of its own to a setting and a set that the session has for another.
// A shared gauge that was read from its setting and now stands at a master far
// from that one has been zeroed anew.
func (f *FamilyDraft) settleGauge(s *engine.Session, shared bool) {
	old, known := s.Instrument(f.Gauge.ID)
	if f.Gauge.ID == "" {
		return
	}
	if known && old.Kind != f.Gauge.Kind {
		if _, zeroed := zeroed(s, old); zeroed {
			f.Gauge.ID = freeID(f.Gauge.ID+"-", taken(s.Instrument))
			f.Instrument = f.Gauge.ID
		}
	}
	x, have := s.Setting(f.Setting.ID)
	anew := shared && apart(x.Size.Length, f.Setting.Size.Length) > masterReach && readFrom(s, x.ID)
	if have && (x.Instrument != f.Gauge.ID || anew) {
		f.Setting.ID = freeID(f.Gauge.ID+"-", taken(s.Setting))
	}
	if x, have := s.Set(f.Set.ID); have && x.Setting != f.Setting.ID {
		f.Set.ID = freeID(f.Gauge.ID+"-", taken(s.Set))
	}
	f.Setting.Instrument, f.Set.Setting = f.Gauge.ID, f.Setting.ID
}

// readFrom reports whether there are readings of a setting.
func readFrom(s *engine.Session, setting string) bool {
	return slices.ContainsFunc(s.Events(), func(e record.Sealed) bool {
		r, is := e.Body.(record.Reading)
		set, ok := s.Set(r.Set)
		return is && ok && set.Setting == setting && s.Live(e.N)
	})
}

// zeroed returns the newest set of an instrument; ok is false when it has none.
func zeroed(s *engine.Session, i gauge.Instrument) (set gauge.Set, ok bool) {
	for _, x := range s.Sets() {
		if y, _ := s.Setting(x.Setting); y.Instrument == i.ID {
			set, ok = x, true
		}
	}
	return set, ok
}
