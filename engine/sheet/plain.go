package sheet

import (
	"slices"
	"strings"

	"borewright/engine/plan"
	"borewright/engine/record"
)

// Plain returns the readings as a plain file, from which a new session can be
// begun: its plan is what the table holds. Deviations have no meaning there.
// The error is a *record.FieldError that names row and column.
func (in Intake) Plain(title string) (record.Plain, error) {
	out := record.Plain{Version: record.FileVersion, Title: title}
	rows := map[plan.Place]int{}
	for _, r := range in.Readings {
		f, err := plan.ParseFeature(strings.Replace(r.Of, " ", "/", 1))
		if err != nil {
			return out, r.wrong(colFeature, r.Of, `it is no feature, such as "bore/3"`)
		}
		if !r.Dev.IsZero() {
			return out, r.wrong(r.Column, r.Value, "a deviation needs the session that it was read in")
		}
		if out.Unit == 0 {
			out.Unit = r.Size.Unit
		}
		dir, err := newDirection(f.Family, r.Dir)
		if err != nil {
			return out, r.wrong(colDirection, r.Dir, err.Error())
		}
		p := plan.Place{Of: f, Level: addPlace(&out, f.Family, r.Level, dir), Dir: dir}
		cell := record.Number(r.Size.String())
		if at, again := rows[p]; again {
			c := out.Readings[at].Values[dir].Cells
			c[0] = append(c[0], cell)
			continue
		}
		rows[p] = len(out.Readings)
		out.Readings = append(out.Readings, record.PlainRow{
			Of: f, Level: record.Number(p.Level),
			Values: map[string]record.Column{dir: {Cells: []record.Cell{{cell}}, Alone: true}},
		})
	}
	return out, nil
}

// newDirection is the direction of a reading; what is read as one figure needs
// none.
func newDirection(f plan.Family, text string) (string, error) {
	if t, _ := f.Traits(); text == "" && t.Figure != "" {
		return plan.Once, nil
	}
	return plan.ParseDirection(f, text)
}

// addPlace adds a level, by its name, and a direction to the plan, and returns
// the id of the level.
func addPlace(p *record.Plain, f plan.Family, level, dir string) string {
	at := slices.IndexFunc(p.Plan, func(g record.PlainGroup) bool { return g.Family == f })
	if at < 0 {
		at = len(p.Plan)
		p.Plan = append(p.Plan, record.PlainGroup{Family: f})
	}
	g := &p.Plan[at]
	if !slices.Contains(g.Directions, dir) {
		g.Directions = append(g.Directions, dir)
	}
	for _, l := range g.Levels {
		if l.Name == level {
			return l.ID
		}
	}
	id := string(rune('a' + min(len(g.Levels), 25)))
	g.Levels = append(g.Levels, record.PlainLevel{ID: id, Name: level})
	return id
}
