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

// rank collects every finding, worst first, and ranks the two lines by them.
func (a *Assessment) rank(s *Session) {
	var parts [][]Finding
	for i := range a.Features {
		parts = append(parts, a.Features[i].findings)
	}
	for i := range a.Clearances {
		parts = append(parts, a.Clearances[i].findings)
	}
	a.Findings = worstFirst(append(parts, s.steps(a)))
	a.Cylinders = a.line(s, plan.CylinderLine, plan.Bore, s.layout.Cylinders)
	a.Mains = a.line(s, plan.CrankLine, plan.MainBearing, s.layout.Mains)
}

// worstFirst returns findings in order, equals as they stood. It sorts where they
// stand, because a finding is three quarters of a kilobyte to move.
func worstFirst(parts [][]Finding) []Finding {
	n := 0
	for _, part := range parts {
		n += len(part)
	}
	all := make([]*Finding, 0, n)
	for _, part := range parts {
		for i := range part {
			all = append(all, &part[i])
		}
	}
	slices.SortStableFunc(all, func(x, y *Finding) int { return limit.Compare(x.Judgement, y.Judgement) })
	out := make([]Finding, n)
	for i, f := range all {
		out[i] = *f
	}
	return out
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
	for i := range a.Findings {
		if f := &a.Findings[i]; f.isAt(l, at) {
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
