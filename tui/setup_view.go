package tui

import (
	"borewright/tui/draw"
)

// setupFoot are the lines below the rows: a rule, and three for what the field in
// focus is for and whether measuring can begin.
const setupFoot = 4

// room is how many rows are in view.
func (s *setupForm) room() int { return max(1, s.h-setupFoot) }

// View draws the rows around the field in focus and what is to be said of it.
func (s *setupForm) View() []string {
	about := s.about()
	says := func(id string) said { return about[id] }
	lines := draw.Box(s.form.view(s.st, s.w, s.room(), says), s.w, s.room())
	p := &s.st.Palette
	lines = append(lines, p.Paint(draw.Frame, draw.Rule(s.form.scrolled(), s.w, s.st.ASCII)))
	stands := s.stands(about)
	for _, line := range draw.Box(s.why(setupFoot-1-len(stands)), s.w, setupFoot-1-len(stands)) {
		lines = append(lines, p.Paint(draw.Dim, line))
	}
	return append(lines, stands...)
}

// why says what the field in focus is for, in so many lines at most.
func (s *setupForm) why(most int) []string {
	text := s.st.Signs.Text(draw.Clean(s.form.here().why))
	lines := draw.SomeClauses(text, s.w-2, most)
	if most == 1 {
		lines = []string{draw.Begin(text, s.w-2)}
	}
	for i := range lines {
		lines[i] = " " + lines[i]
	}
	return lines
}

// stands says what is wrong with the field in focus, else whether measuring
// can begin, and where, in a line or two.
func (s *setupForm) stands(about map[string]said) []string {
	show := func(x said) []string { return wrapped(s.st, s.w, x.tone, x.text, 2) }
	here := about[s.form.focus]
	id, wrong := s.firstWrong()
	switch {
	case s.form.pending():
		return show(said{"Enter takes it in, Esc takes it back", draw.Dim})
	case here.text != "":
		return show(here)
	case wrong:
		return show(said{"not yet: " + about[id].text, draw.Warn})
	}
	for _, id := range s.toSay() {
		return show(said{"look: " + about[id].text, draw.Warn})
	}
	return show(said{"ready: " + s.first(), draw.Good})
}

// first names the place that is read first.
func (s *setupForm) first() string {
	if s.desk != nil {
		return "F2 keeps what was changed here"
	}
	places := s.draft.Plan().All(s.draft.Layout)
	if len(places) == 0 {
		return ""
	}
	at := places[0]
	g, _ := s.draft.Plan().Group(at.Of.Family)
	level, _ := g.Level(at.Level)
	return "the first reading is " + s.draft.Layout.Name(at.Of) + ", " + level.Called() + ", " + dirNames([]string{at.Dir})
}
