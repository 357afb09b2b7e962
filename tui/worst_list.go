package tui

import (
	"fmt"
	"strings"

	"borewright/engine"
	"borewright/engine/limit"
	"borewright/tui/draw"
)

// ranked draws the findings around the marked one in so many rows, a heading
// above each verdict's.
func (s *worst) ranked(room int) []string {
	fs := s.findings()
	s.list.at = max(0, min(s.list.at, len(fs)-1))
	first := s.firstFinding(room)
	var lines []string
	for i := first; i < len(fs) && len(lines) < room; i++ {
		if i == first || s.heads(i) {
			if len(lines)+1 >= room {
				break // a heading with nothing beneath it
			}
			lines = append(lines, draw.Rule(s.heading(fs[i].Judgement.Verdict, i == first), s.w, s.st.ASCII))
		}
		lines = append(lines, s.lines(*fs[i], i == s.list.at)...)
		lines = append(lines, s.remedyLines(i, room)...)
	}
	return lines[:min(len(lines), room)]
}

// firstFinding is the first finding in view: as it was, or as far on or back as
// it takes to have the marked one in view and no row empty.
func (s *worst) firstFinding(room int) int {
	fs := s.findings()
	rows := func(first, last int) int {
		n := 0
		for i := first; i <= last; i++ {
			if n += s.high(i, room); i == first || s.heads(i) {
				n++
			}
		}
		return n
	}
	l := &s.list
	l.top = max(0, min(l.top, l.at))
	for l.top > 0 && rows(l.top-1, len(fs)-1) <= room {
		l.top--
	}
	for l.top < l.at && rows(l.top, l.at) > room {
		l.top++
	}
	return l.top
}

// heads reports whether a finding is the first of its verdict.
func (s *worst) heads(i int) bool {
	fs := s.findings()
	return i == 0 || fs[i].Judgement.Verdict != fs[i-1].Judgement.Verdict
}

// heading names a verdict and how many findings bear it.
func (s *worst) heading(v limit.Verdict, first bool) string {
	n := 0
	for _, f := range s.findings() {
		if f.Judgement.Verdict == v {
			n++
		}
	}
	text := fmt.Sprintf("%s: %d", v, n)
	if first {
		text += "   (share of the margin used, 1.00 on the limit)"
	}
	return text
}

// lineMargin is the width of the share of the margin before a finding, and
// lineText where its sentence begins.
const lineMargin, lineText = 6, 10

// lines is one finding: its sign, the margin used and its sentence, all of which
// is shown where it is marked.
func (s *worst) lines(f engine.Finding, here bool) []string {
	p := &s.st.Palette
	mark, tone, text := "  ", draw.Plain, []string{brief(f, s.w-lineText)}
	if here {
		mark, tone, text = s.st.Signs.Here+" ", draw.Marked, s.sentence(f)
	}
	v := verdictTone(f.Judgement)
	out := []string{p.Paint(tone, mark) + p.Paint(v, s.st.Signs.For(v)+draw.FitRight(marginText(f.Judgement), lineMargin)) + " " + p.Paint(tone, text[0])}
	for _, more := range text[1:] {
		out = append(out, draw.Fit("", lineText)+p.Paint(tone, more))
	}
	return out
}

// noteMark stands for the notes on a finding where there is no room for them.
const noteMark = " (note)"

// brief is what is said of a finding in one line of w cells: notes on its figures
// are shortened first and never left out.
func brief(f engine.Finding, w int) string {
	notes := " (" + strings.Join(f.Notes, ", ") + ")"
	text, noted := strings.CutSuffix(f.Text, notes)
	if !noted || draw.Width(f.Text) <= w {
		return draw.CutSentence(f.Text, w)
	}
	return draw.CutSentence(text, w-draw.Width(noteMark)) + noteMark
}

// sentence is what is said of a finding, in as many lines as it takes.
func (s *worst) sentence(f engine.Finding) []string { return draw.Wrap(f.Text, max(10, s.w-lineText)) }

// high is how many rows a finding takes with its remedy.
func (s *worst) high(i, room int) int {
	n := 1
	if i == s.list.at {
		n = len(s.sentence(*s.findings()[i]))
	}
	return n + len(s.remedyLines(i, room))
}

// marginText is the share of the margin that is used, 1.00 on the limit.
func marginText(j limit.Judgement) string {
	switch {
	case !j.Ranked || j.Verdict == limit.NotMeasured:
		return ""
	case j.Margin > 99:
		return ">99"
	default:
		return engine.MarginText(j.Margin)
	}
}

// verdictTone is the tone in which a verdict is shown.
func verdictTone(j limit.Judgement) draw.Tone {
	switch {
	case j.Verdict == limit.Outside:
		return draw.Bad
	case j.Verdict == limit.TooClose || j.Suspect:
		return draw.Warn
	case j.Verdict.Inside():
		return draw.Good
	default:
		return draw.Dim
	}
}
