package sheet

import (
	"fmt"
	"time"

	"borewright/engine"
	"borewright/engine/plan"
)

func day(t time.Time) string { return t.Format("2006-01-02 15:04") }

// of returns a test for the features of a family.
func of(f plan.Family) func(engine.ReportFeature) bool {
	return func(r engine.ReportFeature) bool {
		x, err := plan.ParseFeature(r.Of)
		return err == nil && x.Family == f
	}
}

// readings are every place's figure in every stage it was read in, with the
// figures of its level.
func readings(views []view) Section {
	x := Section{Heading: "Readings"}
	for _, g := range views[0].s.Plan().Families {
		x.Tables = append(x.Tables, tablesIn(views, func(v view) Table { return v.grid(g) })...)
	}
	if len(x.Tables) > 0 {
		x.Notes = []string{"Of a place that was read more than once the mean is shown. Sizes are at 20 °C where temperatures were given."}
	}
	return x
}

// grid is the table of a family's readings.
func (v view) grid(g plan.Group) Table {
	traits, _ := g.Family.Traits()
	t := Table{Caption: upper(g.Family.Plural()) + ", in " + unitWord(v), Columns: []string{"part", "stage"}}
	if traits.Figure == "" || len(g.Levels) > 1 {
		t.Columns = append(t.Columns, "level")
	}
	if traits.Figure == "" {
		for _, d := range g.Directions {
			t.Columns = append(t.Columns, engine.DirName(d))
		}
		t.Columns = append(t.Columns, "smallest", "largest", "mean", "out-of-round", "across − along")
	} else {
		t.Columns = append(t.Columns, traits.Figure)
	}
	for i, m := range v.a.Features {
		if m.Of.Family != g.Family {
			continue
		}
		r := v.r.Features[i]
		if r.AsFound != nil {
			t.Rows = append(t.Rows, v.gridRows(g, m.Of, 0, "as found", r.AsFound.Levels)...)
		}
		if m.Read > 0 {
			t.Rows = append(t.Rows, v.gridRows(g, m.Of, v.s.Stage(m.Of), m.Stage, r.Levels)...)
		}
	}
	return t
}

func (v view) gridRows(g plan.Group, f plan.Feature, stage int, name string, levels []engine.ReportLevel) [][]Cell {
	traits, _ := g.Family.Traits()
	var out [][]Cell
	for i, l := range g.Levels {
		row := []Cell{{Text: v.s.Name(f)}, {Text: name}}
		if traits.Figure == "" || len(g.Levels) > 1 {
			row = append(row, Cell{Text: levelText(l)})
		}
		for _, d := range g.Directions {
			row = append(row, number(v.figure(v.s.Figure(plan.Place{Of: f, Level: l.ID, Dir: d}, stage))))
		}
		if traits.Figure == "" && i < len(levels) {
			x := levels[i]
			row = append(row, v.bare(x.Smallest), v.bare(x.Largest), v.bare(x.Mean), v.bare(x.OutOfRound), v.bare(x.AcrossLessAlong))
		}
		out = append(out, row)
	}
	return out
}

// levelText is a level with its depth, where it has one.
func levelText(l plan.Level) string {
	if l.Depth.IsZero() {
		return l.Called()
	}
	return fmt.Sprintf("%s (%s)", l.Called(), l.Depth)
}
