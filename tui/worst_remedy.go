package tui

import (
	"slices"

	"borewright/engine"
	"borewright/tui/draw"
)

// remedyRoom is from how many rows for the findings on a remedy stands below
// each of them, and not below the marked one alone.
const remedyRoom = 12

// remedyLines say what to do about a finding, below it: in full where it is
// marked, else in one line, and once only where one remedy is for several.
func (s *worst) remedyLines(i, room int) []string {
	here := i == s.list.at
	if !here && room < remedyRoom {
		return nil
	}
	text := s.remedy(i)
	if text == "" || !here && s.saidAbove(i, text) {
		return nil
	}
	text, w := "do: "+s.st.Signs.Text(draw.Clean(text)), max(10, s.w-lineText)
	lines, tone := []string{draw.Cut(text, w)}, draw.Dim
	if here {
		lines, tone = draw.Wrap(text, w), draw.Value
	}
	for k := range lines {
		lines[k] = draw.Fit("", lineText) + s.st.Palette.Paint(tone, lines[k])
	}
	return lines
}

// remedy is what to do about a finding, "" for nothing.
func (s *worst) remedy(i int) string {
	return s.desk.Now.Remedy(s.desk.Session, *s.findings()[i])
}

// saidAbove reports whether a remedy is said below an earlier finding.
func (s *worst) saidAbove(i int, text string) bool {
	return slices.ContainsFunc(s.findings()[:i], func(f *engine.Finding) bool {
		return s.desk.Now.Remedy(s.desk.Session, *f) == text
	})
}
