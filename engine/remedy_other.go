package engine

import (
	"fmt"
	"strings"

	"borewright/engine/fit"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// rings files the gaps that are too small and replaces the rings whose gaps are
// too large.
func (p *planner) rings() {
	for _, f := range p.about(func(f Finding) bool { return f.On == limit.EndGap }) {
		r := p.s.Ring(p.a, f.Of)
		if !f.Judgement.LowSide {
			over := p.s.amount(f.Value.Sub(f.Judgement.High))
			p.say([]Finding{f}, fmt.Sprintf("replace %s: its gap is %s over, and a gap is not closed", ringName(p.s, f.Of), over))
			continue
		}
		p.file(f, r)
	}
}

// ringName names a ring by its gap's name.
func ringName(s *Session, gap plan.Feature) string {
	return strings.Replace(s.Name(gap), " gap", "", 1)
}

// file files a gap to its target, or where that is not enough to what its
// limits ask for, at the smallest place of the ring's travel: what is to be read
// is as much wider as it was read wider before.
func (p *planner) file(f Finding, r Ring) {
	wider := r.Read.Sub(r.Gap)
	for _, gap := range []length.Exact{r.Target, aim(f), f.Judgement.Low} {
		to := fit.RoundUp(gap.Add(wider), p.s.sees(f.Of.Family))
		if !to.Measured() || gap.Cmp(f.Judgement.Low) < 0 {
			continue
		}
		text := fmt.Sprintf("file %s to a gap of %s: %s to take", ringName(p.s, f.Of), p.s.amount(to), p.s.amount(to.Sub(r.Read)))
		if r.Corrected {
			text += fmt.Sprintf(", its gap being %s at the smallest place of its travel", p.s.amount(r.Gap))
		}
		if p.do(text, []Change{{Did: File, Of: f.Of, Size: p.s.Written(to)}}, r.Missing...) {
			return
		}
	}
	p.say([]Finding{f}, fmt.Sprintf("file %s by %s", ringName(p.s, f.Of), p.s.amount(f.Judgement.Low.Sub(f.Value))), r.Missing...)
}

// singles are the remedies of what stands alone.
func (p *planner) singles() {
	for len(p.open) > 0 {
		f := p.open[0]
		switch f.On {
		case limit.EndPlay:
			p.endPlay(f)
		case limit.Protrusion:
			p.bring(f, "shims or a deeper seat")
		case limit.Step:
			p.say([]Finding{f}, p.s.shellsNeeded(f))
		default:
			p.say([]Finding{f}, p.s.single(f))
		}
	}
}

// single says what is to be done about a finding that has one way out.
func (s *Session) single(f Finding) string {
	name := s.Name(f.Of)
	switch f.On {
	case limit.Runout:
		return fmt.Sprintf("the crank is bent %s at %s, half the total reading: straighten or grind it", s.amount(fit.Bend(f.Value)), s.Name(plan.Feature{Family: plan.MainJournal, At: f.Of.At}))
	case limit.Flatness:
		return fmt.Sprintf("surface the %s: at least %s comes off", name, s.amount(f.Value))
	case limit.DeckClearance:
		if f.Judgement.LowSide {
			return fmt.Sprintf("%s needs %s: a thicker gasket, or that much off the piston", name, s.room(f))
		}
		return fmt.Sprintf("deck the block: %s over cylinder %s", s.room(f), s.layout.Label(f.Of))
	case limit.SideClearance:
		return s.sideText(f)
	case limit.Wall:
		return fmt.Sprintf("another shell for the %s: its wall needs %s", name, s.room(f))
	case limit.Clearance:
		return fmt.Sprintf("%s needs %s clearance", name, s.room(f))
	case limit.Size:
		return fmt.Sprintf("%s needs to be %s", name, s.room(f))
	default:
		return fmt.Sprintf("%s: true it up or replace it, %s", name, s.room(f))
	}
}

// sideText says what to do about a side clearance: two rods on one journal share
// theirs.
func (s *Session) sideText(f Finding) string {
	name := s.Name(f.Of)
	rods := s.layout.CylindersOn(f.Of.At)
	switch {
	case f.Of.Family != plan.RodSide && f.Judgement.LowSide:
		return fmt.Sprintf("another ring or a wider groove: %s needs %s", name, s.room(f))
	case f.Of.Family != plan.RodSide:
		return fmt.Sprintf("another piston or a thicker ring: %s needs %s", name, s.room(f))
	case !f.Judgement.LowSide:
		return fmt.Sprintf("wider rods or another crank: %s needs %s", name, s.room(f))
	case len(rods) > 1:
		return fmt.Sprintf("take %s off the sides of the %d rods at journal %s together", strings.TrimSuffix(s.room(f), " more"), len(rods), s.layout.Label(f.Of))
	default:
		return fmt.Sprintf("take %s off the sides of the rod at journal %s", strings.TrimSuffix(s.room(f), " more"), s.layout.Label(f.Of))
	}
}

// bring brings a figure to where it should be.
func (p *planner) bring(f Finding, with string) {
	to := aim(f)
	by := to.Sub(f.Value)
	text := fmt.Sprintf("bring %s to %s with %s: %s %s", p.s.Name(f.Of), p.s.amount(to), with, by.FormatSigned(p.s.Unit(), p.s.Unit().Decimals()), p.s.Unit())
	if !p.do(text, []Change{{Did: Bring, Of: f.Of, Size: p.s.Written(to)}}) {
		p.say([]Finding{f}, text)
	}
}

// endPlay takes up end play with thicker washers, or says how much thinner they
// must be.
func (p *planner) endPlay(f Finding) {
	s := p.s
	if f.Judgement.LowSide {
		p.say([]Finding{f}, fmt.Sprintf("thinner thrust washers, or the flange faced: the end play needs %s", s.room(f)))
		return
	}
	ladder, missing := s.rungs(plan.EndPlay)
	best, ok := s.washers(f, ladder)
	if !ok {
		p.say([]Finding{f}, fmt.Sprintf("thicker thrust washers: the end play needs %s", s.room(f)), missing...)
		return
	}
	text := fmt.Sprintf("fit thrust washers %s, %s thicker in all: end play %s to %s", strings.Join(best.Names, " and "),
		s.amount(length.Of(best.Thick)), f.Value.Format(s.Unit(), s.Unit().Decimals()), s.amount(best.Play))
	if !p.do(text, []Change{{Did: Bring, Of: f.Of, Size: s.Written(best.Play)}}) {
		p.say([]Finding{f}, text)
	}
}

// washers returns the washers that use the least margin; ok is false when none
// brings the end play in.
func (s *Session) washers(f Finding, ladder []fit.Rung) (best fit.Washers, ok bool) {
	var least limit.Judgement
	for _, w := range fit.WithWashers(ladder, f.Value) {
		j := f.Limits.Judge(w.Play, limit.Subject{Judge: s.rules.Judge})
		if j.Verdict.Inside() && (!ok || limit.Compare(j, least) > 0) {
			best, least, ok = w, j, true
		}
	}
	return best, ok
}
