package engine

import (
	"slices"

	"borewright/engine/limit"
	"borewright/engine/plan"
)

// Ranking is one member of a summary line and its findings, worst first.
type Ranking struct {
	Line plan.Line
	// At is the position, Label what the bench calls it.
	At    int
	Label string
	// Findings are worst first; there are none when nothing of it is judged. They are
	// the assessment's own, not to be changed: copies were a sixteenth of what a full
	// assessment allocated.
	Findings []*Finding
}

// Worst returns the member's worst finding; ok is false when it has none.
func (r Ranking) Worst() (f Finding, ok bool) {
	if len(r.Findings) == 0 {
		return Finding{}, false
	}
	return *r.Findings[0], true
}

// rank collects every finding, worst first and equals as they stood, and ranks the
// two lines by them. The findings stay where they are: to copy them was a third of
// what an Enter allocated.
func (a *Assessment) rank(s *Session) {
	all := make([]*Finding, 0, len(a.Features)+len(a.Clearances))
	for _, m := range a.Features {
		all = appendEach(all, m.findings)
	}
	for _, c := range a.Clearances {
		all = appendEach(all, c.findings)
	}
	all = appendEach(all, s.steps(a))
	slices.SortStableFunc(all, func(x, y *Finding) int { return limit.Compare(x.Judgement, y.Judgement) })
	a.Findings = all
	a.Cylinders = a.line(s, plan.CylinderLine, plan.Bore, s.layout.Cylinders)
	a.Mains = a.line(s, plan.CrankLine, plan.MainBearing, s.layout.Mains)
}

func appendEach(all []*Finding, fs []Finding) []*Finding {
	for i := range fs {
		all = append(all, &fs[i])
	}
	return all
}

// line ranks the members of a summary line. The crank line ends with the
// thrust, at position 0, when its end play is measured.
func (a *Assessment) line(s *Session, l plan.Line, head plan.Family, n int) []Ranking {
	out := make([]Ranking, n, n+1)
	for i := range out {
		out[i] = Ranking{Line: l, At: i + 1, Label: s.layout.Label(plan.Feature{Family: head, At: i + 1})}
	}
	if l == plan.CrankLine && s.planned(plan.EndPlay) {
		out = append(out, Ranking{Line: l, Label: "thrust"})
	}
	for i := range out {
		out[i].Findings = a.findingsAt(l, out[i].At)
	}
	slices.SortStableFunc(out, compareWorst)
	return out
}

// findingsAt returns the findings of one place of a line, worst first.
func (a *Assessment) findingsAt(l plan.Line, at int) []*Finding {
	var out []*Finding
	for _, f := range a.Findings {
		if f.isAt(l, at) {
			out = append(out, f)
		}
	}
	return out
}

func (f *Finding) isAt(l plan.Line, at int) bool {
	return slices.Contains(f.at, at) && f.Of.Family.Line() == l
}

func compareWorst(x, y Ranking) int {
	hasX, hasY := len(x.Findings) > 0, len(y.Findings) > 0
	switch {
	case hasX && hasY:
		return limit.Compare(x.Findings[0].Judgement, y.Findings[0].Judgement)
	case hasX:
		return -1
	case hasY:
		return 1
	default:
		return 0
	}
}

// Outside counts the findings outside their limits.
func (a *Assessment) Outside() int {
	n := 0
	for _, f := range a.Findings {
		if f.Judgement.Verdict == limit.Outside {
			n++
		}
	}
	return n
}

// WorstMargin returns the largest margin used; ok is false when nothing has a
// margin.
func (a *Assessment) WorstMargin() (m float64, ok bool) {
	for _, f := range a.Findings {
		if f.Judgement.Ranked {
			m, ok = max(m, f.Judgement.Margin), true
		}
	}
	return m, ok
}
