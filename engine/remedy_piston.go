package engine

import (
	"fmt"
	"strings"

	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/match"
	"borewright/engine/plan"
)

// pistons puts pistons, and rods, where they fit better, when the clearance
// that they make is outside where they are. A bore that stays too tight is honed
// where a target says to which size.
func (p *planner) pistons() {
	for _, k := range []struct{ part, hole plan.Family }{{plan.Piston, plan.Bore}, {plan.Rod, plan.RodBearing}} {
		is := func(f Finding) bool { return f.Of.Family == k.hole && f.On == limit.Clearance }
		if len(p.about(is)) == 0 {
			continue
		}
		x := p.s.Arrange(p.a, k.part)
		if len(x.Changes) > 0 {
			p.do(p.s.seatsText(x), x.Changes)
		}
		for _, f := range p.about(is) {
			if k.part == plan.Piston && f.Judgement.LowSide {
				p.hone(f.Of, true)
			}
		}
		for _, f := range p.about(is) {
			p.say([]Finding{f}, p.s.pistonNeeded(f, k.part), x.Missing...)
		}
	}
}

// seatsText says which parts go where, and what is gained.
func (s *Session) seatsText(x Arrangement) string {
	var out []string
	for _, seat := range x.Seats {
		if seat.Best != seat.Now && !seat.Best.IsZero() {
			out = append(out, fmt.Sprintf("%s to %s", s.Name(seat.Best), seat.Name))
		}
	}
	return "move " + strings.Join(out, ", ") + ": " + GainText(x.Now, x.Best)
}

// GainText says how much better one arrangement is than another.
func GainText(now, best match.Score) string {
	var out []string
	if now.Unfilled != best.Unfilled {
		out = append(out, fmt.Sprintf("empty %d to %d", now.Unfilled, best.Unfilled))
	}
	if now.Outside != best.Outside {
		out = append(out, fmt.Sprintf("outside %d to %d", now.Outside, best.Outside))
	}
	if now.Breaches != best.Breaches {
		out = append(out, fmt.Sprintf("neighbours too far apart %d to %d", now.Breaches, best.Breaches))
	}
	if now.Worst != best.Worst {
		out = append(out, "worst margin used "+MarginText(now.Worst.Share())+" to "+MarginText(best.Worst.Share()))
	} else if now.Sum != best.Sum {
		out = append(out, "margins used in all "+MarginText(now.Sum.Share())+" to "+MarginText(best.Sum.Share()))
	}
	if len(out) == 0 {
		return "nothing is gained"
	}
	return strings.Join(out, ", ")
}

// pistonNeeded says what would do where no arrangement does.
func (s *Session) pistonNeeded(f Finding, part plan.Family) string {
	if part != plan.Piston {
		return fmt.Sprintf("%s needs %s clearance: another rod or other shells", s.Name(f.Of), s.room(f))
	}
	least, most := f.Value.Sub(f.Judgement.High), f.Value.Sub(f.Judgement.Low)
	word := "larger"
	if f.Judgement.LowSide {
		least, most, word = most.Neg(), least.Neg(), "smaller"
	}
	text := fmt.Sprintf("no piston here fits %s: it takes one that is %s", s.Name(f.Of), s.amount(least))
	if most.Measured() {
		text = fmt.Sprintf("no piston here fits %s: it takes one that is %s to %s", s.Name(f.Of), least.Format(s.Unit(), s.Unit().Decimals()), s.amount(most))
	}
	return text + " " + word
}

// aim is what a finding should be: the target, else the middle of both limits,
// else the one limit there is.
func aim(f Finding) length.Exact {
	j := f.Judgement
	switch {
	case j.Target.Measured():
		return j.Target
	case j.Low.Measured() && j.High.Measured():
		return j.Low.Add(j.High).Half()
	case j.Low.Measured():
		return j.Low
	default:
		return j.High
	}
}
