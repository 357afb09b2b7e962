package engine

import (
	"fmt"
	"strings"

	"borewright/engine/fit"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// journals says to which undersize all journals are ground when one must be:
// the smallest on the ladder that cleans up the worst. One that is too large
// is ground to its limit.
func (p *planner) journals() {
	for _, family := range []plan.Family{plan.MainJournal, plan.RodJournal} {
		own := func(f Finding) bool { return f.Of.Family == family && f.On != limit.Clearance }
		for _, f := range p.about(own) {
			if f.On == limit.Size && !f.Judgement.LowSide {
				p.grind(f)
			}
		}
		if fs := p.about(own); len(fs) > 0 {
			p.undersize(family, fs)
		}
	}
}

// grind takes a journal that is too large to its high limit.
func (p *planner) grind(f Finding) {
	over := f.Value.Sub(f.Judgement.High)
	c := Change{Did: Grind, Of: f.Of, Size: p.s.Written(f.Judgement.High)}
	p.do(fmt.Sprintf("polish or grind %s to %s, %s off where it is largest", p.s.Name(f.Of), p.s.amount(f.Judgement.High), p.s.amount(over)), []Change{c})
}

// undersize says which undersize all journals of a family are ground to.
func (p *planner) undersize(family plan.Family, fs []Finding) {
	s := p.s
	all, least, worst := s.extreme(p.a, family, length.Min)
	fresh, limited := s.freshRange(family)
	ladder, missing := s.rungs(family)
	stock, takes, unknown := s.cleanUp(GivenGrindStock, family)
	missing = append(missing, unknown...)
	need := fmt.Sprintf("%s is %s at its smallest%s", s.Name(worst), s.amount(least), takes)
	rung, ok := fit.Undersize(ladder, fresh, least, stock)
	switch {
	case !limited:
		p.say(fs, "grind undersize: "+need, append(missing, "no new limits of the size of "+family.Plural()+" are given")...)
	case ok:
		r := rung.Ground(fresh)
		p.say(fs, fmt.Sprintf("grind all %d %s to the %s undersize, %s to %s: %s; %s", all, family.Plural(), rung.Name,
			length.Of(r.Low).Format(s.Unit(), s.Unit().Decimals()), s.amount(length.Of(r.High)), need, s.shellsFollow(family, rung, all)), missing...)
	case len(ladder) == 0:
		p.say(fs, "grind undersize: "+need, missing...)
	default:
		p.say(fs, "another crank: "+need+", more than any undersize of the ladder", missing...)
	}
}

// shellsFollow says which shells a ground crank takes and how many are on hand.
func (s *Session) shellsFollow(journal plan.Family, rung fit.Rung, journals int) string {
	shell, halves := plan.ShellMain, 2*journals
	if journal == plan.RodJournal {
		shell, halves = plan.ShellRod, 2*s.layout.Cylinders
	}
	have := 0
	for _, one := range s.onHand(shell).shells {
		if one.Wall.Times(2).CmpLength(rung.By) == 0 {
			have += one.Count
		}
	}
	switch {
	case len(s.onHand(shell).shells) == 0:
		return fmt.Sprintf("%d halves of that undersize follow, none is said to be on hand", halves)
	case have == 1:
		return fmt.Sprintf("%d halves of that undersize follow, 1 is on hand", halves)
	default:
		return fmt.Sprintf("%d halves of that undersize follow, %d are on hand", halves, have)
	}
}

// isShells reports whether a finding can be cured by other shells.
func isShells(bearing plan.Family) func(Finding) bool {
	return func(f Finding) bool { return f.Of.Family == bearing && (f.On == limit.Clearance || f.On == limit.Step) }
}

// shells fits other shells where a clearance is outside; where that does not
// do, the whole crank is chosen anew.
func (p *planner) shells() {
	for _, bearing := range []plan.Family{plan.MainBearing, plan.RodBearing} {
		is := isShells(bearing)
		if len(p.about(is)) == 0 {
			continue
		}
		x := p.s.shellPlan(p.a, bearing, func(f Finding) bool { return f.Judgement.Verdict == limit.Outside })
		p.fitShells(x)
		if len(p.about(is)) > 0 {
			x = p.s.Shells(p.a, bearing)
			p.fitShells(x)
		}
		for _, f := range p.about(is) {
			p.say([]Finding{f}, p.s.shellsNeeded(f), x.Missing...)
		}
	}
}

// fitShells gives a shell plan as one remedy, if it helps.
func (p *planner) fitShells(x ShellPlan) {
	if len(x.Changes) == 0 {
		return
	}
	p.do("fit shells, upper/lower: "+p.s.shellsText(x), x.Changes)
}

// shellsText lists the bearings that get other shells.
func (s *Session) shellsText(x ShellPlan) string {
	u := s.Unit()
	var out []string
	for _, r := range x.Rows {
		if r.BestUpper == "" {
			continue
		}
		text := fmt.Sprintf("%s %s/%s, clearance %s to %s", r.Name, r.BestUpper, r.BestLower, r.NowFit.Value.Format(u, u.Decimals()), s.amount(r.BestFit.Value))
		if r.Shift.Sign() != 0 {
			text += ", centre line " + s.shiftText(r.Shift)
		}
		out = append(out, text)
	}
	return strings.Join(out, "; ")
}

// shiftText says by how much and which way the centre line moves.
func (s *Session) shiftText(e length.Exact) string {
	u := s.Unit()
	way := "up"
	if e.Sign() < 0 {
		way = "down"
	}
	return e.Abs().Format(u, u.Decimals()+1) + " " + u.String() + " " + way
}

// shellsNeeded says how much the clearance must change, where no shells on hand
// do that.
func (s *Session) shellsNeeded(f Finding) string {
	if f.On == limit.Step {
		return fmt.Sprintf("bring %s and %s nearer by %s", s.Name(f.Of), s.Name(f.With), s.amount(f.Value.Sub(f.Judgement.High)))
	}
	return fmt.Sprintf("%s needs %s clearance: other shells or another journal", s.Name(f.Of), s.room(f))
}

// room says how much more or less a finding may be to be inside.
func (s *Session) room(f Finding) string {
	u := s.Unit()
	least, most := f.Judgement.Low.Sub(f.Value), f.Judgement.High.Sub(f.Value)
	word := "more"
	if !f.Judgement.LowSide {
		least, most, word = most.Neg(), least.Neg(), "less"
	}
	switch {
	case !most.Measured():
		return s.amount(least) + " " + word + " at least"
	default:
		return least.Format(u, u.Decimals()) + " to " + s.amount(most) + " " + word
	}
}
