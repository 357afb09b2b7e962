package engine

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
	switch f {
	case plan.Bore:
		return 3
	case plan.Piston:
		return 1
	default:
		return 2
	}
}

func usualDirections(f plan.Family) int {
	switch f {
	case plan.Piston, plan.MainBearing:
		return 1
	default:
		return 2
	}
}

func usualKind(f plan.Family) string {
	if f.Shape() == plan.Hole {
		return gauge.Comparator
	}
	return gauge.Direct
}

// proposedGauge returns the usual gauge of a kind for a family. Its scale is
// common practice, no source; it is the gauge in the hand that counts.
func proposedGauge(f plan.Family, kind string, u length.Unit) gauge.Instrument {
	if kind != gauge.Comparator && kind != gauge.Direct {
		return gauge.Instrument{}
	}
	i := gauge.Instrument{ID: string(f), Kind: kind, Contacts: 2, Unit: u}
	noun := map[plan.Shape][2]string{
		plan.Hole:  {"bore gauge", "inside micrometer"},
		plan.Shaft: {"snap gauge", "micrometer"},
	}[f.Shape()]
	if kind == gauge.Comparator {
		i.Name = noun[0]
	} else {
		i.Name = noun[1]
	}
	i.Name += " for " + f.Plural()
	scaled(&i)
	return i
}

// scaled gives an instrument the usual scale of its kind and unit.
func scaled(i *gauge.Instrument) {
	switch inch, dial := i.Unit == length.In, i.Kind == gauge.Comparator; {
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
		next, _ := find(will, func(x limit.Limits) bool { return sameLimit(x, l) })
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
