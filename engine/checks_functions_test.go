package engine_test

import (
	"borewright/engine/doubt"
	"borewright/engine/fit"
	"borewright/engine/form"
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// checkAsks are the functions that a row can ask, by a plain name. Each reads
// what is given, calls exported functions and nothing else, and returns what
// they answer.
var checkAsks = map[string]func(*checkGiven) []checkAnswer{
	"convert":                         askConvert,
	"round to digits":                 askRoundDigits,
	"round to step":                   askRoundStep,
	"side shown":                      askSideShown,
	"half":                            askHalf,
	"mean":                            askMean,
	"largest less smallest":           askRange,
	"mean of samples":                 askSamplesMean,
	"mean range of samples":           askSamplesRange,
	"straight line":                   askLine,
	"two-point diameters":             askTwoPoint,
	"two-point variation":             askTwoPointVariation,
	"roundness of constant width":     askConstantWidth,
	"share of an oval seen":           askSeen,
	"range factor":                    askRangeFactor,
	"size at 20 °C":                   askAt20,
	"budget":                          askBudget,
	"rectangular":                     askRectangular,
	"coverage factor":                 askFactor,
	"repeatability":                   askRepeatability,
	"compare groups":                  askGroups,
	"factor of a study":               askStudyFactor,
	"study":                           askStudy,
	"control chart":                   askChart,
	"judge":                           askJudge,
	"judge a clearance":               askJudgeClearance,
	"chance of conformance":           askChance,
	"limits taken":                    askLimitsTaken,
	"limit per length":                askPerLength,
	"standard tolerance":              askStandardTolerance,
	"standard tolerance factor":       askToleranceFactor,
	"tolerance by formula":            askFormulaTolerance,
	"deviations of a class":           askClassDeviations,
	"limits of a class":               askClassLimits,
	"fit of two classes":              askClassFit,
	"doubts of a pair":                askPairDoubts,
	"doubts of limits":                askLimitDoubts,
	"doubts of like limits":           askLikeDoubts,
	"doubts of a ladder":              askLadderDoubts,
	"oversize":                        askOversize,
	"read from a master":              askMaster,
	"sizes that fit":                  askSelection,
	"clearance":                       askClearance,
	"clearance of ranges":             askClearances,
	"clearance with shells":           askShells,
	"installed diameter":              askInstalled,
	"journal for a clearance":         askJournal,
	"wall of an undersize":            askWall,
	"largest step between neighbours": askNeighbours,
	"change of ring gap":              askGap,
	"total indicator reading":         askTotal,
	"bend of a full turn":             askBend,
	"target ring gap":                 askTargetGap,
	"ring gap at the smallest":        askGapAt,
	"smallest oversize":               askSmallestOversize,
	"smallest undersize":              askSmallestUndersize,
	"clearance and shift of a pair":   askPair,
	"cooled":                          askCooled,
	"keyed beside":                    askKeyed,
	"figure of readings":              askFigure,
	"figure of a session":             askSessionFigure,
	"verdict of a session":            askSessionVerdict,
}

func askConvert(g *checkGiven) []checkAnswer {
	return []checkAnswer{inUnit(g.length("length").Exact(), g.to())}
}

func askRoundDigits(g *checkGiven) []checkAnswer {
	text, err := length.RoundSignificant(g.text("number"), g.whole("digits"))
	if err != nil {
		g.fail("%w", err)
	}
	return []checkAnswer{inWords(text)}
}

func askRoundStep(g *checkGiven) []checkAnswer {
	text, err := length.RoundStep(g.text("number"), g.text("step"))
	if err != nil {
		g.fail("%w", err)
	}
	return []checkAnswer{inWords(text)}
}

// askSideShown says on which side of its high limit a value is shown.
func askSideShown(g *checkGiven) []checkAnswer {
	value, high := g.length("value").Exact(), g.length("high").Length
	shown := g.parse(value.FormatBeside(g.unit(), g.whole("decimals"), length.Bound{At: high, High: true}))
	return []checkAnswer{inWords([]string{"below", "on", "above"}[shown.Exact().CmpLength(high)+1])}
}

func askHalf(g *checkGiven) []checkAnswer {
	return []checkAnswer{inUnit(g.length("length").Exact().Half(), g.to())}
}

func askMean(g *checkGiven) []checkAnswer {
	return []checkAnswer{inUnit(length.MeanOf(g.lengths("values")...), g.to())}
}

func askRange(g *checkGiven) []checkAnswer {
	values := g.lengths("values")
	return []checkAnswer{inUnit(length.Max(values...).Sub(length.Min(values...)), g.to())}
}

// askLine fits a line to the columns y and x of a file.
func askLine(g *checkGiven) []checkAnswer {
	var x, y []float64
	for _, row := range g.table("file") {
		y, x = append(y, g.number(row[0])), append(x, g.number(row[1]))
	}
	line, ok := form.FitLine(x, y)
	if !ok {
		g.fail("no line fits")
	}
	figures := map[string]float64{"intercept": line.Intercept, "slope": line.Slope, "residual": line.Residual, "R2": line.R2}
	f, ok := figures[g.text("figure")]
	if !ok {
		g.fail("a line has no figure %q", g.text("figure"))
	}
	return []checkAnswer{inNumbers(f)}
}

func (g *checkGiven) twoPoint() (smallest, largest length.Exact) {
	return form.TwoPoint(g.length("radius").Length, g.length("amplitude").Length, g.whole("lobes"))
}

func askTwoPoint(g *checkGiven) []checkAnswer {
	smallest, largest := g.twoPoint()
	return []checkAnswer{inUnit(smallest, g.to()), inUnit(largest, g.to())}
}

func askTwoPointVariation(g *checkGiven) []checkAnswer {
	smallest, largest := g.twoPoint()
	return []checkAnswer{inUnit(largest.Sub(smallest), g.to())}
}

func askConstantWidth(g *checkGiven) []checkAnswer {
	return []checkAnswer{inUnit(form.ConstantWidthRoundness(g.length("width").Length), g.to())}
}

// askSeen answers in percent.
func askSeen(g *checkGiven) []checkAnswer {
	low, high := form.SeenShare(g.wholes("angles"))
	return []checkAnswer{inNumbers(100 * low), inNumbers(100 * high)}
}

func askRangeFactor(g *checkGiven) []checkAnswer {
	d2, ok := doubt.RangeFactor(g.whole("readings"))
	if !ok {
		g.fail("there is no range factor")
	}
	return []checkAnswer{inNumbers(d2)}
}

// limits returns the limits that are given.
func (g *checkGiven) limits(on limit.Characteristic) limit.Limits {
	of := plan.Bore
	if on == limit.Step {
		of = plan.MainBearing
	}
	return limit.Limits{
		On: on, Of: string(of),
		New:  limit.Range{Low: g.maybe("new low"), High: g.maybe("new high")},
		Wear: limit.Range{Low: g.maybe("wear low"), High: g.maybe("wear high")},
		Per:  g.maybe("per"), Travel: g.maybe("travel"),
	}
}

// value returns the figure to judge: the one given, or what is made of values.
func (g *checkGiven) value() length.Exact {
	switch {
	case g.has("mean of"):
		return length.MeanOf(g.lengths("mean of")...)
	case g.has("spread of"):
		values := g.lengths("spread of")
		return length.Max(values...).Sub(length.Min(values...))
	}
	return g.length("value").Exact()
}

// inVerdict answers with the verdict; inside is inside by whichever limits.
func inVerdict(v limit.Verdict) checkAnswer {
	if v.Inside() {
		return inWords("inside")
	}
	return inWords(v.String())
}

func askJudge(g *checkGiven) []checkAnswer {
	l := g.limits(limit.Characteristic(g.text("on")))
	if err := l.Validate(); err != nil {
		g.fail("%w", err)
	}
	s := limit.Subject{Doubt: g.maybe("guard").Length, Guard: g.has("guard")}
	return []checkAnswer{inVerdict(l.Judge(g.value(), s).Verdict)}
}

func askJudgeClearance(g *checkGiven) []checkAnswer {
	j := g.limits(limit.Clearance).Judge(g.clearance().Judged, limit.Subject{})
	return []checkAnswer{inVerdict(j.Verdict)}
}

func askChance(g *checkGiven) []checkAnswer {
	r := limit.Range{Low: g.maybe("low"), High: g.maybe("high")}
	return []checkAnswer{inNumbers(r.Chance(g.length("value").Exact(), g.length("u").Exact().Float()))}
}

func askLimitsTaken(g *checkGiven) []checkAnswer {
	if g.limits(limit.Characteristic(g.text("on"))).Validate() != nil {
		return []checkAnswer{inWords("refused")}
	}
	return []checkAnswer{inWords("taken")}
}

// inLimits answers with every limit there is: low, high and wear.
func inLimits(u length.Unit, limits ...length.Written) []checkAnswer {
	var out []checkAnswer
	for _, w := range limits {
		if !w.IsZero() {
			out = append(out, inUnit(w.Exact(), u))
		}
	}
	return out
}

func askPerLength(g *checkGiven) []checkAnswer {
	l := g.limits(limit.Taper).Effective()
	return inLimits(g.to(), l.New.Low, l.New.High, l.Wear.Low, l.Wear.High)
}

func askOversize(g *checkGiven) []checkAnswer {
	l := g.limits(limit.Characteristic(g.text("on"))).Oversize(g.length("by"))
	return inLimits(g.to(), l.New.Low, l.New.High, l.Wear.Low, l.Wear.High)
}

func askMaster(g *checkGiven) []checkAnswer {
	r := limit.Range{Low: g.maybe("low"), High: g.maybe("high")}.Deviation(g.length("master"))
	return inLimits(g.to(), r.Low, r.High)
}

// askSelection asks which of two sizes an average fits.
func askSelection(g *checkGiven) []checkAnswer {
	var choices []fit.Choice
	for _, name := range []string{"standard", "first oversize"} {
		choices = append(choices, fit.Choice{Name: name, Range: g.span(name)})
	}
	fits := fit.Selection(choices, g.length("value").Exact())
	if len(fits) == 0 {
		return []checkAnswer{inWords(fits.String())}
	}
	var out []checkAnswer
	for _, name := range fits {
		out = append(out, inWords(name))
	}
	return out
}

func (g *checkGiven) clearance() fit.Clearance {
	return fit.Between(g.grid("hole"), g.grid("shaft"), fit.Definition(g.text("by")))
}

func askClearance(g *checkGiven) []checkAnswer {
	return []checkAnswer{inUnit(g.clearance().Judged, g.to())}
}

// inRange answers with the two ends of a range.
func inRange(r fit.Range, u length.Unit) []checkAnswer {
	return []checkAnswer{inUnit(length.Of(r.Low), u), inUnit(length.Of(r.High), u)}
}

func askClearances(g *checkGiven) []checkAnswer {
	return inRange(fit.Clearances(g.span("hole"), g.span("shaft")), g.to())
}

func askShells(g *checkGiven) []checkAnswer {
	change := fit.ShellChange(g.length("upper").Length, g.length("lower").Length)
	return []checkAnswer{inUnit(g.length("clearance").Exact().Add(change), g.to())}
}

func askInstalled(g *checkGiven) []checkAnswer {
	return inRange(fit.Installed(g.span("housing"), g.span("wall")), g.to())
}

func askJournal(g *checkGiven) []checkAnswer {
	journal, ok := fit.JournalFor(g.span("housing"), g.span("wall"), g.span("clearance"))
	if !ok {
		g.fail("no journal keeps the clearance")
	}
	return inRange(journal, g.to())
}

func askWall(g *checkGiven) []checkAnswer {
	return inRange(fit.UndersizeWall(g.span("standard"), g.length("undersize").Length), g.to())
}

// askNeighbours answers with the step and whether it keeps to its limit.
func askNeighbours(g *checkGiven) []checkAnswer {
	most, _ := fit.MostBetweenNeighbours(g.lengths("values"))
	l := limit.Limits{On: limit.OverallSpread, Wear: limit.Range{High: g.length("limit")}}
	return []checkAnswer{inUnit(most, g.to()), inVerdict(l.Judge(most, limit.Subject{}).Verdict)}
}

func askGap(g *checkGiven) []checkAnswer {
	return []checkAnswer{inUnit(fit.GapChange(g.length("bore").Exact()), g.to())}
}

// askKeyed keys a size beside another reading and answers with the slip it is
// held for and what was probably meant.
func askKeyed(g *checkGiven) []checkAnswer {
	r := gauge.Read(g.text("keyed"), gauge.Context{
		Instrument: gauge.Instrument{
			ID: "m1", Name: "micrometer", Kind: gauge.Direct, Contacts: 2, Unit: g.unit(), Graduation: g.length("graduation"),
		},
		Neighbours: g.lengths("beside"), Shape: plan.Hole,
	})
	if r.Kind != gauge.Held {
		return []checkAnswer{inWords(r.Kind.String())}
	}
	return []checkAnswer{inWords(r.Slip.String()), inWords(r.Likely)}
}

// figure returns the figure that the row names; a level or direction counts
// from 1.
func (g *checkGiven) figure(f form.Figures) length.Exact {
	switch name := g.text("figure"); name {
	case "overall spread":
		return f.Overall
	case "out-of-round":
		if i := g.whole("level") - 1; i >= 0 && i < len(f.Levels) {
			return f.Levels[i].OutOfRound
		}
	case "taper":
		if i := g.whole("direction") - 1; i >= 0 && i < len(f.Directions) {
			return f.Directions[i].EndToEnd
		}
	default:
		g.fail("there is no figure %q", name)
	}
	return length.Exact{}
}
