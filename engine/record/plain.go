package record

import (
	"time"

	"borewright/engine/length"
	"borewright/engine/plan"
)

// Plain is the form of a file that is written by hand. Everything but the
// version may be left out:
//
//   - Unit is the unit of numbers without one; without it every number states
//     its own, and the first one makes the unit of the session.
//   - Layout: counts left out are the usual ones; without a layout it is an
//     inline one just large enough for the readings.
//   - Plan: a family without levels or directions gets the usual ones, as many
//     levels as its rows have values; without a plan it is what the rows hold.
//   - Rules, Given and Tables are as the events of these names have them.
//   - Stage says where the session stands: as found, after work or final.
type Plain struct {
	Version  int           `json:"borewright"`
	Title    string        `json:"title,omitempty"`
	Customer string        `json:"customer,omitempty"`
	Engine   string        `json:"engine,omitempty"`
	Unit     length.Unit   `json:"unit,omitempty"`
	Layout   *plan.Layout  `json:"layout,omitempty"`
	Plan     []PlainGroup  `json:"plan,omitempty"`
	Rules    *Rules        `json:"rules,omitempty"`
	Limits   []PlainLimits `json:"limits,omitempty"`
	Given    []Given       `json:"given,omitempty"`
	Tables   []Table       `json:"tables,omitempty"`
	Parts    []PlainPart   `json:"parts,omitempty"`
	Readings []PlainRow    `json:"readings,omitempty"`
	Work     []PlainWork   `json:"work,omitempty"`
	Stage    string        `json:"stage,omitempty"`
}

// The stages that a plain file names, for itself and for each row.
const (
	AsFound   = "as found"
	AfterWork = "after work"
	Final     = "final"
)

// PlainGroup is what is measured of one family.
type PlainGroup struct {
	Family     plan.Family  `json:"family"`
	Nominal    Number       `json:"nominal,omitempty"`
	Levels     []PlainLevel `json:"levels,omitempty"`
	Directions []string     `json:"directions,omitempty"`
}

// PlainLevel is one level; without an id it is called a, b, c ... in its order.
type PlainLevel struct {
	ID    string `json:"id,omitempty"`
	Name  string `json:"name,omitempty"`
	Depth Number `json:"depth,omitempty"`
	Half  string `json:"half,omitempty"`
}

// PlainRange is a low and a high limit; either may be missing.
type PlainRange struct {
	Low  Number `json:"low,omitempty"`
	High Number `json:"high,omitempty"`
}

// PlainLimits are the limits of one characteristic of a family ("bore") or of
// one feature ("bore/3").
type PlainLimits struct {
	On     string     `json:"on"`
	Of     string     `json:"of"`
	By     string     `json:"by,omitempty"`
	New    PlainRange `json:"new,omitzero"`
	Wear   PlainRange `json:"wear,omitzero"`
	Target Number     `json:"target,omitempty"`
	Per    Number     `json:"per,omitempty"`
	Travel Number     `json:"travel,omitempty"`
	Judge  string     `json:"judge,omitempty"`
	Source string     `json:"source,omitempty"`
}

// PlainPart says where a loose part sits.
type PlainPart struct {
	Part plan.Feature `json:"part,omitzero"`
	At   plan.Feature `json:"at,omitzero"`
}

// PlainWork is work done after the readings as found and before the others. It
// changes what it was done to, if it does not say otherwise.
type PlainWork struct {
	Did     string         `json:"did"`
	To      []plan.Feature `json:"to,omitempty"`
	Amount  Number         `json:"amount,omitempty"`
	Changes []plan.Feature `json:"changes,omitempty"`
	Metal   bool           `json:"metal,omitempty"`
	Note    string         `json:"note,omitempty"`
}

// Events returns what the file says as fresh events of a session with this
// identity, all at one time and by one hand, in order: details, layout, plan,
// rules, limits, what is given, tables, parts, readings as found, work, the
// other readings, and that the session is closed when the file says final. They are not sealed, and every
// one is valid. The error names the place in the file and the value there.
func (p Plain) Events(uid string, at time.Time, by string) ([]Event, error) {
	if err := p.checkStage(); err != nil {
		return nil, err
	}
	d, err := p.details(uid)
	if err != nil {
		return nil, err
	}
	s := spread{Plain: p, unit: d.Unit, bodies: []Body{d}}
	for _, step := range []func() error{s.addLayout, s.addPlan, s.addRules, s.addLimits, s.addGiven, s.addTables, s.addParts, s.addReadings} {
		if err := step(); err != nil {
			return nil, err
		}
	}
	if p.Stage == Final {
		s.bodies = append(s.bodies, State{State: Closed})
	}
	events := make([]Event, len(s.bodies))
	for i, b := range s.bodies {
		events[i] = Event{At: at, By: by, Body: b}
		if err := events[i].Validate(); err != nil {
			return nil, err
		}
	}
	return events, nil
}

// spread is a plain file on its way into events.
type spread struct {
	Plain
	unit   length.Unit // of the session
	layout plan.Layout
	groups []plan.Group
	bodies []Body
}

// checkStage checks the stage the file as a whole claims.
func (p Plain) checkStage() error {
	if err := one("stage", p.Stage, "", AsFound, AfterWork, Final); err != nil {
		return err
	}
	switch {
	case p.Stage == AsFound && len(p.Work) > 0:
		return wrong("stage", p.Stage, "the file lists work")
	case p.Stage == AfterWork && len(p.Work) == 0:
		return wrong("stage", p.Stage, "the file lists no work")
	}
	return nil
}

// details makes the details, with the unit of the session.
func (p Plain) details(uid string) (Details, error) {
	d := Details{UID: uid, Title: p.Title, Customer: p.Customer, Engine: p.Engine}
	for _, u := range append([]length.Unit{p.Unit}, p.units()...) {
		switch u {
		case length.In, length.UIn:
			d.Unit = length.In
		case length.MM, length.UM:
			d.Unit = length.MM
		case length.NoUnit:
			continue
		}
		return d, nil
	}
	return d, wrong("unit", "", "it is missing, and no number states one: write in or mm")
}

// units returns the units that the readings and nominals state.
func (p Plain) units() []length.Unit {
	var out []length.Unit
	add := func(n Number) {
		w, _ := length.Parse(string(n), length.NoUnit)
		out = append(out, w.Unit)
	}
	for _, row := range p.Readings {
		for _, dir := range row.directions() {
			for _, cell := range row.Values[dir].Cells {
				for _, n := range cell {
					add(n)
				}
			}
		}
	}
	for _, g := range p.Plan {
		add(g.Nominal)
	}
	return out
}
