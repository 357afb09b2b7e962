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
	// Findings are worst first; there are none when nothing of it is judged.
	Findings []Finding
}

// Worst returns the member's worst finding; ok is false when it has none.
func (r Ranking) Worst() (f Finding, ok bool) {
	if len(r.Findings) == 0 {
		return Finding{}, false
	}
	return r.Findings[0], true
}

// rank collects every finding, worst first, and ranks the two lines by them.
func (a *Assessment) rank(s *Session) {
	a.Findings = nil
	for _, m := range a.Features {
		a.Findings = append(a.Findings, m.findings...)
	}
	for _, c := range a.Clearances {
		a.Findings = append(a.Findings, c.findings...)
	}
	a.Findings = append(a.Findings, s.steps(a)...)
	a.Findings = worstFirst(a.Findings)
	a.Cylinders = a.line(s, plan.CylinderLine, plan.Bore, s.layout.Cylinders)
	a.Mains = a.line(s, plan.CrankLine, plan.MainBearing, s.layout.Mains)
}

// worstFirst returns the findings in order, equals as they stood. It sorts where
// they stand, because a finding is half a kilobyte to move.
func worstFirst(all []Finding) []Finding {
	at := make([]int, len(all))
	for i := range at {
		at[i] = i
	}
	slices.SortStableFunc(at, func(i, j int) int { return limit.Compare(all[i].Judgement, all[j].Judgement) })
	out := make([]Finding, len(all))
	for i, k := range at {
		out[i] = all[k]
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
	for _, f := range a.Findings {
		if f.Of.Family.Line() != l {
			continue
		}
		for i := range out {
			if slices.Contains(f.at, out[i].At) {
				out[i].Findings = append(out[i].Findings, f)
			}
		}
	}
	slices.SortStableFunc(out, compareWorst)
	return out
}

func compareWorst(x, y Ranking) int {
	a, hasA := x.Worst()
	b, hasB := y.Worst()
	switch {
	case hasA && hasB:
		return limit.Compare(a.Judgement, b.Judgement)
	case hasA:
		return -1
	case hasB:
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
