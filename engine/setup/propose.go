package setup

import (
	"slices"
	"strconv"

	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// usualLevels and usualDirections are how many of each a family is read at
// where nothing else is said; usualKind is the gauge it is read with. Common
// practice, no source.
func usualLevels(f plan.Family) int {
	t, _ := f.Traits()
	switch {
	case f == plan.Bore:
		return 3
	case f == plan.Piston || t.Figure != "":
		return 1
	default:
		return 2
	}
}

func usualDirections(f plan.Family) int {
	if t, _ := f.Traits(); f == plan.Piston || t.Judged != "" || t.Figure != "" {
		return 1
	}
	return 2
}

func usualKind(f plan.Family) string {
	switch t, _ := f.Traits(); {
	case t.Figure != "" && t.Shape == plan.NoShape:
		return gauge.Indicator
	case t.Shape == plan.Hole:
		return gauge.Comparator
	default:
		return gauge.Direct
	}
}

// proposedGauge returns the usual gauge of a kind for a family. Its scale is
// common practice, no source; it is the gauge in the hand that counts.
func proposedGauge(f plan.Family, kind string, u length.Unit) gauge.Instrument {
	hole := f.Shape() == plan.Hole
	i := gauge.Instrument{ID: string(f), Kind: kind, Contacts: 2, Unit: u}
	switch {
	case kind == gauge.Indicator:
		i.Name, i.Contacts = "indicator or feeler", 0
	case kind == gauge.Comparator && hole:
		i.Name = "bore gauge"
	case kind == gauge.Comparator:
		i.Name = "snap gauge"
	case kind == gauge.Direct && hole:
		i.Name = "inside micrometer"
	case kind == gauge.Direct:
		i.Name = "micrometer"
	default:
		return gauge.Instrument{}
	}
	i.Name += " for " + f.Plural()
	scaled(&i)
	return i
}

// scaled gives an instrument the usual scale of its kind and unit.
func scaled(i *gauge.Instrument) {
	switch inch, dial := i.Unit == length.In, i.Kind == gauge.Comparator; {
	case i.Kind == gauge.Indicator && inch:
		i.Graduation, i.Step, i.Turn = inches(5), inches(5), length.Written{}
	case i.Kind == gauge.Indicator:
		i.Graduation, i.Step, i.Turn = millimetres(10), millimetres(10), length.Written{}
	case inch && dial:
		i.Graduation, i.Step, i.Turn = inches(1), length.Written{Length: length.Inch / 20_000, Unit: length.In, Places: 5}, inches(100)
	case inch:
		i.Graduation, i.Step, i.Turn = inches(1), inches(1), inches(250)
	case dial:
		i.Graduation, i.Step, i.Turn = millimetres(1), length.Written{Length: length.Micrometre / 2, Unit: length.MM, Places: 4}, millimetres(200)
	default:
		i.Graduation, i.Step, i.Turn = millimetres(1), millimetres(1), millimetres(500)
	}
}

// inches writes ten-thousandths of an inch, millimetres thousandths of a
// millimetre: the usual last decimal of either.
func inches(n int64) length.Written {
	return length.Written{Length: length.Length(n) * length.Inch / 10_000, Unit: length.In, Places: 4}
}

func millimetres(n int64) length.Written {
	return length.Written{Length: length.Length(n) * length.Micrometre, Unit: length.MM, Places: 3}
}

// proposedSetting returns a setting for an instrument: a comparator's on a
// ring whose size is not known yet, any other's on its own scale.
func proposedSetting(i gauge.Instrument, taken func(string) bool) gauge.Setting {
	x := gauge.Setting{ID: freeID(i.ID+"-", taken), Instrument: i.ID, On: gauge.OnScale}
	if i.Kind == gauge.Comparator {
		x.On = gauge.OnRing
	}
	return x
}

// proposedSet returns a set for the setting that proposedSetting proposes.
func proposedSet(i gauge.Instrument, taken func(string) bool) gauge.Set {
	return gauge.Set{ID: freeID(i.ID+"-", taken), Setting: freeID(i.ID+"-", never)}
}

// freeID returns the first id of its kind that is not taken: the letters from
// a where there is no stem, else the stem and numbers from 1.
func freeID(stem string, taken func(string) bool) string {
	for n := 1; ; n++ {
		id := stem + strconv.Itoa(n)
		if stem == "" && n <= 26 {
			id = string(rune('a' + n - 1))
		}
		if !taken(id) {
			return id
		}
	}
}

// repropose brings limits that stand as proposed for one nominal to another.
func (f *FamilyDraft) repropose(old, nominal length.Written) {
	was, will := proposedLimits(f.Family, old), proposedLimits(f.Family, nominal)
	rows := slices.Clone(f.Limits)
	for i, l := range rows {
		plain := l
		plain.JudgeBy = ""
		if !slices.Contains(was, plain) {
			continue
		}
		next, _ := l.Among(will)
		next.JudgeBy = l.JudgeBy
		rows[i] = judgeable(next)
	}
	rows = slices.DeleteFunc(rows, func(l limit.Limits) bool { return l.On == "" })
	if old.IsZero() {
		for _, l := range will {
			if !slices.ContainsFunc(rows, func(x limit.Limits) bool { return x.On == l.On }) {
				rows = append(rows, l)
			}
		}
	}
	if len(rows) == 0 {
		rows = nil
	}
	f.Limits = rows
}
