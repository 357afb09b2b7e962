package sheet

// clearances are the running clearances, as a table and against their limits.
func clearances(views []view) Section {
	x := Section{Heading: "Running clearances", Pictures: bars(views[0])}
	x.Tables = tablesIn(views, view.clearanceTable)
	return x
}

func (v view) clearanceTable() Table {
	t := Table{Caption: "Clearances, diametral, in " + unitWord(v), Columns: []string{
		"hole", "shaft", "by", "judged", "tightest", "mean", "loosest", "how",
	}}
	for i, c := range v.a.Clearances {
		r := v.r.Clearances[i]
		if r.Tightest == "" && r.Judged == "" {
			continue
		}
		how := "level by level"
		switch {
		case r.FromParts:
			how = "from housing, shells and journal"
		case r.Bound:
			how = "bounds, from different levels"
		}
		if r.Difference != "" {
			how += "; assembled less from parts " + v.bare(r.Difference).Text
		}
		t.Rows = append(t.Rows, []Cell{
			{Text: v.s.Name(c.Hole)},
			{Text: v.s.Name(c.Shaft)},
			{Text: r.By},
			v.bare(r.Judged), v.bare(r.Tightest), v.bare(r.Mean), v.bare(r.Loosest),
			{Text: how},
		})
	}
	return t
}
