// Package recordtest makes sessions of any length for tests and benchmarks: a
// vee eight of which everything usual is read, with gauges whose doubt is known,
// so that every figure has its budget. All of it is invented.
//
// Only tests import it.
package recordtest

import (
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// Places is how many places the plan of Setup has.
const Places = 423

// Whole is how many readings a full session has: every place once, and two of
// three places again.
const Whole = 700

// The gauges: a comparator for the bores and three that are read in full.
const (
	dial   = "dial"
	micro  = "micro"
	feeler = "feeler"
	inside = "inside"
)

// Setup returns what a session of this uid begins with: details, layout, gauges
// with their settings and sets, the plan and the limits.
func Setup(uid string) []record.Body {
	bodies := []record.Body{
		record.Details{UID: uid, Title: "Vee eight " + uid, Unit: length.MM},
		record.Layout{Layout: plan.Default(plan.Vee, 8, true)},
	}
	bodies = append(bodies, gauges()...)
	bodies = append(bodies, record.Plan{Plan: plan.Plan{Families: groups()}})
	return append(bodies, limits()...)
}

func gauges() []record.Body {
	direct := func(id string, low, high string) gauge.Instrument {
		return gauge.Instrument{
			ID: id, Name: id, Kind: gauge.Direct, Contacts: 2, Unit: length.MM,
			Graduation: mm("0.001"), Low: mm(low), High: mm(high), S: mm("0.0008"), DF: 20,
		}
	}
	var out []record.Body
	for _, i := range []gauge.Instrument{
		{ID: dial, Name: dial, Kind: gauge.Comparator, Contacts: 2, Unit: length.MM, Graduation: mm("0.002"), Step: mm("0.001"), S: mm("0.0010"), DF: 20},
		direct(micro, "25", "100"), direct(inside, "25", "100"), direct(feeler, "0", "1"),
	} {
		x := gauge.Setting{ID: "s-" + i.ID, Instrument: i.ID, On: gauge.OnScale, Doubt: mm("0.001")}
		if i.Kind == gauge.Comparator {
			x.On, x.Size = gauge.OnRing, mm("100.000")
		}
		out = append(out, record.Instrument{Instrument: i}, record.Setting{Setting: x},
			record.Set{Set: gauge.Set{ID: "t-" + i.ID, Setting: x.ID}})
	}
	return out
}

// groups are 423 places: 160 of bores, 32 of pistons, 30 and 60 of the mains, 48
// and 64 of the rods, 24 ring gaps, 4 side clearances and the end play.
func groups() []plan.Group {
	group := func(f plan.Family, nominal, with string, levels, dirs int) plan.Group {
		t, _ := f.Traits()
		g := plan.Group{Family: f, Levels: plan.Grid(f, levels), Directions: t.Usual[dirs-1], Instrument: with}
		if nominal != "" {
			g.Nominal = mm(nominal)
		}
		return g
	}
	rods := group(plan.RodJournal, "54.000", micro, 4, 4)
	for i := range rods.Levels {
		rods.Levels[i].Half = [4]string{"front", "front", "rear", "rear"}[i]
	}
	bores := group(plan.Bore, "100.000", dial, 5, 4)
	for i := range bores.Levels {
		bores.Levels[i].Depth = length.Written{Length: length.Length(10+30*i) * length.Millimetre, Unit: length.MM}
	}
	return []plan.Group{
		bores, group(plan.Piston, "99.950", micro, 2, 2),
		group(plan.MainBearing, "64.050", inside, 2, 3), group(plan.MainJournal, "64.000", micro, 3, 4),
		group(plan.RodBearing, "54.050", inside, 2, 3), rods,
		group(plan.RingGap, "", feeler, 1, 1), group(plan.RodSide, "", feeler, 1, 1), group(plan.EndPlay, "", feeler, 1, 1),
	}
}

func limits() []record.Body {
	var out []record.Body
	for _, x := range []struct {
		on              limit.Characteristic
		of              plan.Family
		low, high, wear string
	}{
		{limit.Size, plan.Bore, "100.000", "100.030", "100.150"},
		{limit.OutOfRound, plan.Bore, "", "0.010", "0.050"},
		{limit.Taper, plan.Bore, "", "0.010", "0.050"},
		{limit.Clearance, plan.Bore, "0.030", "0.080", "0.150"},
		{limit.Size, plan.MainJournal, "63.980", "64.010", ""},
		{limit.OutOfRound, plan.MainJournal, "", "0.010", ""},
		{limit.Taper, plan.MainJournal, "", "0.010", ""},
		{limit.Clearance, plan.MainBearing, "0.030", "0.070", "0.100"},
		{limit.Step, plan.MainBearing, "", "0.020", ""},
		{limit.Size, plan.RodJournal, "53.980", "54.010", ""},
		{limit.OutOfRound, plan.RodJournal, "", "0.010", ""},
		{limit.Taper, plan.RodJournal, "", "0.010", ""},
		{limit.Clearance, plan.RodBearing, "0.030", "0.070", "0.100"},
		{limit.EndGap, plan.RingGap, "0.300", "0.550", ""},
		{limit.SideClearance, plan.RodSide, "0.200", "0.500", ""},
		{limit.EndPlay, plan.EndPlay, "0.080", "0.250", ""},
	} {
		l := limit.Limits{On: x.on, Of: string(x.of), New: limit.Range{High: mm(x.high)}, Source: "invented"}
		if x.low != "" {
			l.New.Low = mm(x.low)
		}
		if x.wear != "" {
			l.Wear.High = mm(x.wear)
		}
		out = append(out, record.Limit{Limits: l})
	}
	return out
}

// mm reads millimetres.
func mm(number string) length.Written {
	w, err := length.Parse(number, length.MM)
	if err != nil {
		panic(err)
	}
	return w
}
