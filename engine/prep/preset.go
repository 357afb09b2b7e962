package prep

import "slices"

// Preset is a prep list to begin with. Everything in it is there to be changed.
type Preset struct {
	// ID never changes; Name is what a list shows, About one line more.
	ID, Name, About string
	steps           []string
}

// presets are the table of them.
var presets = []Preset{
	{
		ID: "new-block", Name: "Bare block, new",
		About: "plugs out, burrs, brush, wash, cam bearings, plugs in",
		steps: []string{
			OilLifters, OilMeant, PlugsOut, Machining, DeburrBores, DeburrRest, Brush, Wash, Dry, Oil,
			CamIn, CamSeat, CamFeed, CoreSeat, CoreIn, PlugsIn, OilFitted, OilGalleries, LastWipe,
		},
	},
	{
		ID: "used-block", Name: "Used block",
		About: "all out and counted, first clean, then as a new one",
		steps: []string{
			OilLifters, OilMeant, CapsOut, StudsOut, DowelsOut, CoreOut, PlugsOut, CamsOut, Degrease, Inspect,
			Machining, DeburrBores, DeburrRest, Brush, Wash, Dry, Oil,
			CamIn, CamSeat, CamFeed, CoreSeat, CoreIn, PlugsIn, OilFitted, OilGalleries, DowelsIn, StudsIn, CapsIn, LastWipe,
		},
	},
	{
		ID: "after-machining", Name: "After machining",
		About: "plugs out, burrs, galleries, wash, plugs back",
		steps: []string{PlugsOut, DeburrBores, DeburrRest, Brush, Wash, Dry, Oil, PlugsIn, LastWipe},
	},
	{
		ID: "crank", Name: "Crank",
		About: "plugs out, oil holes, brush, wash, plugs back",
		steps: []string{CrankPlugsOut, CrankMachining, CrankHoles, CrankBrush, CrankWash, CrankDry, CrankPlugsIn, CrankOil},
	},
	{
		ID: "assembly", Name: "Assembly day",
		About: "soak, last wipe, torque, stretch, oil pressure",
		steps: []string{Soak, LastWipe, CapTorque, CrankFree, PistonsIn, RodStretch, Primed},
	},
}

// Presets returns the presets in the order a list shows them.
func Presets() []Preset { return append([]Preset(nil), presets...) }

// List makes the preset's list for an engine.
func (p Preset) List(f For) List { return List(nil).With(f, p.steps...) }

// With returns the list with steps of the catalogue added, each where it
// belongs by the catalogue's order; those it has stay as they are. A step that
// comes before another keeps its place in the order even where steps between
// them are not in the list.
func (l List) With(f For, ids ...string) List {
	all := Catalogue(f)
	out := slices.Clone(l)
	for _, id := range ids {
		if _, _, have := out.Find(id); have {
			continue
		}
		if s, at, ok := all.Find(id); ok {
			out = slices.Insert(out, out.placeFor(all, at), s)
		}
	}
	return out.ordered(all)
}

// placeFor returns where a step of the catalogue goes: behind the last step of
// the list that stands before it there.
func (l List) placeFor(all List, at int) int {
	place := 0
	for i, s := range l {
		if _, where, ok := all.Find(s.ID); ok && where < at {
			place = i + 1
		}
	}
	return place
}

// ordered sets what comes before each step of the catalogue from the steps that
// the list has, through those it has not.
func (l List) ordered(all List) List {
	out := slices.Clone(l)
	for i, s := range out {
		known, _, ok := all.Find(s.ID)
		if !ok {
			continue
		}
		var before []string
		for _, id := range append(slices.Clone(s.NotBefore), l.through(all, known.NotBefore, map[string]bool{})...) {
			if _, _, have := l.Find(id); have && !slices.Contains(before, id) {
				before = append(before, id)
			}
		}
		out[i].NotBefore = before
	}
	return out
}

// through replaces ids that the list lacks by those that come before them.
func (l List) through(all List, ids []string, seen map[string]bool) []string {
	var out []string
	for _, id := range ids {
		if seen[id] {
			continue
		}
		seen[id] = true
		if _, _, have := l.Find(id); have {
			out = append(out, id)
			continue
		}
		s, _, _ := all.Find(id)
		out = append(out, l.through(all, s.NotBefore, seen)...)
	}
	return out
}
