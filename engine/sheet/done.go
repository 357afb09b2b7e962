package sheet

import (
	"fmt"

	"borewright/engine"
	"borewright/engine/record"
)

// done tells what was done to the metal: as found beside what it is now.
func done(views []view) Section {
	x := Section{Heading: "What was found and what was done"}
	v := views[0]
	for _, e := range v.s.Log() {
		if e.Live && (e.Is() == record.IsWork || e.Is() == record.IsFitted) {
			x.Notes = append(x.Notes, fmt.Sprintf("%s: %s.", day(e.At), e.Text))
		}
	}
	for _, i := range v.a.Intentions(v.s) {
		x.Notes = append(x.Notes, "Decided: "+i.Text)
	}
	x.Tables = tablesIn(views, view.beside)
	if len(x.Tables) == 0 {
		x.Notes = append(x.Notes, "Nothing was done to the metal between readings: what is shown is as found.")
	}
	return x
}

// beside puts the figures as found beside those of now, of what was worked on.
func (v view) beside() Table {
	t := Table{Caption: "As found beside what it is now, ⌀ in " + unitWord(v), Columns: []string{
		"part", "smallest, as found", "now", "largest, as found", "now",
		"out-of-round, as found", "now", "taper end to end, as found", "now", "stage now",
	}}
	for _, f := range v.r.Features {
		if f.AsFound == nil {
			continue
		}
		b := f.AsFound
		t.Rows = append(t.Rows, []Cell{
			{Text: f.Name},
			v.bare(b.Smallest), v.bare(f.Smallest), v.bare(b.Largest), v.bare(f.Largest),
			v.bare(b.OutOfRound), v.bare(f.OutOfRound), v.bare(b.EndToEnd), v.bare(f.EndToEnd),
			{Text: f.Stage},
		})
	}
	return t
}

// diametral are the figures of all that has a diameter, as tables and pictures.
func diametral(views []view) Section {
	x := Section{Heading: "Bores, journals, bearings and pistons"}
	for _, g := range views[0].s.Plan().Families {
		if t, _ := g.Family.Traits(); t.Figure != "" {
			continue
		}
		x.Pictures = append(x.Pictures, forms(views[0], g)...)
		x.Tables = append(x.Tables, tablesIn(views, func(v view) Table { return v.diameters(g.Family.Plural(), of(g.Family)) })...)
	}
	return x
}

// diameters is the table of a family's figures; of what was worked on the row
// as found stands above that of now.
func (v view) diameters(name string, which func(engine.ReportFeature) bool) Table {
	t := Table{Caption: upper(name) + ", ⌀ in " + unitWord(v), Columns: []string{
		"part", "stage", "read", "smallest", "largest", "mean", "out-of-round",
		"taper end to end", "taper spread", "overall spread", "shape",
	}}
	for _, f := range v.r.Features {
		if !which(f) || f.Read == 0 && f.AsFound == nil {
			continue
		}
		if f.AsFound != nil {
			t.Rows = append(t.Rows, v.diameterRow(f, "as found", *f.AsFound))
		}
		t.Rows = append(t.Rows, v.diameterRow(f, f.Stage, f.ReportFigures))
	}
	return t
}

func (v view) diameterRow(f engine.ReportFeature, stage string, x engine.ReportFigures) []Cell {
	shape := x.Shape
	if x.Eccentricity != "" {
		shape += "; eccentricity " + v.bare(x.Eccentricity).Text
	}
	return []Cell{
		{Text: f.Name},
		{Text: stage},
		{Text: fmt.Sprintf("%d of %d", x.Read, f.Planned), Number: true},
		v.bare(x.Smallest), v.bare(x.Largest), v.bare(x.Mean), v.bare(x.OutOfRound),
		v.bare(x.EndToEnd), v.bare(x.Spread), v.bare(x.OverallSpread),
		{Text: shape},
	}
}

// ringsAndPoints are the figures of what is read as one figure.
func ringsAndPoints(views []view) Section {
	x := Section{Heading: "Rings, end play and other single figures"}
	x.Tables = tablesIn(views, view.points)
	v := views[0]
	for _, w := range v.s.WorkedOut(v.a) {
		if w.Value != "" {
			x.Notes = append(x.Notes, fmt.Sprintf("Worked out: %s %s.", w.Name, w.Value))
		}
	}
	return x
}

// points is the table of what is read as one figure.
func (v view) points() Table {
	t := Table{Caption: "In " + unitWord(v), Columns: []string{"part", "stage", "read", "smallest", "largest", "mean"}}
	for i, f := range v.r.Features {
		if traits, _ := v.a.Features[i].Of.Family.Traits(); traits.Figure == "" || f.Read == 0 && f.AsFound == nil {
			continue
		}
		if f.AsFound != nil {
			t.Rows = append(t.Rows, v.pointRow(f, "as found", *f.AsFound))
		}
		t.Rows = append(t.Rows, v.pointRow(f, f.Stage, f.ReportFigures))
	}
	return t
}

func (v view) pointRow(f engine.ReportFeature, stage string, x engine.ReportFigures) []Cell {
	return []Cell{
		{Text: f.Name},
		{Text: stage},
		{Text: fmt.Sprintf("%d of %d", x.Read, f.Planned), Number: true},
		v.bare(x.Smallest), v.bare(x.Largest), v.bare(x.Mean),
	}
}
