package engine

import (
	"fmt"
	"slices"
	"strings"

	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// Remedy is a concrete next action with a number, for one finding or several.
type Remedy struct {
	// Text says what to do in one sentence, with what is not known after it.
	Text string
	// For are the findings it is for, as they were judged.
	For []Finding
	// Changes are what it does, for Trial and for recording as intended; none
	// where what it asks for has no single outcome.
	Changes []Change
}

// matter is what a finding is about: which characteristic of which feature, by
// which definition.
type matter struct {
	of plan.Feature
	on limit.Characteristic
	by limit.Definition
}

func matterOf(f Finding) matter { return matter{f.Of, f.On, f.By} }

// Remedies returns what to do about every finding that is outside its limits or
// too close to call, in the order in which it is done: bores are honed before
// pistons are put in them and rings are filed for them. Each one is worked out
// with those before it done, and none is given that would bring something else
// outside its limits.
func (a *Assessment) Remedies(s *Session) []Remedy {
	if a.remedies == nil {
		a.remedies = s.remedies(a)
	}
	return a.remedies
}

// Remedy returns what to do about a finding as a sentence, "" when there is
// nothing to do, or nothing that is known.
func (a *Assessment) Remedy(s *Session, f Finding) string {
	for _, r := range a.Remedies(s) {
		for _, x := range r.For {
			if matterOf(x) == matterOf(f) {
				return r.Text
			}
		}
	}
	return ""
}

// planner works remedies out one after another.
type planner struct {
	// s and a are as all remedies so far would leave them.
	s *Session
	a *Assessment
	// open are the findings that have no remedy yet.
	open []Finding
	out  []Remedy
}

func (s *Session) remedies(a *Assessment) []Remedy {
	p := &planner{s: s, a: a, out: []Remedy{}}
	for _, f := range a.Findings {
		if v := f.Judgement.Verdict; v == limit.Outside || v == limit.TooClose {
			p.open = append(p.open, *f)
		}
	}
	if len(p.open) == 0 {
		return p.out
	}
	p.doubtful()
	p.bores()
	p.journals()
	p.shells()
	p.pistons()
	p.rings()
	p.singles()
	return p.out
}

// doubtful has measured again what rests on a zero that is not believed, and
// says what settles what is too close to call: no metal is moved for either.
func (p *planner) doubtful() {
	again := len(p.s.MeasureAgain())
	p.each(func(f Finding) bool { return f.Judgement.Suspect && again > 0 }, func(f Finding) string {
		return fmt.Sprintf("measure again first, %d places: the gauge's zero could not be believed", again)
	})
	p.each(func(f Finding) bool { return f.Judgement.Verdict == limit.TooClose }, func(f Finding) string {
		return f.Doubt.Settles
	})
}

// each gives a remedy without changes to every open finding of a kind.
func (p *planner) each(is func(Finding) bool, text func(Finding) string) {
	for _, f := range p.take(is) {
		if t := text(f); t != "" {
			p.out = append(p.out, Remedy{Text: t, For: []Finding{f}})
		}
	}
}

// about returns the open findings of a kind.
func (p *planner) about(is func(Finding) bool) []Finding {
	var out []Finding
	for _, f := range p.open {
		if is(f) {
			out = append(out, f)
		}
	}
	return out
}

// take returns the open findings of a kind, which then have their remedy.
func (p *planner) take(is func(Finding) bool) []Finding {
	out := p.about(is)
	var left []Finding
	for _, f := range p.open {
		if !is(f) {
			left = append(left, f)
		}
	}
	p.open = left
	return out
}

// say gives a remedy without changes to findings.
func (p *planner) say(fs []Finding, text string, missing ...string) {
	if len(fs) == 0 {
		return
	}
	p.take(func(f Finding) bool { return holds(fs, f) })
	p.out = append(p.out, Remedy{Text: sentenceWith(text, missing), For: fs})
}

// do gives a remedy with changes to the findings that it brings in, if it
// brings any in and nothing else out; it reports whether it does.
func (p *planner) do(text string, changes []Change, missing ...string) bool {
	s, a, err := p.s.Trial(changes...)
	if err != nil || !noWorse(p.a, a) {
		return false
	}
	cured := p.take(func(f Finding) bool { return !isOutside(a, f) })
	if len(cured) == 0 {
		return false
	}
	p.s, p.a = s, a
	p.out = append(p.out, Remedy{Text: sentenceWith(text, missing), For: cured, Changes: changes})
	return true
}

func holds(fs []Finding, f Finding) bool {
	_, ok := find(fs, func(x *Finding) bool { return matterOf(*x) == matterOf(f) })
	return ok
}

// isOutside reports whether what a finding is about is outside in an
// assessment.
func isOutside(a *Assessment, f Finding) bool {
	i := slices.IndexFunc(a.Findings, func(x *Finding) bool { return matterOf(*x) == matterOf(f) })
	return i >= 0 && a.Findings[i].Judgement.Verdict == limit.Outside
}

// noWorse reports whether nothing is outside that was not.
func noWorse(before, after *Assessment) bool {
	for _, f := range after.Findings {
		if f.Judgement.Verdict == limit.Outside && !isOutside(before, *f) {
			return false
		}
	}
	return true
}

func sentenceWith(text string, missing []string) string {
	return strings.Join(append([]string{text}, missing...), "; ")
}

// amount writes a length in the session's unit, with one decimal more than
// usual where it takes that.
func (s *Session) amount(e length.Exact) string {
	u := s.Unit()
	places := u.Decimals()
	if e.Measured() && e.Round()%(u.Size()/tenTo(places)) != 0 {
		places++
	}
	return e.Format(u, places) + " " + u.String()
}

func tenTo(n int) length.Length {
	out := length.Length(1)
	for range n {
		out *= 10
	}
	return out
}
