package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/tui/draw"
)

// limitsScreen lists every limit of a session and what it does to the verdicts.
type limitsScreen struct {
	st   *Station
	desk *Desk
	at   plan.Feature // where the hand was, or none
	rows []limitRow
	n    int64 // events that the rows were made of
	list list
	w, h int
}

// newLimits opens the limits at those of a feature.
func newLimits(st *Station, d *Desk, at plan.Feature) *limitsScreen {
	s := &limitsScreen{st: st, desk: d, at: at, n: -1, list: list{top: 1 << 20}}
	for i, r := range s.all() {
		if r.family == at.Family {
			s.list.at = i
			break
		}
	}
	return s
}

// limitsKey is the key that opens the limits.
func (st *Station) limitsKey(d *Desk, at func() plan.Feature) Action {
	return on("b", "limits", func() tea.Cmd {
		st.Push(newLimits(st, d, at()))
		return nil
	}).because("the bounds that everything is judged by, each to be changed, added or taken away")
}

// Init needs nothing.
func (s *limitsScreen) Init() tea.Cmd { return nil }

// Update takes nothing: the rows are made anew when something happened.
func (s *limitsScreen) Update(tea.Msg) tea.Cmd { return nil }

// Resize sets the size of the body.
func (s *limitsScreen) Resize(w, h int) { s.w, s.h = w, h }

// Title names the screen.
func (s *limitsScreen) Title() string { return "limits of " + s.desk.Title() }

// Typing takes no characters.
func (s *limitsScreen) Typing() Typing { return NotTyping }

// Actions are its keys.
func (s *limitsScreen) Actions() []Action {
	r, ok := s.marked()
	none, nothing := "", ""
	if !ok {
		none = "nothing is planned, so nothing can be limited"
	}
	enter := "change"
	if nothing = none; ok && !r.given() {
		enter, nothing = "give limits", "nothing is limited here"
	}
	return []Action{
		on("enter", enter, s.edit).unless(none),
		on("up|-", "up", func() tea.Cmd { return s.move(-1) }),
		on("down|+", "down", func() tea.Cmd { return s.move(1) }),
		on("f|*", "for one alone", s.alone).unless(none).
			because("gives limits to a single feature, such as one bore that was bored oversize; they go before its family's"),
		on("t|delete", "take away", s.askTakeAway).unless(nothing).
			because("after asking: nothing is judged by it any more; it stays in the log, which can bring it back"),
		on("pgup", "", func() tea.Cmd { return s.move(-s.room()) }),
		on("pgdown", "", func() tea.Cmd { return s.move(s.room()) }),
	}
}

// Explain says more on the help page.
func (s *limitsScreen) Explain() []string {
	return []string{
		"  The sign before a limit is the worst verdict by it. ? behind its name: it looks",
		"  misprinted, and the lines below say what was likely meant. A limit keeps the",
		"  unit it was printed in; in/in is one that is per length. Limits of one feature",
		"  alone go before its family's.",
		"  What the maker of the part prints goes before every rule of thumb.",
	}
}

// all returns the rows, made anew when something happened.
func (s *limitsScreen) all() []limitRow {
	if n := s.desk.Session.Head().N; n != s.n {
		s.rows, s.n = limitRows(s.desk.Session), n
		s.list.move(0, len(s.rows))
	}
	return s.rows
}

func (s *limitsScreen) marked() (r limitRow, ok bool) {
	all := s.all()
	if len(all) == 0 {
		return r, false
	}
	return all[s.list.at], true
}

func (s *limitsScreen) move(by int) tea.Cmd {
	s.list.move(by, len(s.all()))
	return nil
}

// edit opens the marked limits, or gives them where there are none.
func (s *limitsScreen) edit() tea.Cmd {
	if r, _ := s.marked(); r.given() {
		s.st.Push(newLimitForm(s.st, s.desk, r.limits))
	} else {
		s.st.Push(giveLimits(s.st, s.desk, r, plan.Feature{}))
	}
	return nil
}

// alone gives limits to one feature, beginning with those that hold for it now.
func (s *limitsScreen) alone() tea.Cmd {
	r, _ := s.marked()
	s.st.Push(giveLimits(s.st, s.desk, r, s.firstWithout(r)))
	return nil
}

// firstWithout returns the feature in the hand, or the family's first, that has
// no such limits of its own.
func (s *limitsScreen) firstWithout(r limitRow) plan.Feature {
	session := s.desk.Session
	var all []plan.Feature
	if s.at.Family == r.family {
		all = append(all, s.at)
	}
	all = append(all, featuresOf(session, r.family)...)
	for _, f := range all {
		taken := false
		for _, x := range s.all() {
			taken = taken || x.limits.Of == f.String() && x.limits.On == r.limits.On && x.limits.By == r.limits.By
		}
		if !taken {
			return f
		}
	}
	return all[0]
}

// askTakeAway asks before the marked limits are taken away.
func (s *limitsScreen) askTakeAway() tea.Cmd {
	r, _ := s.marked()
	s.st.Push(&confirm{
		st: s.st, title: "take limits away", yes: "take them away", no: "leave them",
		question: []string{
			"Take away the limits on " + draw.Clean(limitTitle(s.desk.Session, r.limits)) + "?", "",
			"Nothing is judged by them any more. They stay in the log, and W there brings them back.",
		},
		do: s.takeAway,
	})
	return nil
}

// takeAway withdraws what set the marked limits.
func (s *limitsScreen) takeAway() tea.Cmd {
	r, _ := s.marked()
	bodies, err := s.desk.Session.ChangeLimit(r.limits, limit.Limits{})
	if err == nil {
		err = s.desk.Record(bodies...)
	}
	if err != nil {
		s.st.Say(draw.Bad, err.Error())
		s.st.Ring(2)
		return nil
	}
	s.st.Say(draw.Plain, "the limit on "+limitTitle(s.desk.Session, r.limits)+" is taken away; l, the log, can bring it back")
	return nil
}
