package engine

import "borewright/engine/limit"

// Headline returns the member of a line that a summary names first, and its
// finding: the worst of all that is measured, whatever of its line is not
// finished yet. ok is false when nothing is.
func Headline(rs []Ranking) (worst Ranking, f Finding, ok bool) {
	for _, r := range rs {
		for _, x := range r.Findings {
			if x.Judgement.Verdict == limit.NotMeasured || x.Judgement.Verdict == limit.NoLimits {
				continue
			}
			if !ok || limit.Compare(x.Judgement, f.Judgement) < 0 {
				worst, f, ok = r, *x, true
			}
			break // the member's findings are worst first
		}
	}
	return worst, f, ok
}
