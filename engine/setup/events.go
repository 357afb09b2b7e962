package setup

import (
	"slices"

	"borewright/engine"
	"borewright/engine/record"
)

// Events returns the events that begin a session with this setup, in order:
// details, layout, plan, limits, what a copied session has besides,
// instruments, settings and sets. After them the first reading can be keyed at
// once. A gauge whose master is not known yet gets no setting. The error is the
// draft's first Problem that is no doubt.
func (d Draft) Events(uid string) ([]record.Body, error) {
	if p, wrong := firstWrong(d.Check()); wrong {
		return nil, p
	}
	bodies := []record.Body{
		d.copied(d.details(record.Details{UID: uid})),
		record.Layout{Layout: d.Layout.Filled()},
		record.Plan{Plan: d.Plan()},
	}
	for _, f := range d.Measured() {
		for _, l := range f.Limits {
			bodies = append(bodies, record.Limit{Limits: l})
		}
	}
	return slices.Concat(bodies, d.carried(), d.gauges(&engine.Session{})), nil
}

// gauges returns the events for the gauges that are new or changed:
// instruments first, then settings, then sets. A gauge that several families
// share comes once.
func (d Draft) gauges(have *engine.Session) []record.Body {
	var instruments, settings, sets []record.Body
	for _, f := range d.Measured() {
		if f.Gauge.ID == "" {
			continue
		}
		if old, ok := have.Instrument(f.Gauge.ID); !ok || old != f.Gauge {
			instruments = add(instruments, record.Instrument{Instrument: f.Gauge})
		}
		if !f.ready() {
			continue
		}
		if old, ok := have.Setting(f.Setting.ID); !ok || old != f.Setting {
			settings = add(settings, record.Setting{Setting: f.Setting})
		}
		if old, ok := have.Set(f.Set.ID); !ok || old != f.Set {
			sets = add(sets, record.Set{Set: f.Set})
		}
	}
	return slices.Concat(instruments, settings, sets)
}

// add adds a body unless it is there already.
func add[B interface {
	comparable
	record.Body
}](list []record.Body, b B) []record.Body {
	if slices.ContainsFunc(list, func(x record.Body) bool { return x == record.Body(b) }) {
		return list
	}
	return append(list, b)
}
