package engine_test

import (
	"math"
	"strings"

	"borewright/engine"
	"borewright/engine/doubt"
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/record"
)

// within answers with the printed figure where f lies from least to most, which
// are for figures printed from numbers rounded on the way; else with f.
func (g *checkGiven) within(f float64) checkAnswer {
	if !g.has("printed") {
		return inNumbers(f)
	}
	printed, least, most := g.text("printed"), g.number(g.text("least")), g.number(g.text("most"))
	if f >= least && f <= most {
		return inWords(printed)
	}
	return inNumbers(f)
}

// pick returns the figure that is asked for.
func (g *checkGiven) pick(figures map[string]float64) float64 {
	f, ok := figures[g.text("figure")]
	if !ok {
		g.fail("there is no figure %q here", g.text("figure"))
	}
	return f
}

// numbers returns a row of numbers.
func (g *checkGiven) numbers(name string) []float64 {
	var out []float64
	for _, field := range strings.Fields(g.text(name)) {
		out = append(out, g.number(field))
	}
	return out
}

func askAt20(g *checkGiven) []checkAnswer {
	body := gauge.Body{Of: "part", Alpha: g.text("expansion"), At: g.text("at")}
	l, err := body.At20(g.length("length").Length)
	if err != nil {
		g.fail("%w", err)
	}
	return []checkAnswer{inUnit(length.Of(l), g.to())}
}

// askBudget combines standard uncertainties with their degrees of freedom.
func askBudget(g *checkGiven) []checkAnswer {
	var cs []doubt.Contribution
	var df []float64
	if g.has("df") {
		df = g.numbers("df")
	}
	for i, u := range g.numbers("uncertainties") {
		c := doubt.Contribution{Value: u, Sensitivity: 1}
		c.Name = string(rune('a' + i))
		if df != nil {
			c.DF = df[i]
		}
		cs = append(cs, c)
	}
	b, err := doubt.Combine(cs)
	if err != nil {
		g.fail("%w", err)
	}
	c := doubt.AtLevel(0.99)
	return []checkAnswer{g.within(g.pick(map[string]float64{
		"u": b.U, "degrees of freedom": b.DF, "degrees of freedom, cut": math.Floor(b.DF),
		"t99": c.Factor(b.DF), "U99": b.Expanded(c),
	}))}
}

func askRectangular(g *checkGiven) []checkAnswer {
	c := doubt.Contribution{Kind: doubt.Rectangular, Value: g.number(g.text("half-width"))}
	return []checkAnswer{inNumbers(c.Standard())}
}

// askFactor answers with the quantile that leaves level between both sides; of a
// level of one side, twice that less one.
func askFactor(g *checkGiven) []checkAnswer {
	df := 0.0
	if g.has("df") {
		df = g.number(g.text("df"))
	}
	if g.has("one side") {
		return []checkAnswer{inNumbers(doubt.AtLevel(2*g.number(g.text("one side")) - 1).Factor(df))}
	}
	return []checkAnswer{inNumbers(doubt.AtLevel(g.number(g.text("level"))).Factor(df))}
}

// askRepeatability pools readings of one place: values, then more as often as
// is said.
func askRepeatability(g *checkGiven) []checkAnswer {
	values := g.text("values")
	if g.has("then") {
		values += strings.Repeat(" "+g.text("then"), g.whole("times"))
	}
	var readings []length.Length
	for _, e := range g.row(values) {
		readings = append(readings, e.Round())
	}
	e := doubt.Pool(doubt.Estimate{}, readings)
	return []checkAnswer{inNumbers(e.S / float64(g.unit().Size()))}
}

// askGroups compares the groups of a file, the group first in each row.
func askGroups(g *checkGiven) []checkAnswer {
	var groups [][]length.Length
	at := map[string]int{}
	for _, row := range g.table("file") {
		i, ok := at[row[0]]
		if !ok {
			i, at[row[0]] = len(groups), len(groups)
			groups = append(groups, nil)
		}
		groups[i] = append(groups[i], g.parse(row[1]).Length)
	}
	one := float64(g.unit().Size())
	found := doubt.Compare(groups...)
	return []checkAnswer{inNumbers(g.pick(map[string]float64{
		"within SS": found.Within.SS / one / one, "within df": float64(found.Within.DF),
		"between SS": found.Between.SS / one / one, "between df": float64(found.Between.DF), "F": found.F,
		"residual sd": doubt.Pool(doubt.Estimate{}, groups...).S / one,
	}))}
}

func askStudyFactor(g *checkGiven) []checkAnswer {
	of := map[string]func(int) (float64, bool){
		"K1": doubt.MeanRangeFactor, "K2": doubt.DeviationFactor, "K3": doubt.DeviationFactor,
	}[g.text("factor")]
	if of == nil {
		g.fail("there is no factor %q", g.text("factor"))
		return nil
	}
	k, ok := of(g.whole("readings"))
	if !ok {
		g.fail("there is no such factor")
	}
	return []checkAnswer{inNumbers(k)}
}

// askStudy analyses the study of a file.
func askStudy(g *checkGiven) []checkAnswer {
	r, err := engine.StudyOf(g.study(), g.text("method"), "")
	if err != nil {
		g.fail("%w", err)
		return nil
	}
	figures := map[string]float64{}
	if r.Distinct != nil {
		figures["sizes told apart"] = float64(*r.Distinct)
	}
	for _, c := range r.Components {
		figures[c.Name] = c.Deviation
		figures["variance of "+c.Name] = c.Deviation * c.Deviation
		figures["%study of "+c.Name] = *c.OfTotal
		figures["%contribution of "+c.Name] = *c.Contribution
	}
	for _, l := range r.Table {
		figures["SS of "+l.Name] = l.SS
		if l.F != nil {
			figures["F of "+l.Name] = *l.F
		}
	}
	return []checkAnswer{g.within(g.pick(figures))}
}

// study returns the values of a study's file.
func (g *checkGiven) study() []record.StudyRow {
	rows, err := record.ReadStudyCSV(strings.NewReader(g.file("file")))
	if err != nil {
		g.fail("%w", err)
	}
	return rows
}

// askChart asks for the control chart of a file's samples.
func askChart(g *checkGiven) []checkAnswer {
	var samples [][]length.Length
	for _, sample := range g.samples() {
		var out []length.Length
		for _, e := range sample {
			out = append(out, e.Round())
		}
		samples = append(samples, out)
	}
	c, ok := doubt.ChartOf(samples...)
	if !ok {
		g.fail("the samples have no chart")
	}
	return []checkAnswer{inNumbers(g.pick(map[string]float64{
		"low": c.Low, "high": c.High, "range": c.RangeHigh, "mean sd": c.MeanDeviation,
	}) / float64(g.unit().Size()))}
}
