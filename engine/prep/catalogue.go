package prep

import (
	"strconv"

	"borewright/engine/length"
	"borewright/engine/plan"
)

// The ids of the steps that the program knows.
const (
	OilLifters   = "oil-lifters"
	OilMeant     = "oil-meant"
	CapsOut      = "caps-out"
	StudsOut     = "studs-out"
	DowelsOut    = "dowels-out"
	CoreOut      = "core-out"
	PlugsOut     = "plugs-out"
	CamsOut      = "cams-out"
	Degrease     = "degrease"
	Inspect      = "inspect"
	Machining    = "machining"
	DeburrBores  = "deburr-bores"
	DeburrRest   = "deburr-rest"
	Brush        = "brush"
	Wash         = "wash"
	Dry          = "dry"
	Oil          = "oil"
	CamIn        = "cam-in"
	CamSeat      = "cam-seat"
	CamFeed      = "cam-feed"
	CoreSeat     = "core-seat"
	CoreIn       = "core-in"
	PlugsIn      = "plugs-in"
	OilFitted    = "oil-fitted"
	OilGalleries = "oil-galleries"
	DowelsIn     = "dowels-in"
	StudsIn      = "studs-in"
	CapsIn       = "caps-in"
	LastWipe     = "last-wipe"

	CrankPlugsOut  = "crank-plugs-out"
	CrankMachining = "crank-machining"
	CrankHoles     = "crank-holes"
	CrankBrush     = "crank-brush"
	CrankWash      = "crank-wash"
	CrankDry       = "crank-dry"
	CrankPlugsIn   = "crank-plugs-in"
	CrankOil       = "crank-oil"

	Soak       = "soak"
	CapTorque  = "cap-torque"
	CrankFree  = "crank-free"
	PistonsIn  = "pistons-in"
	RodStretch = "rod-stretch"
	Primed     = "primed"
)

// Deburred is the work on metal that a tick of deburring is.
const Deburred = "deburred"

// For is what a preset is made for: an engine and the unit that its session is
// keyed in.
type For struct {
	Layout plan.Layout
	Unit   length.Unit
}

// pick returns the text for the session's unit.
func (f For) pick(inch, metric string) string {
	if f.Unit == length.In || f.Unit == length.UIn {
		return inch
	}
	return metric
}

// entry is one step of the catalogue and what depends on the engine.
type entry struct {
	Step
	places func(plan.Layout) []string
	count  func(plan.Layout) int
	// unit and low are inch first, then metric.
	unit, low [2]string
}

// build makes the step for an engine.
func (e entry) build(f For) Step {
	s := e.Step
	s.Unit = f.pick(e.unit[0], e.unit[1])
	s.Low += f.pick(e.low[0], e.low[1])
	if e.places != nil {
		s.Places = e.places(f.Layout)
	}
	if e.count != nil {
		s.Count = e.count(f.Layout)
	}
	return s
}

// empty reports whether the engine has no place where the step is done.
func (e entry) empty(f For) bool { return e.places != nil && len(e.places(f.Layout)) == 0 }

// each returns the places at every feature of a family, one for each of the
// words behind it.
func each(family plan.Family, where ...string) func(plan.Layout) []string {
	return func(l plan.Layout) []string {
		t, _ := family.Traits()
		var out []string
		for at := 1; at <= t.Count(l); at++ {
			for _, w := range where {
				out = append(out, Spot{plan.Feature{Family: family, At: at}, w}.String())
			}
		}
		return out
	}
}

// galleries names the oil galleries that a block usually has: common practice,
// no source.
func galleries(l plan.Layout) []string {
	if l.Banks() > 1 {
		return []string{"main gallery", "left lifter gallery", "right lifter gallery"}
	}
	return []string{"main gallery", "lifter gallery"}
}

// oilways are the galleries and the drilling to every main.
func oilways(l plan.Layout) []string {
	return append(galleries(l), each(plan.MainHousing, "feed")(l)...)
}

// journals are the oil holes of the crank.
func journals(l plan.Layout) []string {
	return append(each(plan.MainJournal, "")(l), each(plan.RodJournal, "")(l)...)
}

// mains counts the main caps.
func mains(l plan.Layout) int { return l.Mains }

// foreCam is the front cam bearing, where there is one.
func foreCam(l plan.Layout) []string {
	if l.CamBearings == 0 {
		return nil
	}
	return []string{string(plan.CamBearing) + "/" + strconv.Itoa(1)}
}

// Catalogue returns every step the program knows, as an engine needs it, in
// the order in which they are usually done.
func Catalogue(f For) List {
	var out List
	for _, e := range catalogue() {
		if !e.empty(f) {
			out = append(out, e.build(f))
		}
	}
	return out
}
