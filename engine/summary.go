package engine

import (
	"fmt"
	"strings"

	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// Advice is said wherever verdicts leave the screen.
const Advice = "These figures advise, they do not certify: the part maker's data, local codes and a qualified person govern."

// Summary tells an assessment in plain lines: the worst cylinder and main
// first, then what is not inside, then each cylinder and main by its worst.
func (a *Assessment) Summary(s *Session) []string { return append(a.ranking(s), "", Advice) }

// Whole tells what Summary tells and every figure besides.
func (a *Assessment) Whole(s *Session) []string {
	lines := a.ranking(s)
	if figures := a.Figures(s); len(figures) > 0 {
		lines = append(append(lines, ""), figures...)
	}
	lines = append(lines, a.workedOutLines(s)...)
	return append(lines, "", Advice)
}

func (a *Assessment) ranking(s *Session) []string {
	settled, planned := s.Progress()
	lines := []string{
		s.details.Title,
		fmt.Sprintf("%s; figures diametral, in %s", layoutText(s), unitWord(s.Unit())),
		fmt.Sprintf("%d of %d places read or left out, as of event %d", settled, planned, a.Head.N),
	}
	lines = append(append(lines, a.Ready.Lines()...), "")
	lines = append(lines, s.worstLines("Worst cylinder", plan.CylinderLine, a.Cylinders)...)
	lines = append(lines, s.worstLines("Worst main", plan.CrankLine, a.Mains)...)
	lines = append(lines, a.notInside(s)...)
	lines = append(lines, a.intendedLines(s)...)
	lines = append(lines, rankLines("Cylinders", a.Cylinders)...)
	lines = append(lines, rankLines("Mains", a.Mains)...)
	if len(a.Findings) == 0 {
		lines = append(lines, "", "No limit is given to judge by.")
	}
	return append(lines, s.againLines()...)
}

// againLines lists what is to be measured again.
func (s *Session) againLines() []string {
	again := s.MeasureAgain()
	if len(again) == 0 {
		return nil
	}
	lines := []string{"", fmt.Sprintf("Measure again, %d places: the gauge's zero could not be believed:", len(again))}
	for _, p := range again {
		lines = append(lines, "  "+s.PlaceName(p))
	}
	return lines
}

func unitWord(u length.Unit) string {
	if u == length.In {
		return "inch"
	}
	return u.String()
}

// notInside lists every finding that is measured and not inside, with what to
// do about it.
func (a *Assessment) notInside(s *Session) []string {
	var out []string
	said := map[string]bool{}
	for _, f := range a.Findings {
		if v := f.Judgement.Verdict; v != limit.NotMeasured && v != limit.NoLimits && (!v.Inside() || f.Judgement.Suspect) {
			out = append(append(out, findingLine("", *f)), a.doLines(s, *f, said)...)
		}
	}
	if len(out) == 0 {
		return nil
	}
	return append([]string{"", "Not inside, worst first (share of the margin used, 1.00 on the limit):"}, out...)
}

// rankLines lists the members of a line, worst first, each by its worst
// finding.
func rankLines(title string, rs []Ranking) []string {
	var out, open []string
	for _, r := range rs {
		f, ok := r.Worst()
		if !ok || f.Judgement.Verdict == limit.NotMeasured {
			open = append(open, r.Label)
			continue
		}
		out = append(out, findingLine(r.Label, f))
	}
	if len(out) == 0 {
		return nil
	}
	if len(open) > 0 {
		out = append(out, "  not finished: "+strings.Join(open, " "))
	}
	return append([]string{"", title + ", worst first:"}, out...)
}

func findingLine(label string, f Finding) string {
	return fmt.Sprintf("  %-2s %-17s %5s  %s", label, VerdictText(f.Judgement), marginOf(f.Judgement), f.Text)
}

func layoutText(s *Session) string {
	text := fmt.Sprintf("%s %d with %d mains", s.layout.Form, s.layout.Cylinders, s.layout.Mains)
	if s.details.Engine != "" {
		text = s.details.Engine + ", " + text
	}
	return text
}

// worstLines names the worst member of a line of which something is planned.
func (s *Session) worstLines(title string, l plan.Line, rs []Ranking) []string {
	_, planned := find(s.plan.Families, func(g *plan.Group) bool { return g.Family.Line() == l })
	if !planned || len(rs) == 0 {
		return nil
	}
	worst, f, ok := Headline(rs)
	if !ok {
		return []string{title + ": nothing measured that a limit judges"}
	}
	verdict := VerdictText(f.Judgement)
	if !f.Judgement.Verdict.Inside() {
		verdict = strings.ToUpper(verdict)
	}
	return []string{fmt.Sprintf("%s: %s  %s  %s", title, worst.Label, verdict, f.Text)}
}

func marginOf(j limit.Judgement) string {
	if !j.Ranked {
		return ""
	}
	return MarginText(j.Margin)
}
