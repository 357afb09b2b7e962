package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"borewright/engine/record"
	"borewright/tui/draw"
)

// prep opens the sign-off of the marked session, above its measure screen.
func (b *bench) prep() tea.Cmd {
	return b.with(b.marked().UID, func(d *Desk) tea.Cmd {
		b.st.Push(newMeasure(b.st, d))
		b.st.Push(newPrep(b.st, d))
		return nil
	})
}

// ready says what keeps a session's engine from being ready, blank where
// nothing does.
func (b *bench) ready(h *record.Heading) string {
	text := h.NotReady()
	if text == "" {
		return ""
	}
	return "  " + b.st.notReadyLines(draw.Bad, text, b.w-4, 1)[0]
}
