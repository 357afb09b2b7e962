package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine"
	"borewright/engine/plan"
)

// worst is the summary: which cylinder and which main is worst, and every
// finding ranked.
type worst struct {
	st   *Station
	desk *Desk
	list list
	w, h int
}

func newWorst(st *Station, d *Desk) *worst { return &worst{st: st, desk: d} }

// Init needs nothing.
func (s *worst) Init() tea.Cmd { return nil }

// Update passes on where a screen above asks to go.
func (s *worst) Update(msg tea.Msg) tea.Cmd {
	if g, ok := msg.(goTo); ok {
		s.st.Pop(g)
	}
	return nil
}

// Resize sets the size of the body.
func (s *worst) Resize(w, h int) { s.w, s.h = w, h }

// Title names the screen.
func (s *worst) Title() string { return "worst first, " + s.desk.Title() }

// Typing takes no characters.
func (s *worst) Typing() Typing { return NotTyping }

// Actions are the summary's keys.
func (s *worst) Actions() []Action {
	none := ""
	if len(s.findings()) == 0 {
		none = "no limit is given to judge by"
	}
	return []Action{
		on("enter", "go to the place", s.visit).unless(none).
			because("opens the place where the marked finding is worst"),
		on("m", "measure again", s.measureAgain).unless(none).
			because("takes the hand through every place that the marked finding rests on; what is keyed replaces what stands there"),
		quiet(on("up|-", "up", func() tea.Cmd { return s.move(-1) })),
		quiet(on("down|+", "down", func() tea.Cmd { return s.move(1) })),
		on("pgup", "", func() tea.Cmd { return s.move(-s.room()) }),
		on("pgdown", "", func() tea.Cmd { return s.move(s.room()) }),
		on("l", "log", func() tea.Cmd {
			s.st.Push(newLog(s.st, s.desk, s.markedFeature()))
			return nil
		}),
		quiet(s.st.prepKey(s.desk)),
		quiet(s.st.sheetKey(s.desk)),
		s.st.fitsKey(s.desk, s.markedFeature),
		s.st.limitsKey(s.desk, s.markedFeature),
		s.st.doubtKey(s.desk, s.marked),
		quiet(s.st.unitKey(s.desk)),
	}
}

func (s *worst) findings() []*engine.Finding { return s.desk.Now.Findings }

func (s *worst) move(by int) tea.Cmd {
	s.list.move(by, len(s.findings()))
	return nil
}

// markedFeature is the feature of the marked finding, or none.
func (s *worst) markedFeature() plan.Feature {
	if fs := s.findings(); s.list.at < len(fs) {
		return fs[s.list.at].Of
	}
	return plan.Feature{}
}

// marked is the marked finding; ok is false when there is none.
func (s *worst) marked() (f engine.Finding, ok bool) {
	if fs := s.findings(); s.list.at < len(fs) {
		return *fs[s.list.at], true
	}
	return f, false
}

// visit drills into the marked finding's place.
func (s *worst) visit() tea.Cmd {
	f := s.findings()[s.list.at]
	s.st.Pop(goTo{place: plan.Place{Of: f.Of, Level: f.Level, Dir: f.Dir}, of: f.Of})
	return nil
}

// measureAgain takes the hand through the places of the marked finding.
func (s *worst) measureAgain() tea.Cmd {
	s.st.Pop(measureAgain{s.desk.placesOf(*s.findings()[s.list.at])})
	return nil
}

// layout shares the body among the headline, the lineups and the findings.
func (s *worst) layout(lineups int) worstLayout { return layoutWorst(s.h, lineups) }

// ready says what the prep list keeps from being ready, above the findings.
func (s *worst) ready() []string { return s.st.readyLines(s.desk, s.w, 2) }

func (s *worst) room() int { return s.layout(len(s.lineups())).list - len(s.ready()) }

// View draws the two worst large, every cylinder and main side by side as far
// as there is room, and the findings.
func (s *worst) View() []string {
	lineups := s.lineups()
	l := s.layout(len(lineups))
	drawn := map[plan.Line]bool{}
	var pictures []string
	for i, forms := range l.forms {
		drawn[lineups[i].family.Line()] = true
		pictures = append(pictures, s.picture(lineups[i], s.w, forms, l.what)...)
	}
	ready := s.ready()
	lines := append(append(s.headlines(l.big, drawn), pictures...), ready...)
	return append(lines, s.ranked(l.list-len(ready))...)
}

// goTo asks the screen beneath to go to a place, or where the feature is to be
// taken up when the place names no level.
type goTo struct {
	place plan.Place
	of    plan.Feature
}
