package engine_test

import (
	"borewright/engine/fit"
	"borewright/engine/length"
)

// exact returns one length as it is computed with.
func (g *checkGiven) exact(name string) length.Exact { return g.length(name).Exact() }

func askTotal(g *checkGiven) []checkAnswer {
	return []checkAnswer{inUnit(fit.Total(g.lengths("shown")...), g.to())}
}

func askBend(g *checkGiven) []checkAnswer {
	return []checkAnswer{inUnit(fit.Bend(g.exact("total")), g.to())}
}

func askTargetGap(g *checkGiven) []checkAnswer {
	return []checkAnswer{inUnit(fit.TargetGap(g.length("gap").Length, g.length("per").Length, g.exact("bore")), g.to())}
}

func askGapAt(g *checkGiven) []checkAnswer {
	return []checkAnswer{inUnit(fit.GapAt(g.exact("gap"), g.exact("measured"), g.exact("smallest")), g.to())}
}

// rungs returns a ladder of steps named as they are given.
func (g *checkGiven) rungs() []fit.Rung {
	var out []fit.Rung
	for _, e := range g.lengths("ladder") {
		out = append(out, fit.Rung{Name: e.Format(g.unit(), 3), By: e.Round()})
	}
	return out
}

// inRung answers with the rung and the range of a part on it.
func inRung(r fit.Rung, ok bool, part fit.Range, u length.Unit) []checkAnswer {
	if !ok {
		return []checkAnswer{inWords("no step")}
	}
	return append([]checkAnswer{inUnit(length.Of(r.By), u)}, inRange(part, u)...)
}

func askSmallestOversize(g *checkGiven) []checkAnswer {
	r, ok := fit.Oversize(g.rungs(), g.span("fresh"), g.exact("largest"), g.exact("stock"))
	return inRung(r, ok, r.Bored(g.span("fresh")), g.to())
}

func askSmallestUndersize(g *checkGiven) []checkAnswer {
	r, ok := fit.Undersize(g.rungs(), g.span("fresh"), g.exact("smallest"), g.exact("stock"))
	return inRung(r, ok, r.Ground(g.span("fresh")), g.to())
}

// askPair answers with the change of the clearance by a pair of halves, and with
// the shift of the centre line.
func askPair(g *checkGiven) []checkAnswer {
	var on []fit.Shell
	for _, name := range []string{"upper", "lower"} {
		on = append(on, fit.Undersized(name, g.length(name).Length, 1))
	}
	h := fit.Halves{Upper: 0, Lower: 1}
	standard := length.Of(0)
	return []checkAnswer{inUnit(g.exact("clearance").Add(h.Change(on, standard, standard)), g.to()), inUnit(h.Shift(on), g.to())}
}

func askCooled(g *checkGiven) []checkAnswer {
	return []checkAnswer{inUnit(fit.Cooled(g.exact("length"), g.number(g.text("alpha")), g.number(g.text("rise"))), g.to())}
}
