package tui

import (
	"fmt"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine"
	"borewright/engine/plan"
	"borewright/engine/record"
	"borewright/tui/draw"
	"borewright/tui/term"
)

// logScreen tells every event, newest first; what was withdrawn or replaced
// stays in sight. Some of the events can be looked for, and notes be added.
type logScreen struct {
	st   *Station
	desk *Desk
	at   plan.Feature // where the hand was, or none
	list list
	all  []engine.Entry // newest first
	n    int64          // events told
	// filter says which of them are shown.
	filter logFilter
	shown  []engine.Entry
	// typed is the line that is being typed, or nil.
	typed *logLine
	w, h  int
}

func newLog(st *Station, d *Desk, at plan.Feature) *logScreen {
	l := &logScreen{st: st, desk: d, at: at, n: -1}
	l.tell()
	return l
}

// Init needs nothing.
func (l *logScreen) Init() tea.Cmd { return nil }

// Update takes the characters of the line that is being typed.
func (l *logScreen) Update(msg tea.Msg) tea.Cmd {
	if t, ok := msg.(term.Token); ok && l.typed != nil {
		l.typing(t)
	}
	return nil
}

// Resize sets the size of the body.
func (l *logScreen) Resize(w, h int) { l.w, l.h = w, h }

// Title names the screen.
func (l *logScreen) Title() string { return "log of " + l.desk.Title() }

// Typing takes every character while a line is typed.
func (l *logScreen) Typing() Typing {
	if l.typed != nil {
		return Words
	}
	return NotTyping
}

// Actions are the log's keys, or those of the line that is being typed.
func (l *logScreen) Actions() []Action {
	if l.typed != nil {
		return l.typed.actions(l)
	}
	return []Action{
		on("up|-", "newer", func() tea.Cmd { return l.move(-1) }),
		on("down|+", "older", func() tea.Cmd { return l.move(1) }),
		on("f|*", "filter", l.cycle).
			because("goes round: all events, those of the feature in the hand, those of each family"),
		on("/", "find", l.find).because("shows only events in which every word or number typed is found"),
		on("n", "note", l.note).because("adds a note to the marked event's feature, or to the session where it has none"),
		on("W", l.turning(), l.askTurn).unless(l.whyNot()).
			because("asks, and then takes the marked event back, or brings it back when it was taken back. Both stay in the log"),
		on("enter", "go to its place", l.visit).unless(l.nowhere()),
		on("pgup", "", func() tea.Cmd { return l.move(-l.room()) }),
		on("pgdown", "", func() tea.Cmd { return l.move(l.room()) }),
	}
}

func (l *logScreen) move(by int) tea.Cmd {
	l.tell()
	l.list.move(by, len(l.shown))
	return nil
}

// tell tells the entries anew when there are more, and keeps the marked one
// marked.
func (l *logScreen) tell() {
	if n := l.desk.Session.Head().N; n != l.n {
		l.all, l.n = newestFirst(l.desk.Session.Log()), n
		l.show()
	}
}

func newestFirst(entries []engine.Entry) []engine.Entry {
	for i, j := 0, len(entries)-1; i < j; i, j = i+1, j-1 {
		entries[i], entries[j] = entries[j], entries[i]
	}
	return entries
}

// marked returns the marked entry; ok is false when none is shown.
func (l *logScreen) marked() (e engine.Entry, ok bool) {
	l.tell()
	if len(l.shown) == 0 {
		return e, false
	}
	return l.shown[max(0, min(l.list.at, len(l.shown)-1))], true
}

// entry returns the entry of event n.
func (l *logScreen) entry(n int64) engine.Entry { return l.all[int64(len(l.all))-n] }

// target is the event that turning the marked entry withdraws: itself, or the
// withdrawal that took it back.
func (l *logScreen) target() int64 {
	e, _ := l.marked()
	if !e.Live {
		return e.WithdrawnBy
	}
	return e.N
}

const noneShown = "no event is shown"

func (l *logScreen) whyNot() string {
	if _, ok := l.marked(); !ok {
		return noneShown
	}
	if err := l.desk.Session.CheckWithdraw(l.target()); err != nil {
		return err.Error()
	}
	return ""
}

func (l *logScreen) nowhere() string {
	e, ok := l.marked()
	switch {
	case !ok:
		return noneShown
	case e.Of.IsZero():
		return "this event is about no single place"
	}
	return ""
}

// turning says what W does to the marked event: taking back what was taken
// back, or the taking back itself, brings it back.
func (l *logScreen) turning() string {
	e, ok := l.marked()
	if _, taking := e.Body.(record.Withdrawn); ok && e.Live == taking {
		return "bring back"
	}
	return "withdraw"
}

// askTurn asks before it takes the marked event back or brings it back.
func (l *logScreen) askTurn() tea.Cmd {
	e, _ := l.marked()
	_, taking := e.Body.(record.Withdrawn)
	question, after := "Withdraw event %d?", "It stays in the log, marked, and W on it brings it back. Figures are computed without it."
	switch {
	case taking && e.Live:
		question, after = "Bring back what event %d withdrew?", "It counts again as it did."
	case taking:
		question, after = "Withdraw again what event %d withdrew?", "It stays in the log. Figures are computed without it."
	case !e.Live:
		question, after = "Bring event %d back?", "It counts again as it did."
	}
	l.st.Push(&confirm{
		st: l.st, title: l.turning(), yes: l.turning(), no: "leave it as it is",
		question: []string{fmt.Sprintf(question, e.N), "", l.st.Signs.Text(draw.Clean(e.Text)), "", after},
		do:       l.turn,
	})
	return nil
}

func (l *logScreen) turn() tea.Cmd {
	n := l.target()
	if err := l.desk.Record(record.Withdrawn{Event: n}); err != nil {
		l.st.Say(draw.Bad, err.Error())
		l.st.Ring(2)
		return nil
	}
	l.tell()
	l.st.Say(draw.Plain, fmt.Sprintf("event %d: %s", l.n, l.entry(l.n).Text))
	return nil
}

// visit goes to where the marked event happened.
func (l *logScreen) visit() tea.Cmd {
	e, _ := l.marked()
	l.st.Pop(goTo{place: engine.PlaceOf(e.Body), of: e.Of})
	return nil
}
