package tui

import (
	"fmt"
	"strings"

	"github.com/charmbracelet/bubbles/cursor"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"

	"borewright/tui/draw"
	"borewright/tui/term"
)

// words is the text of a field of words as it is typed.
type words struct {
	input textinput.Model
	typed bool
}

func newWords(text string) words {
	in := textinput.New()
	in.Cursor.SetMode(cursor.CursorStatic)
	in.SetValue(text)
	in.CursorEnd()
	in.Focus()
	return words{input: in}
}

// text returns what is typed, without what could not be drawn.
func (w words) text() string { return draw.Clean(w.input.Value()) }

// wordsKeys are the keys of a field of words that are no characters.
var wordsKeys = map[string]tea.KeyType{
	term.NavLeft: tea.KeyLeft, term.NavRight: tea.KeyRight, term.NavHome: tea.KeyHome,
	term.NavEnd: tea.KeyEnd, term.NavDelete: tea.KeyDelete,
	"ctrl+a": tea.KeyCtrlA, "ctrl+e": tea.KeyCtrlE, "ctrl+k": tea.KeyCtrlK,
	"ctrl+u": tea.KeyCtrlU, "ctrl+w": tea.KeyCtrlW,
}

// key takes one key in, or says why not; most is how many bytes there may be.
func (w words) key(t term.Token, most int) (next words, refused string) {
	msg := tea.KeyMsg{Type: wordsKeys[t.Name]}
	switch {
	case t.Kind.Character():
		if !drawable(t.Rune) {
			return w, "this character cannot be drawn, so it is not taken"
		}
		if len(w.input.Value())+len(string(t.Rune)) > most {
			return w, fmt.Sprintf("there is no room for more: %d bytes at most", most)
		}
		msg = tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{t.Rune}}
	case t.Kind == term.Erase:
		msg.Type = tea.KeyBackspace
	case msg.Type == 0:
		return w, "words are typed here"
	}
	before := w.input.Value()
	w.input, _ = w.input.Update(msg)
	w.typed = w.typed || w.input.Value() != before
	return w, ""
}

// drawable reports whether a character has a shape of its own, or is a mark on
// a letter.
func drawable(r rune) bool { return draw.Clean("a"+string(r)+"a") != "aa" }

// view shows so many cells of the text, those around the cursor.
func (w words) view(wide int, mark string) string {
	all := []rune(w.input.Value())
	at := min(w.input.Position(), len(all))
	before, after := all[:at], strings.TrimRight(string(all[at:]), " ")
	room := wide - draw.Width(mark)
	if after != "" {
		room-- // for the sign that more follows
	}
	for len(before) > 0 && draw.Width(string(before)) > room {
		before = before[1:]
	}
	return draw.Fit(string(before)+mark+after, wide)
}
