package engine_test

import (
	"borewright/engine"
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// withRings adds the ring gaps and the end play to a plan.
func (b *bench) withRings(p plan.Plan) plan.Plan {
	p.Families = append(p.Families,
		plan.Group{Family: plan.RingGap, Levels: plan.Grid(plan.RingGap, 1), Directions: []string{plan.Once}, Instrument: "feeler"},
		plan.Group{Family: plan.EndPlay, Levels: plan.Grid(plan.EndPlay, 1), Directions: []string{plan.Once}, Instrument: "feeler"})
	return p
}

// rings reads them, one ring too tight, and limits
// them.
func (b *bench) rings(p plan.Plan) {
	b.t.Helper()
	b.limit(limit.EndGap, "ring-gap", "0.0160", "", "", "")
	b.limit(limit.EndPlay, "end-play", "0.0040", "0.0100", "", "0.0150")
	b.limit(limit.Step, "main-bearing", "", "0.0015", "", "")
	b.gauge(gauge.Instrument{
		ID: "feeler", Name: "feelers", Kind: gauge.Indicator, Unit: length.In, Graduation: b.w("0.0005"), Step: b.w("0.0005"),
	}, gauge.OnScale, length.Written{}, "", plan.RingGap, plan.EndPlay)
	for i, v := range [][3]string{
		{"0.0170", "0.0180", "0.0200"},
		{"0.0165", "0.0180", "0.0210"},
		{"0.0170", "0.0175", "0.0200"},
		{"0.0170", "0.0180", "0.0205"},
		{"0.0140", "0.0180", "0.0200"},
		{"0.0165", "0.0175", "0.0200"},
	} {
		for k, part := range []string{plan.Top, plan.Second, plan.Oil} {
			b.read(plan.Feature{Family: plan.RingGap, At: i + 1, Part: part}.String(), p, v[k])
		}
	}
	b.read("end-play/1", p, "0.0080")
}

// stock is what is on the shelf and what the builder works to.
func (b *bench) stock() {
	b.t.Helper()
	const source = "invented for the demo"
	for _, g := range [][3]string{
		{engine.GivenHoneTarget, "bore", "3.7512 in"},
		{engine.GivenFinish, "bore", "0.0002 in"},
		{engine.GivenReboreStock, "bore", "0.0050 in"},
		{engine.GivenGrindStock, "main-journal", "0.0020 in"},
		{engine.GivenGapFactor, "ring-gap", "0.0045"},
		{engine.GivenGapDepth, "ring-gap", "4.0 in"},
		{engine.GivenStroke, "", "4.5000 in"},
	} {
		b.do(record.Given{Name: g[0], Of: g[1], Value: g[2], Source: source})
	}
	b.do(record.Given{Name: engine.GivenExpansion, Of: "bore", Value: "11.4", Doubt: "1.0", Source: "grey cast iron"})
	row := func(cells ...string) map[string]string {
		out := map[string]string{}
		for i := 0; i < len(cells); i += 2 {
			out[cells[i]] = cells[i+1]
		}
		return out
	}
	b.do(
		record.Table{Name: record.Shells, Of: "shell-main", Source: source, Rows: []map[string]string{
			row(engine.ColumnName, "0.001 extra", engine.ColumnUndersize, "-0.0010 in", engine.ColumnCount, "2"),
			row(engine.ColumnName, "standard", engine.ColumnUndersize, "0.0000 in", engine.ColumnCount, "4"),
			row(engine.ColumnName, "0.001 under", engine.ColumnUndersize, "0.0010 in", engine.ColumnCount, "2"),
		}},
		record.Table{Name: record.Ladder, Of: "bore", Source: source, Rows: []map[string]string{
			row(engine.ColumnName, "0.020", engine.ColumnStep, "0.0200 in"), row(engine.ColumnName, "0.040", engine.ColumnStep, "0.0400 in"),
		}},
		record.Table{Name: record.Ladder, Of: "main-journal", Source: source, Rows: []map[string]string{
			row(engine.ColumnName, "0.010", engine.ColumnStep, "-0.0100 in"), row(engine.ColumnName, "0.020", engine.ColumnStep, "-0.0200 in"),
		}},
		record.Table{Name: record.Ladder, Of: "end-play", Source: source, Rows: []map[string]string{
			row(engine.ColumnName, "+0.0025", engine.ColumnStep, "0.0025 in"), row(engine.ColumnName, "+0.0050", engine.ColumnStep, "0.0050 in"),
		}},
	)
}
