package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"borewright/tui/draw"
	"borewright/tui/term"
)

// find begins to type the words that are looked for.
func (b *bench) find() tea.Cmd {
	w := newWords(b.known.words)
	b.finding, b.before = &w, b.known.words
	return nil
}

// findActions are the keys while words are typed.
func (b *bench) findActions() []Action {
	out := []Action{
		on("enter", "to the list", func() tea.Cmd {
			b.finding = nil
			return nil
		}).because("keeps what is found; Enter there resumes the marked session"),
		on("esc", "back", func() tea.Cmd {
			b.finding = nil
			return b.lookFor(b.before)
		}).because("gives up what is typed"),
	}
	return append(out, b.moves("up", "down")...)
}

// typed takes a key into the words, and shows at once what has them.
func (b *bench) typed(t term.Token) {
	if b.finding == nil {
		return
	}
	next, refused := b.finding.key(t, mostFind)
	if refused != "" {
		b.st.Say(draw.Warn, refused)
		b.st.Ring(2)
		return
	}
	b.st.Hush()
	b.finding = &next
	b.lookFor(next.text())
}

// lookFor shows what has the words, marking the newest of it.
func (b *bench) lookFor(text string) tea.Cmd {
	if text != b.known.words {
		b.known.find(text)
		b.list = list{}
	}
	return nil
}

// findNothing shows all sessions again, the mark staying where it is.
func (b *bench) findNothing() tea.Cmd {
	b.keepMark(func() { b.known.find("") })
	return nil
}
