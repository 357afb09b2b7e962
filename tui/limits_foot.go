package tui

import (
	"fmt"
	"strings"

	"borewright/engine"
	"borewright/engine/limit"
	"borewright/tui/draw"
)

// worstBy returns the worst finding that limits made; one that is not measured
// only where nothing is.
func (s *limitsScreen) worstBy(l limit.Limits) (worst engine.Finding, ok bool) {
	for _, f := range s.findingsBy(l) {
		if !ok || worst.Judgement.Verdict == limit.NotMeasured {
			worst, ok = f, true
		}
	}
	return worst, ok
}

// findingsBy returns the findings that limits made, the worst first.
func (s *limitsScreen) findingsBy(l limit.Limits) []engine.Finding {
	var out []engine.Finding
	for _, f := range s.desk.Now.Findings {
		if f.On == l.On && f.Limits.Of == l.Of && f.Limits.By == l.By {
			out = append(out, *f)
		}
	}
	return out
}

// foot says of the marked limits what the verdict is by them, by which
// definition, how they judge, where they come from, and what is doubtful.
func (s *limitsScreen) foot() []string {
	r, ok := s.marked()
	if !ok {
		return nil
	}
	if !r.given() {
		return s.say(draw.Dim, "Nothing limits this of "+r.family.Plural()+": "+joined(r.open)+". Enter gives limits.", 2)
	}
	var out []string
	for _, d := range r.doubts {
		out = append(out, s.say(draw.Warn, "? "+d.String(), 3)...)
	}
	if f, ok := s.worstBy(r.limits); ok {
		tone := verdictTone(f.Judgement)
		out = append(out, s.say(tone, s.st.Signs.For(tone)+" "+f.Judgement.Verdict.String()+": "+f.Text+s.among(r.limits), 2)...)
	}
	out = append(out, s.say(draw.Plain, s.terms(r.limits), 2)...)
	return append(out, s.say(draw.Dim, "from: "+r.limits.Source, 3)...)
}

// among says how many the limits judge, and how many of them are measured.
func (s *limitsScreen) among(l limit.Limits) string {
	all := s.findingsBy(l)
	measured := 0
	for _, f := range all {
		if f.Judgement.Verdict != limit.NotMeasured {
			measured++
		}
	}
	if len(all) < 2 || measured == 0 {
		return ""
	}
	return fmt.Sprintf("; the worst of %d measured, of %d", measured, len(all))
}

// definition is the one that limits judge by in this session.
func (s *limitsScreen) definition(l limit.Limits) limit.Definition {
	if f, ok := s.worstBy(l); ok {
		return f.By
	}
	return l.Definition("")
}

// terms say by which definition, in effect how much, and by which side limits
// judge.
func (s *limitsScreen) terms(l limit.Limits) string {
	chosen := func(by string) string {
		if by == "" {
			return ""
		}
		return ", chosen here"
	}
	out := []string{limitTitle(s.desk.Session, l) + " is " + string(s.definition(l)) + chosen(string(l.By))}
	if text := inEffect(l); text != "" {
		out = append(out, fmt.Sprintf("per %s over %s: %s", l.Per, l.Travel, text))
	}
	by := "judged by " + l.JudgedBy(s.desk.Session.Rules().Judge) + chosen(l.JudgeBy)
	return strings.Join(append(out, by), "; ")
}

func (s *limitsScreen) say(tone draw.Tone, text string, most int) []string {
	return wrapped(s.st, s.w, tone, text, most)
}

// limitTitle names what is limited: "taper of bores", "size of bore 4".
func limitTitle(s *engine.Session, l limit.Limits) string {
	return string(l.On) + " of " + s.NameOf(l.Of)
}

// inEffect says what limits per length come to, or "" for plain ones and ones
// that come to nothing.
func inEffect(l limit.Limits) string {
	if l.Per.IsZero() || l.Travel.IsZero() {
		return ""
	}
	e := l.Effective()
	var out []string
	for _, f := range limit.Fields() {
		if w := e.At(f); !w.IsZero() {
			out = append(out, string(f)+" "+w.String())
		}
	}
	return strings.Join(out, ", ")
}
