package tui

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/tui/draw"
)

// cardTitle names the one page on keys.
const cardTitle = "what the keys do"

// keyCard is one page, whole at the least window: every key of the keypad in
// every state, and the letters of the screen that it was asked for on.
type keyCard struct {
	st    *Station
	under Screen
	w, h  int
}

// Init needs nothing.
func (k *keyCard) Init() tea.Cmd { return nil }

// Update takes nothing.
func (k *keyCard) Update(tea.Msg) tea.Cmd { return nil }

// Resize sets the size of the body.
func (k *keyCard) Resize(w, h int) { k.w, k.h = w, h }

// Title names the page.
func (k *keyCard) Title() string { return cardTitle }

// Typing takes no characters.
func (k *keyCard) Typing() Typing { return NotTyping }

// Actions leave it.
func (k *keyCard) Actions() []Action {
	return []Action{on("enter|esc", "back", func() tea.Cmd {
		k.st.Pop(nil)
		return nil
	})}
}

// letters are the screen's own keys that are no part of the keypad.
func (k *keyCard) letters() string {
	var out []string
	for _, a := range k.under.Actions() {
		if key := a.Keys[0]; a.Help != "" && !strings.ContainsAny(key, "0123456789+-*/") && key != "enter" {
			out = append(out, keyLabel(key)+" "+a.Help)
		}
	}
	return strings.Join(out, "; ")
}

// View draws the page.
func (k *keyCard) View() []string {
	p := &k.st.Palette
	out := keypadLines(k.st, k.w)
	for i, line := range draw.Wrap(k.letters(), max(20, k.w-16)) {
		name := ""
		if i == 0 {
			name = "letters"
		}
		out = append(out, "  "+p.Paint(draw.Key, draw.Fit(name, 11))+" "+line)
	}
	return out[:min(len(out), max(0, k.h))]
}
