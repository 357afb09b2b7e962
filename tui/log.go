package tui

import (
	"fmt"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine"
	"borewright/engine/record"
	"borewright/tui/draw"
)

// logScreen tells every event, newest first; what was withdrawn stays in
// sight and can be brought back.
type logScreen struct {
	st      *Station
	desk    *Desk
	list    list
	entries []engine.Entry
	n       int64 // events told
	w, h    int
}

func newLog(st *Station, d *Desk) *logScreen { return &logScreen{st: st, desk: d, n: -1} }

// Init needs nothing.
func (l *logScreen) Init() tea.Cmd { return nil }

// Update takes nothing.
func (l *logScreen) Update(tea.Msg) tea.Cmd { return nil }

// Resize sets the size of the body.
func (l *logScreen) Resize(w, h int) { l.w, l.h = w, h }

// Title names the screen.
func (l *logScreen) Title() string { return "log of " + l.desk.Session.Details().Title }

// Typing takes no characters.
func (l *logScreen) Typing() Typing { return NotTyping }

// Actions are the log's keys.
func (l *logScreen) Actions() []Action {
	return []Action{
		on("up|-", "newer", func() tea.Cmd { return l.move(-1) }),
		on("down|+", "older", func() tea.Cmd { return l.move(1) }),
		on("pgup", "", func() tea.Cmd { return l.move(-l.h) }),
		on("pgdown", "", func() tea.Cmd { return l.move(l.h) }),
		on("W", "withdraw or bring back", l.turn).unless(l.whyNot()).
			because("takes the marked event back; on one that was taken back it brings it back. Both stay in the log"),
		on("enter", "go to its place", l.visit).unless(l.nowhere()),
	}
}

func (l *logScreen) move(by int) tea.Cmd {
	l.list.move(by, len(l.told()))
	return nil
}

// told returns the entries, newest first, told anew when there are more.
func (l *logScreen) told() []engine.Entry {
	if n := l.desk.Session.Head().N; n != l.n {
		l.entries = l.desk.Session.Log()
		slices.Reverse(l.entries)
		l.n = n
	}
	return l.entries
}

func (l *logScreen) marked() engine.Entry { return l.told()[l.list.at] }

// target is the event that turning the marked entry withdraws: itself, or the
// withdrawal that took it back.
func (l *logScreen) target() int64 {
	if e := l.marked(); !e.Live {
		return e.WithdrawnBy
	}
	return l.marked().N
}

func (l *logScreen) whyNot() string {
	if err := l.desk.Session.CheckWithdraw(l.target()); err != nil {
		return err.Error()
	}
	return ""
}

func (l *logScreen) nowhere() string {
	if l.marked().Of.IsZero() {
		return "this event is about no single place"
	}
	return ""
}

func (l *logScreen) turn() tea.Cmd {
	n := l.target()
	if err := l.desk.Record(record.Withdrawn{Event: n}); err != nil {
		l.st.Say(draw.Bad, err.Error())
		return nil
	}
	l.list.move(1, len(l.told()))
	return nil
}

// visit goes to where the marked event happened.
func (l *logScreen) visit() tea.Cmd {
	l.st.Pop(goTo{place: engine.PlaceOf(l.marked().Body), of: l.marked().Of})
	return nil
}

// View draws the entries.
func (l *logScreen) View() []string {
	entries := l.told()
	first, last := l.list.window(len(entries), l.h)
	var lines []string
	for i := first; i < last; i++ {
		lines = append(lines, l.line(entries[i], i == l.list.at))
	}
	return lines
}

func (l *logScreen) line(e engine.Entry, here bool) string {
	mark, tone := "  ", draw.Plain
	switch {
	case here:
		mark, tone = l.st.Signs.Here+" ", draw.Marked
	case !e.Live:
		tone = draw.Dim
	}
	text := draw.Clean(e.Text)
	if !e.Live {
		text = fmt.Sprintf("(withdrawn by %d) ", e.WithdrawnBy) + text
	}
	head := fmt.Sprintf("%s%4d  %s  %-3s ", mark, e.N, e.At.Format("2 Jan 15:04"), draw.Clean(e.By))
	return l.st.Palette.Paint(tone, draw.Fit(head+text, l.w))
}
