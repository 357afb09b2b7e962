package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"borewright/tui/term"
)

// Screen is one page of the station. Screens are pointers; the router alone
// sees window sizes and hands keys to the top screen only.
type Screen interface {
	// Init returns the first command, or nil.
	Init() tea.Cmd
	// Update takes a term.Token, an answer to a command, or an Outcome; never
	// a window size, and never a key that an Action took.
	Update(msg tea.Msg) tea.Cmd
	// Resize sets the size of the body.
	Resize(w, h int)
	// View returns the body: at most h lines of at most w cells.
	View() []string
	// Title names the screen in the header.
	Title() string
	// Actions are its keys, in the order the footer shows them.
	Actions() []Action
	// Typing says which characters belong to a field just now.
	Typing() Typing
}

// Typing says which characters a screen takes for itself, so that no action
// may be bound to them.
type Typing uint8

// What a screen may be typing.
const (
	NotTyping Typing = iota
	Numbers          // digits, point, + - * /
	Words            // every character
)

// takes reports whether a token is a character of the field.
func (t Typing) takes(k term.Kind) bool {
	switch t {
	case Words:
		return k.Character()
	case Numbers:
		return k.Character() && k != term.Text
	default:
		return false
	}
}

// Action is one key of a screen, what it does in a word or two, and why it is
// off just now.
type Action struct {
	// Keys are the names of the keys as keyName gives them; the first is shown.
	Keys []string
	Help string
	// Why says more on the help page, when the word is not enough.
	Why string
	// Do does it; nil leaves the key to the screen's Update.
	Do func() tea.Cmd
	// Quiet keeps the key out of the footer; the help page has it.
	Quiet bool
	// Off is the reason why the key does nothing now; empty when it is on.
	Off string
}

// on builds an action.
func on(keys, help string, do func() tea.Cmd) Action {
	return Action{Keys: splitKeys(keys), Help: help, Do: do}
}

// because adds the line for the help page.
func (a Action) because(why string) Action {
	a.Why = why
	return a
}

// unless switches the action off with a reason, when there is one.
func (a Action) unless(reason string) Action {
	a.Off = reason
	return a
}

func splitKeys(keys string) []string {
	var out []string
	start := 0
	for i := 0; i <= len(keys); i++ {
		if i == len(keys) || keys[i] == '|' {
			out = append(out, keys[start:i])
			start = i + 1
		}
	}
	return out
}

// keyName returns the name by which actions know a token.
func keyName(t term.Token) string {
	switch {
	case t.Kind == term.Text && t.Rune == ' ':
		return "space"
	case t.Kind.Character():
		return string(t.Rune)
	case t.Kind == term.Escape:
		return "esc"
	case t.Name != "":
		return t.Name
	default:
		return t.Kind.String()
	}
}
