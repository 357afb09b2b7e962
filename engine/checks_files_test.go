package engine_test

import (
	"bytes"
	"encoding/csv"
	"os"
	"slices"
	"strconv"
	"strings"
	"time"

	"borewright/engine"
	"borewright/engine/form"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
	"borewright/testdata"
)

// file returns a data file that lies beside the table of checks.
func (g *checkGiven) file(name string) string {
	file, err := os.ReadFile("../testdata/checks/" + g.text(name))
	if err != nil {
		g.fail("%w", err)
	}
	return string(file)
}

// table returns the rows of a data file that lies beside the table of checks,
// without its heading.
func (g *checkGiven) table(name string) [][]string {
	rows, err := csv.NewReader(strings.NewReader(g.file(name))).ReadAll()
	if err != nil || len(rows) < 2 {
		g.fail("%s has %d rows: %v", g.text(name), len(rows), err)
		return nil
	}
	return rows[1:]
}

// number reads a floating-point number.
func (g *checkGiven) number(text string) float64 {
	f, err := strconv.ParseFloat(text, 64)
	if err != nil {
		g.fail("%w", err)
	}
	return f
}

// samples returns the sizes of a file's samples, from the first to the last that
// are asked for.
func (g *checkGiven) samples() [][]length.Exact {
	ends := append(g.wholes("samples"), 0, 0)
	sizes := map[int][]length.Exact{}
	for _, row := range g.table("file") {
		n, err := strconv.Atoi(row[1])
		if err != nil {
			g.fail("%w", err)
		}
		sizes[n] = append(sizes[n], g.parse(row[0]).Exact())
	}
	var out [][]length.Exact
	for n := ends[0]; n <= ends[1]; n++ {
		if len(sizes[n]) == 0 {
			g.fail("there is no sample %d", n)
		}
		out = append(out, sizes[n])
	}
	return out
}

func askSamplesMean(g *checkGiven) []checkAnswer {
	return []checkAnswer{inUnit(length.MeanOf(slices.Concat(g.samples()...)...), g.to())}
}

func askSamplesRange(g *checkGiven) []checkAnswer {
	var ranges []length.Exact
	for _, sizes := range g.samples() {
		ranges = append(ranges, length.Max(sizes...).Sub(length.Min(sizes...)))
	}
	return []checkAnswer{inUnit(length.MeanOf(ranges...), g.to())}
}

// askFigure computes a figure of one bore from its readings.
func askFigure(g *checkGiven) []checkAnswer {
	grid := form.Grid{Names: strings.Fields(g.text("directions")), Values: g.grid("readings"), TwoContact: true}
	for _, dir := range grid.Names {
		angle, ok := plan.Angle(plan.Bore, dir)
		if !ok {
			g.fail("a bore has no direction %q", dir)
		}
		grid.Angles = append(grid.Angles, angle)
	}
	return []checkAnswer{inUnit(g.figure(form.Measure(grid, 0)), g.to())}
}

// assessed takes a plain file the whole road: read, made into events, sealed,
// replayed, assessed.
func (g *checkGiven) assessed() *engine.Assessment {
	s, err := replayedFile(g.text("session"))
	if err != nil {
		g.fail("%w", err)
		return &engine.Assessment{}
	}
	return engine.Assess(s)
}

func replayedFile(name string) (*engine.Session, error) {
	data, _ := testdata.Session(name)
	file, err := record.ReadFile(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	events, err := file.Plain.Events("checks", time.Date(2026, 1, 2, 3, 4, 5, 0, time.UTC), "ck")
	if err != nil {
		return nil, err
	}
	var sealed []record.Sealed
	head := record.Head{}
	for _, e := range events {
		s, err := record.Seal(e, head)
		if err != nil {
			return nil, err
		}
		sealed, head = append(sealed, s), s.Head
	}
	return engine.Replay(sealed)
}

func askSessionFigure(g *checkGiven) []checkAnswer {
	f, err := plan.ParseFeature(g.text("feature"))
	if err != nil {
		g.fail("%w", err)
	}
	m, ok := g.assessed().Feature(f)
	if !ok {
		g.fail("%s is not planned", f)
	}
	return []checkAnswer{inUnit(g.figure(m.Figures), g.to())}
}

func askSessionVerdict(g *checkGiven) []checkAnswer {
	of, on := g.text("feature"), limit.Characteristic(g.text("on"))
	for _, f := range g.assessed().Findings {
		if f.Of.String() == of && f.On == on {
			return []checkAnswer{inVerdict(f.Judgement.Verdict)}
		}
	}
	g.fail("nothing of %s is judged by its %s", of, on)
	return nil
}
