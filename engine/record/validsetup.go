package record

import (
	"fmt"
	"slices"
	"strings"

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

func (l Layout) validate(int64) error {
	if err := names(l); err != nil {
		return err
	}
	return l.Validate()
}

func (p Plan) validate(int64) error {
	if err := names(p); err != nil {
		return err
	}
	for _, g := range p.Families {
		if err := writable(fmt.Sprintf("nominal of %s", g.Family), g.Nominal); err != nil {
			return err
		}
		for _, l := range g.Levels {
			of := fmt.Sprintf(" of level %s of %s", l.ID, g.Family)
			if err := first(writable("depth"+of, l.Depth), one("half"+of, l.Half, "", "front", "rear", "both")); err != nil {
				return err
			}
		}
	}
	return p.Validate()
}

func (l Limit) validate(int64) error {
	if err := names([]string{string(l.On), l.Of, string(l.By), l.JudgeBy}); err != nil {
		return err
	}
	for _, w := range []struct {
		path string
		w    length.Written
	}{
		{"new low", l.New.Low},
		{"new high", l.New.High},
		{"wear low", l.Wear.Low},
		{"wear high", l.Wear.High},
		{"target", l.Target},
		{"per", l.Per},
		{"travel", l.Travel},
	} {
		if err := writable(w.path, w.w); err != nil {
			return err
		}
	}
	return l.Validate()
}

func (r Rules) validate(int64) error {
	for on, by := range r.Definitions {
		known := limit.Definitions(limit.Characteristic(on))
		if !slices.Contains(known, limit.Definition(by)) {
			return wrong("definitions."+on, by, "no definition of what is judged")
		}
	}
	return first(
		when(r.Unit != length.NoUnit, inchOrMillimetre("unit", r.Unit)),
		one("clearance", string(r.Clearance), "", string(limit.SmallestLargest), string(limit.SmallestMean), string(limit.SmallestSmallest), string(limit.MeanMean)),
		one("judge", r.Judge, "", limit.New, limit.Wear),
		one("decision", r.Decision, "", Simple, Guarded),
		decimal("coverage", r.Coverage, 0, 10),
		writable("drift", r.Drift),
		notBelow("drift", r.Drift),
		atLeast("stale_hours", int64(r.StaleHours), 0),
		decimal("blind_rate", r.BlindRate, 0, 1),
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
		for key, value := range row {
			at := fmt.Sprintf("rows[%d]", i)
			if err := first(name(at, key), short(at+"."+key, value, maxTitle)); err != nil {
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
	if err := short(at, s, maxName); err != nil {
		return err
	}
	if !strings.Contains(s, "/") {
		_, ok := plan.Family(s).Traits()
		return when(!ok, wrong(at, s, "no family is called so"))
	}
	_, err := plan.ParseFeature(s)
	return textError(at, s, err)
}
