package tui

import (
	"fmt"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/tui/draw"
)

// calmAfter is how long the offer to leave on a second Ctrl+C stands.
const calmAfter = time.Second

// leaving waits until everything is kept, and asks when it cannot be.
type leaving struct {
	st   *Station
	w, h int
}

// leave ends the station at once when all is kept, else by way of a page.
func (r *router) leave() tea.Cmd {
	if len(r.st.Pending()) == 0 {
		return tea.Quit
	}
	if _, already := r.top().(*leaving); already {
		return nil
	}
	r.st.Push(&leaving{st: r.st})
	return nil
}

func (l *leaving) Init() tea.Cmd   { return nil }
func (l *leaving) Resize(w, h int) { l.w, l.h = w, h }
func (l *leaving) Title() string   { return "leaving" }
func (l *leaving) Typing() Typing  { return NotTyping }

// Update leaves as soon as the last event is kept.
func (l *leaving) Update(tea.Msg) tea.Cmd {
	if len(l.st.Pending()) == 0 {
		return func() tea.Msg { return leave{} }
	}
	return nil
}

// Actions offer to try again, to stay, or to leave all the same.
func (l *leaving) Actions() []Action {
	waiting := ""
	if _, err := l.unkept(); err == nil {
		waiting = "it is still being kept"
	}
	return []Action{
		on("enter", "try to keep again", func() tea.Cmd {
			l.st.Book.Retry()
			return nil
		}).unless(waiting),
		on("esc", "stay", func() tea.Cmd {
			l.st.Pop(nil)
			return nil
		}),
		on("Q", "leave without keeping", func() tea.Cmd { return func() tea.Msg { return leave{} } }).unless(waiting),
	}
}

// unkept counts what is not kept and says why, or nil while it is being kept.
func (l *leaving) unkept() (n int, why error) {
	for _, d := range l.st.Pending() {
		n += d.Pending()
		if d.Failed != nil {
			why = d.Failed
		}
	}
	return n, why
}

// View says what is not kept and why.
func (l *leaving) View() []string {
	n, why := l.unkept()
	lines := []string{"", fmt.Sprintf("  Not kept yet: %d.", n)}
	if why == nil {
		return append(lines, "  One moment: they are being written.")
	}
	p := &l.st.Palette
	return append(lines,
		"  "+p.Paint(draw.Bad, draw.Clean(why.Error())), "",
		"  Everything before them is kept. Mend the cause and press Enter, or",
		"  write the readings down and leave with a capital Q.")
}
