package setup

import (
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/plan"
)

// Preset is a session setup to begin with. What it says is invented or common
// practice: it saves keys, and everything in it is there to be changed.
type Preset struct {
	// ID never changes; Name is what a list shows, About one line more.
	ID, Name, About string

	title  string
	unit   length.Unit
	layout plan.Layout
	rows   []presetRow
}

// presetRow is one family that a preset measures.
type presetRow struct {
	family plan.Family
	// nominal is in ten-thousandths of an inch or thousandths of a millimetre.
	nominal int64
	// kind is the usual gauge when empty.
	kind string
	// bare leaves out the limits that rules of thumb propose.
	bare bool
}

// Presets returns the presets in the order a list shows them.
func Presets() []Preset { return append([]Preset(nil), presets...) }

// Draft returns the setup as a draft. Whatever it measures from a zero still
// needs the size of the setting master.
func (p Preset) Draft() Draft {
	var order []plan.Family
	for _, r := range p.rows {
		order = append(order, r.family)
	}
	d := New(p.unit, p.layout, order...)
	d.Title, d.Engine = p.title, p.title
	for _, r := range p.rows {
		d.SetMeasured(r.family, true)
		f := d.Of(r.family)
		if r.kind != "" {
			f.SetGauge(r.kind, p.unit)
		}
		f.SetNominal(p.size(r.nominal))
		if r.bare {
			f.Limits = nil
		}
	}
	return d
}

func (p Preset) size(n int64) length.Written {
	if p.unit == length.In {
		return inches(n)
	}
	return millimetres(n)
}

// presets are the table of them. The sizes are invented.
var presets = []Preset{
	{
		ID: "inline-6-in", Name: "Inline six, inch: bores and mains",
		About: "six bores, seven main bearings and journals",
		title: "Inline six", unit: length.In, layout: plan.Default(plan.Inline, 6, false),
		rows: []presetRow{
			{family: plan.Bore, nominal: 37500},
			{family: plan.MainBearing, nominal: 26275},
			{family: plan.MainJournal, nominal: 26250},
		},
	},
	{
		ID: "inline-3-mm", Name: "Inline three, millimetre: bores, pistons and mains",
		About: "three bores and their pistons, four main bearings and journals",
		title: "Inline three", unit: length.MM, layout: plan.Default(plan.Inline, 3, false),
		rows: []presetRow{
			{family: plan.Bore, nominal: 79000},
			{family: plan.Piston, nominal: 78950},
			{family: plan.MainBearing, nominal: 48040},
			{family: plan.MainJournal, nominal: 48000},
		},
	},
	{
		ID: "inline-4-mm", Name: "Inline four, millimetre: bores, pistons and mains",
		About: "four bores and their pistons, five main bearings and journals",
		title: "Inline four", unit: length.MM, layout: plan.Default(plan.Inline, 4, false),
		rows: []presetRow{
			{family: plan.Bore, nominal: 86000},
			{family: plan.Piston, nominal: 85950},
			{family: plan.MainBearing, nominal: 55045},
			{family: plan.MainJournal, nominal: 55000},
		},
	},
	{
		ID: "vee-8-in", Name: "Vee eight, inch, shared rod journals: bores, mains and rods",
		About: "eight bores, left bank first, five mains, four rod journals",
		title: "Vee eight", unit: length.In, layout: plan.Default(plan.Vee, 8, true),
		rows: []presetRow{
			{family: plan.Bore, nominal: 40000},
			{family: plan.MainBearing, nominal: 24525},
			{family: plan.MainJournal, nominal: 24500},
			{family: plan.RodBearing, nominal: 21022},
			{family: plan.RodJournal, nominal: 21000},
		},
	},
	{
		ID: "vee-6-mm", Name: "Vee six, millimetre, split rod journals: bores and mains",
		About: "six bores, left bank first, four main bearings and journals",
		title: "Vee six", unit: length.MM, layout: plan.Default(plan.Vee, 6, false),
		rows: []presetRow{
			{family: plan.Bore, nominal: 84000},
			{family: plan.MainBearing, nominal: 65055},
			{family: plan.MainJournal, nominal: 65000},
		},
	},
	{
		ID: "flat-4-mm", Name: "Flat four, millimetre: bores and pistons",
		About: "four bores and their pistons, left bank first",
		title: "Flat four", unit: length.MM, layout: plan.Default(plan.Flat, 4, false),
		rows: []presetRow{
			{family: plan.Bore, nominal: 92000},
			{family: plan.Piston, nominal: 91945},
		},
	},
	{
		ID: "one-bore", Name: "One bore, by hand",
		About: "one bore, read in full with an inside micrometer, without limits",
		title: "One bore", unit: length.MM, layout: plan.Default(plan.Inline, 1, false),
		rows: []presetRow{{family: plan.Bore, nominal: 80000, kind: gauge.Direct, bare: true}},
	},
}
