package setup

import (
	"slices"

	"borewright/engine/gauge"
	"borewright/engine/plan"
)

// Fits reports whether a gauge of the shop may be offered for a family: it is of
// a kind that the family is read with, reaches its nominal where both are known,
// and is no comparator that is zeroed for another family already.
func (d Draft) Fits(family plan.Family, i gauge.Instrument) bool {
	f := d.Of(family)
	if f == nil || !slices.Contains(GaugeKinds(family), i.Kind) {
		return false
	}
	if n := f.Nominal.Length; n > 0 && (n < i.Low.Length || i.High.Length > 0 && n > i.High.Length) {
		return false
	}
	return i.Kind != gauge.Comparator || !slices.ContainsFunc(d.Measured(), func(x FamilyDraft) bool {
		return x.Family != family && x.Gauge.Name == i.Name
	})
}

// UseGauge reads a family with a gauge of the shop, copied by value. Another
// family that is read with it shares it; a master's size that was keyed stays.
func (d *Draft) UseGauge(family plan.Family, i gauge.Instrument) {
	f := d.Of(family)
	if f == nil {
		return
	}
	for _, x := range d.Families {
		if x.Family != family && x.Gauge.Name == i.Name && x.Gauge.Kind == i.Kind {
			f.Gauge, f.Setting, f.Set, f.Instrument = x.Gauge, x.Setting, x.Set, x.Gauge.ID
			return
		}
	}
	i.ID = d.freeGauge(family, i.ID)
	f.take(i)
}

// UseUsual reads a family with the usual gauge of the kind that it has.
func (f *FamilyDraft) UseUsual() { f.take(proposedGauge(f.Family, f.Gauge.Kind, f.Gauge.Unit)) }

// take takes up a gauge that is not zeroed yet.
func (f *FamilyDraft) take(i gauge.Instrument) {
	size := f.Setting.Size
	f.Gauge, f.Instrument = i, i.ID
	f.Setting, f.Set = proposedSetting(i, never), proposedSet(i, never)
	if i.Kind == gauge.Comparator {
		f.Setting.Size = size
	}
}

// freeGauge is an id for a family's gauge that no other family's has: the id
// given, or it with the first number behind it that is free.
func (d Draft) freeGauge(family plan.Family, id string) string {
	taken := func(id string) bool {
		return slices.ContainsFunc(d.Families, func(x FamilyDraft) bool { return x.Family != family && x.Gauge.ID == id })
	}
	if id != "" && !taken(id) {
		return id
	}
	return freeID(id+"-", taken)
}
