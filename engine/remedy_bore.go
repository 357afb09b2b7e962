package engine

import (
	"fmt"
	"strings"

	"borewright/engine/fit"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// HoneFor says what it takes to hone a bore to a target: the one that is given
// here, else the hone target, else the target of its size limits. Missing says
// in sentences what is not known.
func (s *Session) HoneFor(a *Assessment, bore plan.Feature, target length.Exact) (h fit.Hone, missing []string) {
	m, _ := a.Feature(bore)
	if !target.Measured() {
		target = s.honeTarget(bore)
	}
	if !target.Measured() {
		missing = append(missing, "no hone target is given")
	}
	allowance := s.givenLength(GivenFinish, bore)
	if !allowance.Measured() {
		missing = append(missing, "no finish allowance is given: none is taken")
		allowance = length.Of(0)
	}
	if m.Read < m.Planned-m.LeftOut {
		missing = append(missing, fmt.Sprintf("%d of its %d places are not read", m.Planned-m.LeftOut-m.Read, m.Planned))
	}
	return fit.HoneTo(m.Grid.Values, target, allowance), missing
}

// honeTarget is the size that a bore is honed to.
func (s *Session) honeTarget(bore plan.Feature) length.Exact {
	if e := s.givenLength(GivenHoneTarget, bore); e.Measured() {
		return e
	}
	l, _ := limit.Find(s.limits, limit.Size, bore)
	return l.Target.Exact()
}

// isBore reports whether a finding is of the size or the form of a bore.
func isBore(f Finding) bool {
	return f.Of.Family == plan.Bore && f.On != limit.Clearance
}

// bores has every bore that is too small or out of form honed, or says which
// oversize all of them need.
func (p *planner) bores() {
	for _, bore := range features(p.about(isBore)) {
		p.hone(bore, false)
	}
	if lost := p.about(isBore); len(lost) > 0 {
		p.oversize(lost)
	}
}

// features returns the features of findings, each once.
func features(fs []Finding) []plan.Feature {
	var out []plan.Feature
	for _, f := range fs {
		out = appendNew(out, f.Of)
	}
	return out
}

// hone hones a bore to its target, or where that is too small, and not the
// target alone will do, to the smallest size possible, if that helps.
func (p *planner) hone(bore plan.Feature, targetOnly bool) {
	asked, missing := p.s.HoneFor(p.a, bore, length.Exact{})
	least := fit.RoundUp(asked.Least, p.s.sees(plan.Bore))
	for _, target := range []length.Exact{asked.Target, least} {
		h, _ := p.s.HoneFor(p.a, bore, target)
		if !h.Possible || targetOnly && target != asked.Target {
			continue
		}
		note := missing
		if target != asked.Target && asked.Target.Measured() {
			note = append([]string{fmt.Sprintf("%s is no more to be reached", p.s.amount(asked.Target))}, missing...)
		}
		change := Change{Did: Hone, Of: bore, Size: p.s.Written(target)}
		if p.do(p.s.honeText(bore, h), []Change{change}, note...) {
			return
		}
	}
}

// honeText says how much there is to take at each level and where to dwell.
func (s *Session) honeText(bore plan.Feature, h fit.Hone) string {
	text := fmt.Sprintf("hone %s to %s: %s to take", s.Name(bore), s.amount(h.Target), s.stockText(bore, h))
	if where := s.dwellText(bore, h); where != "" {
		text += ", " + where
	}
	return text
}

// stockText lists the stock at each level.
func (s *Session) stockText(bore plan.Feature, h fit.Hone) string {
	g, _ := s.plan.Group(bore.Family)
	var out []string
	for i, stock := range h.Stock {
		if stock.Measured() {
			out = append(out, stock.Format(s.Unit(), s.Unit().Decimals())+" "+g.Levels[i].Called())
		}
	}
	return strings.Join(out, ", ")
}

// dwellText says where the hone dwells: never in which direction, for honing
// takes stock all round.
func (s *Session) dwellText(bore plan.Feature, h fit.Hone) string {
	g, _ := s.plan.Group(bore.Family)
	if len(h.Dwell) == 0 {
		return ""
	}
	most := h.Dwell[0]
	return fmt.Sprintf("dwell at the %s for %s more than the least", g.Levels[most].Called(), s.amount(h.Extra(most)))
}

// oversize says to which oversize all bores go: the smallest on the ladder that
// cleans up the worst.
func (p *planner) oversize(fs []Finding) {
	s := p.s
	all, largest, worst := s.extreme(p.a, plan.Bore, length.Max)
	fresh, limited := s.freshRange(plan.Bore)
	ladder, missing := s.rungs(plan.Bore)
	stock, takes, unknown := s.cleanUp(GivenReboreStock, plan.Bore)
	missing = append(missing, unknown...)
	need := fmt.Sprintf("%s is %s at its largest%s", s.Name(worst), s.amount(largest), takes)
	if h, _ := s.HoneFor(p.a, worst, length.Exact{}); limited && largest.CmpLength(fresh.High) <= 0 && h.Least.CmpLength(fresh.High) > 0 {
		need = fmt.Sprintf("%s is %s at its largest and no less than %s once it is honed%s", s.Name(worst), s.amount(largest), s.amount(h.Least), takes)
	}
	rung, ok := fit.Oversize(ladder, fresh, largest, stock)
	switch {
	case !limited:
		p.say(fs, "bore oversize: "+need, append(missing, "no new limits of the size of bores are given")...)
	case ok:
		r := rung.Bored(fresh)
		p.say(fs, fmt.Sprintf("bore all %d bores to the %s oversize, %s to %s: %s; pistons and rings follow",
			all, rung.Name, length.Of(r.Low).Format(s.Unit(), s.Unit().Decimals()), s.amount(length.Of(r.High)), need), missing...)
	case len(ladder) == 0:
		p.say(fs, "bore oversize: "+need, missing...)
	default:
		p.say(fs, "fit liners or another block: "+need+", more than any oversize of the ladder", missing...)
	}
}

// cleanUp returns the stock that cleaning up takes, what is said of it behind a
// size, and what is missing: where it is not given none is counted.
func (s *Session) cleanUp(name string, f plan.Family) (stock length.Exact, takes string, missing []string) {
	stock = s.givenLength(name, plan.Feature{Family: f})
	if !stock.Measured() {
		return length.Of(0), "", []string{"no " + name + " is given: what it takes to clean up is not counted"}
	}
	return stock, " and takes " + s.amount(stock) + " to clean up", nil
}

// extreme returns how many features a family has, the extreme of all their
// readings and whose it is.
func (s *Session) extreme(a *Assessment, f plan.Family, of func(...length.Exact) length.Exact) (n int, e length.Exact, at plan.Feature) {
	for _, m := range a.Features {
		if m.Of.Family != f {
			continue
		}
		n++
		own := of(m.Figures.Smallest, m.Figures.Largest)
		if all := of(e, own); own.Measured() && all.Cmp(e) != 0 {
			e, at = all, m.Of
		}
	}
	return n, e, at
}

// freshRange is the range of a new part of a family by its size limits.
func (s *Session) freshRange(f plan.Family) (fit.Range, bool) {
	l, ok := limit.Find(s.limits, limit.Size, plan.Feature{Family: f})
	r := l.Effective().New
	return fit.Range{Low: r.Low.Length, High: r.High.Length}, ok && !r.Low.IsZero() && !r.High.IsZero()
}

// HoneText says what it takes to hone a bore to a target, its own where none is
// given, and what is not known.
func (s *Session) HoneText(a *Assessment, bore plan.Feature, target length.Exact) (text string, missing []string) {
	h, missing := s.HoneFor(a, bore, target)
	least := "the least possible is " + s.amount(fit.RoundUp(h.Least, s.sees(plan.Bore)))
	switch {
	case !h.Least.Measured():
		return s.Name(bore) + " is not measured", missing
	case !h.Target.Measured():
		return least, missing
	case !h.Possible:
		return s.amount(h.Target) + " is no more to be reached: " + least, missing
	default:
		return s.honeText(bore, h), missing
	}
}
