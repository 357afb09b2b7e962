package engine_test

import (
	"strconv"
	"strings"

	"borewright/engine/fit"
	"borewright/engine/length"
	"borewright/engine/limit"
)

// nominal returns a nominal size for the tables of ISO 286.
func (g *checkGiven) nominal() length.Length { return g.length("nominal").Length }

func askStandardTolerance(g *checkGiven) []checkAnswer {
	width, ok := limit.StandardTolerance(g.nominal(), g.whole("grade"))
	if !ok {
		g.fail("there is no such grade")
	}
	return []checkAnswer{inUnit(length.Of(width), g.to())}
}

func askToleranceFactor(g *checkGiven) []checkAnswer {
	d, ok := limit.GeometricMean(g.nominal())
	if !ok {
		g.fail("there is no such range of sizes")
	}
	return []checkAnswer{inNumbers(limit.ToleranceFactor(d))}
}

// askFormulaTolerance answers in micrometres.
func askFormulaTolerance(g *checkGiven) []checkAnswer {
	width, ok := limit.FormulaTolerance(g.nominal(), g.whole("grade"))
	if !ok {
		g.fail("there is no formula")
	}
	return []checkAnswer{inNumbers(width)}
}

// classRange returns the nominal size and the limits of a class that names it.
func (g *checkGiven) classRange(name string) (nominal length.Length, r limit.Range) {
	c, err := limit.ParseClass(g.text(name))
	if err == nil {
		r, err = c.Range(length.Written{})
	}
	if err != nil {
		g.fail("%w", err)
	}
	return c.Nominal.Length, r
}

// askClassDeviations answers with the upper and the lower deviation, as tables
// print them.
func askClassDeviations(g *checkGiven) []checkAnswer {
	nominal, r := g.classRange("class")
	return []checkAnswer{
		inUnit(length.Of(r.High.Length-nominal), g.to()), inUnit(length.Of(r.Low.Length-nominal), g.to()),
	}
}

func askClassLimits(g *checkGiven) []checkAnswer {
	_, r := g.classRange("class")
	return inLimits(g.to(), r.Low, r.High)
}

func askClassFit(g *checkGiven) []checkAnswer {
	span := func(name string) fit.Range {
		_, r := g.classRange(name)
		return fit.Range{Low: r.Low.Length, High: r.High.Length}
	}
	return inRange(fit.Clearances(span("hole"), span("shaft")), g.to())
}

// inDoubts answers with what each doubt guesses, by its field or rung where
// there are fields or rungs; "none" without any.
func inDoubts(doubts []limit.Doubt, place func(limit.Doubt) string) []checkAnswer {
	var out []checkAnswer
	for _, d := range doubts {
		if at := place(d); at != "" {
			out = append(out, inWords(at))
		}
		for _, guess := range d.Likely {
			out = append(out, inWords(guess.Slip.String()), inWords(guess.Text))
		}
	}
	if len(doubts) == 0 {
		return []checkAnswer{inWords("none")}
	}
	return out
}

func field(d limit.Doubt) string { return string(d.Field) }

// askPairDoubts asks about a figure and its conversion in brackets.
func askPairDoubts(g *checkGiven) []checkAnswer {
	a, b, err := limit.ParsePair(g.text("printed"))
	if err != nil {
		g.fail("%w", err)
	}
	return inDoubts(limit.PairDoubts(a, b), field)
}

// askLimitDoubts asks about one row of limits, each perhaps with its conversion.
func askLimitDoubts(g *checkGiven) []checkAnswer {
	c := limit.Copied{Limits: g.limits(limit.Characteristic(g.text("on"))), Also: map[limit.Field]string{}, Nominal: g.maybe("nominal")}
	c.Of = g.text("of")
	for _, f := range limit.Fields() {
		if name := string(f) + " also"; g.has(name) {
			c.Also[f] = g.text(name)
		}
	}
	return inDoubts(limit.Doubts([]limit.Copied{c}), field)
}

// askLikeDoubts asks about the same high limit of two features.
func askLikeDoubts(g *checkGiven) []checkAnswer {
	side := func(of, high string) limit.Copied {
		on, family, _ := strings.Cut(g.text(of), " of ")
		return limit.Copied{Limits: limit.Limits{On: limit.Characteristic(on), Of: family, New: limit.Range{High: g.length(high)}}}
	}
	all := []limit.Copied{side("one", "high"), side("other", "other high")}
	return inDoubts(limit.Doubts(all), func(d limit.Doubt) string { return string(all[d.Row].On) + " of " + all[d.Row].Of })
}

// askLadderDoubts asks about sizes, by the steps they belong to where those are
// given. Rungs count from 1.
func askLadderDoubts(g *checkGiven) []checkAnswer {
	var rungs []limit.Rung
	for _, text := range strings.Fields(g.text("sizes")) {
		rungs = append(rungs, limit.Rung{Size: g.parse(text)})
	}
	if g.has("steps") {
		for i, text := range strings.Fields(g.text("steps")) {
			rungs[i].By = g.parse(text)
		}
	}
	return inDoubts(limit.LadderDoubts(rungs), func(d limit.Doubt) string { return strconv.Itoa(d.Row + 1) })
}
