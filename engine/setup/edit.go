package setup

import (
	"slices"

	"borewright/engine/length"
	"borewright/engine/plan"
)

// SetUnit chooses the unit of the session. What is written in another unit
// keeps it; gauges as they were proposed are proposed again. In a session that
// has begun the gauges are what they are: there set Unit itself.
func (d *Draft) SetUnit(u length.Unit) {
	old := d.Unit
	d.Unit = u
	for i := range d.Families {
		f := &d.Families[i]
		if f.Gauge == proposedGauge(f.Family, f.Gauge.Kind, old) {
			f.Gauge = proposedGauge(f.Family, f.Gauge.Kind, u)
		}
	}
}

// SetMeasured says whether a family is measured. One that has no grid or gauge
// yet gets the usual ones, and the limits its nominal proposes.
func (d *Draft) SetMeasured(family plan.Family, yes bool) {
	f := d.Of(family)
	if f == nil {
		return
	}
	f.Measured = yes
	if !yes {
		return
	}
	if len(f.Levels) == 0 {
		f.Levels = plan.Grid(family, usualLevels(family))
	}
	if len(f.Directions) == 0 {
		t, _ := family.Traits()
		f.Directions = t.Usual[usualDirections(family)-1]
	}
	if f.Gauge.ID == "" {
		f.SetGauge(usualKind(family), d.Unit)
	}
	if family == plan.RodJournal {
		d.halve()
	}
}

// SetNominal chooses the nominal size of a family. Limits that stand as they
// were proposed for the nominal before are proposed again; what was keyed
// stays.
func (f *FamilyDraft) SetNominal(nominal length.Written) {
	f.repropose(f.Nominal, nominal)
	f.Nominal = nominal
}

// SetLevels chooses how many levels a family has, 1 to 6. Levels come and go
// before the last one, so that the ends stay the ends; a level keeps its id.
// Names stay too, unless all are the usual ones.
func (d *Draft) SetLevels(family plan.Family, n int) {
	if f := d.Of(family); f != nil {
		f.setLevels(n)
	}
	if family == plan.RodJournal {
		d.halve()
	}
}

func (f *FamilyDraft) setLevels(n int) {
	usual := usualNames(f.Family, f.Levels)
	levels := slices.Clone(f.Levels)
	for len(levels) > max(1, n) {
		at := max(1, len(levels)-2)
		levels = slices.Delete(levels, at, at+1)
	}
	for len(levels) < n {
		at := max(0, len(levels)-1)
		if len(levels) == 1 {
			at = 1
		}
		levels = slices.Insert(levels, at, plan.Level{ID: freeLevel(levels)})
	}
	for i, want := range plan.Grid(f.Family, len(levels)) {
		if usual || levels[i].Name == "" {
			levels[i].Name = want.Name
		}
	}
	f.Levels = levels
}

// usualNames reports whether levels are called as a grid of so many is.
func usualNames(family plan.Family, levels []plan.Level) bool {
	for i, want := range plan.Grid(family, len(levels)) {
		if levels[i].Name != want.Name {
			return false
		}
	}
	return true
}

// freeLevel returns the first letter that is no level's id.
func freeLevel(levels []plan.Level) string {
	return freeID("", func(id string) bool {
		return slices.ContainsFunc(levels, func(l plan.Level) bool { return l.ID == id })
	})
}

// SetDepth sets how deep level i is, or leaves it open when depth is not
// written.
func (f *FamilyDraft) SetDepth(i int, depth length.Written) {
	levels := slices.Clone(f.Levels)
	levels[i].Depth = depth
	f.Levels = levels
}

// SetDirections chooses the usual directions for so many, 1 to 4.
func (f *FamilyDraft) SetDirections(n int) {
	t, _ := f.Family.Traits()
	f.Directions = t.Usual[n-1]
}

// SetGauge chooses the gauge that the family is read with by its kind,
// gauge.Comparator, gauge.Direct or gauge.Indicator, and the unit it is marked in. Another kind
// is another gauge, the usual one; a master's size that was keyed stays. Another
// unit gives the same gauge the usual scale in that unit.
func (f *FamilyDraft) SetGauge(kind string, unit length.Unit) {
	if f.Gauge.ID != "" && f.Gauge.Kind == kind {
		if f.Gauge.Unit != unit {
			f.Gauge.Unit = unit
			scaled(&f.Gauge)
		}
		return
	}
	f.take(proposedGauge(f.Family, kind, unit))
}

// Share gives what was changed of a family's gauge, its setting and its set to
// the other families that are read with the same gauge.
func (d *Draft) Share(family plan.Family) {
	from := d.Of(family)
	if from == nil || from.Gauge.ID == "" {
		return
	}
	for i := range d.Families {
		f := &d.Families[i]
		if f.Gauge.ID == from.Gauge.ID {
			f.Gauge, f.Setting, f.Set = from.Gauge, from.Setting, from.Set
		}
	}
}

// SetMaster sets the size of the master that the family's gauge is zeroed on,
// and what kind of master it is.
func (f *FamilyDraft) SetMaster(on string, size length.Written) {
	f.Setting.On, f.Setting.Size = on, size
	f.Setting.Feature = ""
}

func never(string) bool { return false }
