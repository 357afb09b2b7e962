package record

import (
	"fmt"
	"maps"
	"slices"

	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

func (d Details) validate(int64) error {
	return first(
		validUID("uid", d.UID),
		short("title", d.Title, maxTitle),
		short("customer", d.Customer, maxTitle),
		short("engine", d.Engine, maxTitle),
		inchOrMillimetre("unit", d.Unit),
		when(d.Earlier != "", validUID("earlier", d.Earlier)),
		short("copied", d.Copied, maxTitle),
		short("ran", d.Ran, maxTitle),
	)
}

func (l Layout) validate(int64) error { return first(names(l), l.Validate()) }

func (p Plan) validate(int64) error { return first(names(p), p.Validate()) }

func (l Limit) validate(int64) error {
	return first(
		short("on", string(l.On), maxName),
		short("of", l.Of, maxName),
		short("definition", string(l.By), maxName),
		short("judge", l.JudgeBy, maxName),
		l.Validate(),
	)
}

func (r Rules) validate(int64) error {
	for _, on := range slices.Sorted(maps.Keys(r.Definitions)) {
		by := limit.Definition(r.Definitions[on])
		if !slices.Contains(limit.Definitions(limit.Characteristic(on)), by) {
			return wrong("definitions."+on, string(by), "no definition of what is judged")
		}
	}
	return first(
		when(r.Unit != length.NoUnit, inchOrMillimetre("unit", r.Unit)),
		one("clearance", r.Clearance, append(limit.Definitions(limit.Clearance), "")...),
		one("judge", r.Judge, "", limit.New, limit.Wear),
		one("decision", r.Decision, "", Simple, Guarded),
		decimal("coverage", r.Coverage, 0, 10),
		notBelow("drift", r.Drift),
		atLeast("stale_hours", int64(r.StaleHours), 0),
		decimal("blind_rate", r.BlindRate, 0, 1),
		decimal("stale_warm", r.StaleWarm, 0, 100),
	)
}

func (g Given) validate(int64) error {
	return first(
		name("name", g.Name),
		when(g.Of != "", familyOrFeature("of", g.Of)),
		when(g.Value == "", wrong("value", "", "it is missing")),
		figure("value", g.Value),
		figure("doubt", g.Doubt),
		short("source", g.Source, maxText),
	)
}

func (t Table) validate(int64) error {
	for i, row := range t.Rows {
		if len(row) == 0 {
			return wrong(fmt.Sprintf("rows[%d]", i), "", "an empty row")
		}
		for _, key := range slices.Sorted(maps.Keys(row)) {
			at := fmt.Sprintf("rows[%d]", i)
			if err := first(name(at, key), short(at+"."+key, row[key], maxTitle)); err != nil {
				return err
			}
		}
	}
	return first(
		one("name", t.Name, Shells, Ladder, Costs, Locks),
		when(t.Of != "", familyOrFeature("of", t.Of)),
		short("source", t.Source, maxText),
	)
}

// inchOrMillimetre refuses units that no session is kept in.
func inchOrMillimetre(at string, u length.Unit) error {
	return when(u != length.In && u != length.MM, wrong(at, u.String(), "a unit here is in or mm"))
}

// familyOrFeature refuses a text that is neither "bore" nor "bore/3".
func familyOrFeature(at, s string) error {
	_, err := plan.FamilyOf(s)
	return first(short(at, s, maxName), textError(at, s, err))
}
