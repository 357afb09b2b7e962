package engine

import (
	"fmt"

	"borewright/engine/fit"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// steps judges the rules that stand beside single limits: how far a main's
// clearance may be from its neighbour's, and a liner's protrusion. Each is one
// finding, of the two that are furthest apart.
func (s *Session) steps(a *Assessment) []Finding {
	var out []Finding
	for i := range s.limits {
		l := &s.limits[i]
		if l.On != limit.Step {
			continue
		}
		family := plan.Family(l.Of)
		t, _ := family.Traits()
		figures := make([]length.Exact, t.Count(s.layout))
		for i := range figures {
			figures[i] = s.stepFigure(a, plan.Feature{Family: family, At: i + 1})
		}
		out = append(out, s.step(family, l, figures))
	}
	return out
}

// stepFigure is what is compared of a feature: a bearing's clearance, assembled
// before from parts, else the mean of what is read.
func (s *Session) stepFigure(a *Assessment, f plan.Feature) length.Exact {
	if f.Family != plan.MainBearing {
		m, _ := a.Feature(f)
		return m.Figures.Mean
	}
	for _, c := range a.Clearances {
		if c.Hole == f && c.Clearance.Judged.Measured() {
			return c.Clearance.Judged
		}
	}
	return length.Exact{}
}

// step judges the largest step in a row of figures.
func (s *Session) step(f plan.Family, l *limit.Limits, figures []length.Exact) Finding {
	most, at := fit.MostBetweenNeighbours(figures)
	out := Finding{Of: plan.Feature{Family: f, At: 1}, On: l.On, By: s.definition(l), Limits: effective(l), Value: most}
	out.Judgement = out.Limits.Judge(most, limit.Subject{Judge: s.rules.Judge})
	if at < 0 {
		out.Text = f.Plural() + ": " + string(l.On) + " not measured"
		return out
	}
	out.Of.At, out.at = at+1, []int{at + 1, at + 2}
	out.With = plan.Feature{Family: f, At: at + 2}
	out.Text = fmt.Sprintf("%s %s and %s: %s %s%s", f.Plural(), s.layout.Label(out.Of), s.layout.Label(out.With), l.On,
		out.Shown(s.Unit(), s.Unit().Decimals()), s.against(&out))
	return out
}
