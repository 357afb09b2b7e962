package tui

import (
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine/setup"
	"borewright/tui/draw"
)

// duplicate opens the setup on a copy of the marked session's, for the next
// engine.
func (b *bench) duplicate() tea.Cmd {
	h := b.marked()
	return b.with(h.UID, func(d *Desk) tea.Cmd {
		draft := setup.CopyOf(d.Session)
		draft.Title = redated(draft.Title, b.st.look())
		draft.Initials = b.st.By
		b.st.Say(draw.Plain, "set up as "+quoted(h.Title)+": every gauge is to be zeroed anew")
		b.st.Push(newSetupForm(b.st, nil, draft))
		return nil
	})
}

// sameEngineRow asks whether a copy is for the engine that its source was of.
func sameEngineRow(d *setup.Draft) row {
	same := 0
	if d.SameEngine {
		same = 1
	}
	return row{label: "engine is", fields: []field{choiceOf("same", "whether it is the very engine that the copied session was of, on the bench again, or another one",
		[]string{"another one", "the same one again"}, same, "", func(i int) { d.SameEngine = i == 1 })}}
}

// dated is how the day stands behind a title.
const dated = "2 Jan 2006"

// redated is a title with the day of now behind it, in the place of an earlier
// day if it has one.
func redated(title string, now time.Time) string {
	if i := strings.LastIndex(title, ", "); i >= 0 {
		if _, err := time.Parse(dated, title[i+2:]); err == nil {
			title = title[:i]
		}
	}
	return title + ", " + now.Format(dated)
}
