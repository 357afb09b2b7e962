package doubt_test

import (
	"encoding/csv"
	"math"
	"os"
	"testing"

	"pgregory.net/rapid"

	. "borewright/engine/doubt"
	"borewright/engine/length"
)

// table reads a file of published figures, without its heading.
func table(tb testing.TB, name string) [][]string {
	tb.Helper()
	file, err := os.Open("../../testdata/checks/" + name)
	if err != nil {
		tb.Fatal(err)
	}
	defer func() { _ = file.Close() }()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		tb.Fatal(err)
	}
	return rows[1:]
}

// grouped gathers the lengths in one column by the text in another, in their
// order.
func grouped(tb testing.TB, rows [][]string, by, value int) [][]length.Length {
	tb.Helper()
	at := map[string]int{}
	var out [][]length.Length
	for _, row := range rows {
		i, ok := at[row[by]]
		if !ok {
			i = len(out)
			at[row[by]] = i
			out = append(out, nil)
		}
		out[i] = append(out[i], readings(tb, length.MM, row[value])...)
	}
	return out
}

// NIST StRD, SiRstv: certified.
func TestCompare(t *testing.T) {
	groups := grouped(t, table(t, "nist_strd_sirstv.csv"), 0, 1)
	g := Compare(groups...)
	const mm2 = 1e18
	if g.Between.DF != 4 || g.Within.DF != 20 {
		t.Fatalf("%d and %d degrees of freedom", g.Between.DF, g.Within.DF)
	}
	for name, x := range map[string][2]float64{
		"between":  {g.Between.SS / mm2, 5.11462616e-2},
		"within":   {g.Within.SS / mm2, 2.16636560e-1},
		"F":        {g.F, 1.18046237440255},
		"residual": {Pool(Estimate{}, groups...).S / 1e9, 0.104076068334656},
	} {
		if !near(x[0], x[1], 1e-8) {
			t.Errorf("%s: %v, want %v", name, x[0], x[1])
		}
	}
	if !near(g.F, 1.18046237440255, 1e-10) || math.Abs(g.P-0.349) > 0.001 {
		t.Errorf("F %v with a chance of %v", g.F, g.P)
	}
}

func TestCompareOfLittle(t *testing.T) {
	for name, c := range map[string]struct {
		groups [][]length.Length
		want   Groups
	}{
		"nothing":       {nil, Groups{}},
		"empty groups":  {[][]length.Length{nil, {}}, Groups{}},
		"one group":     {[][]length.Length{{1, 3}}, Groups{Within: Squares{2, 1}}},
		"no repeats":    {[][]length.Length{{1}, {3}}, Groups{Between: Squares{2, 1}}},
		"no scatter":    {[][]length.Length{{1, 1}, {3, 3}}, Groups{Between: Squares{4, 1}, Within: Squares{0, 2}}},
		"with an empty": {[][]length.Length{nil, {1, 1}, nil, {3, 3}}, Groups{Between: Squares{4, 1}, Within: Squares{0, 2}}},
	} {
		if got := Compare(c.groups...); got != c.want {
			t.Errorf("%s: %+v, want %+v", name, got, c.want)
		}
	}
	if m := (Squares{SS: 3}).Mean(); m != 0 {
		t.Errorf("a mean square of no freedom: %v", m)
	}
}

func TestCompareProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		groups := groupsOf(t)
		g := Compare(groups...)
		if e := Pool(Estimate{}, groups...); e.DF != g.Within.DF || !near(e.S, math.Sqrt(g.Within.Mean()), 1e-12) {
			t.Errorf("pooled %+v, within %+v", e, g.Within)
		}
		if g.Between.SS < 0 || g.Between.DF < 0 || g.F < 0 || g.P < 0 || g.P > 1 {
			t.Errorf("%+v", g)
		}
	})
}

// Montgomery, Introduction to Statistical Quality Control: piston rings, samples
// 1 to 25, as the R package qcc carries them.
func TestChartOf(t *testing.T) {
	c, ok := ChartOf(grouped(t, table(t, "pistonrings_40x5.csv"), 1, 0)[:25]...)
	if !ok || c.Size != 5 {
		t.Fatalf("%+v", c)
	}
	for name, x := range map[string]struct{ got, want, digits float64 }{
		"mean":           {c.Mean, 74.001176, 1e6},
		"mean range":     {c.MeanRange, 0.02276, 1e5},
		"mean deviation": {c.MeanDeviation, 0.0092400, 1e7},
		"low":            {c.Low, 73.98805, 1e5},
		"high":           {c.High, 74.01430, 1e5},
		"range":          {c.RangeHigh, 0.04813, 1e5},
	} {
		if got := math.Round(x.got/1e9*x.digits) / x.digits; math.Abs(got-x.want) > 1e-12 {
			t.Errorf("%s: %v, want %v", name, got, x.want)
		}
	}
	for name, samples := range map[string][][]length.Length{
		"none": nil, "an empty one": {nil}, "of one reading": {{1}, {2}}, "of several sizes": {{1, 2}, {1, 2, 3}},
	} {
		if c, ok := ChartOf(samples...); ok {
			t.Errorf("%s: %+v", name, c)
		}
	}
}
