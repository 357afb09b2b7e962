package tui

import (
	"fmt"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/tui/draw"
)

// help lists the keys of the screen beneath it, from the very rows that the
// keys are looked up in.
type help struct {
	st    *Station
	under Screen
	list  list
	w, h  int
}

// explained is a screen that has more to say on its help page.
type explained interface{ Explain() []string }

func newHelp(st *Station, under Screen) *help { return &help{st: st, under: under} }

// Init needs nothing.
func (h *help) Init() tea.Cmd { return nil }

// Update takes nothing.
func (h *help) Update(tea.Msg) tea.Cmd { return nil }

// Resize sets the size of the body.
func (h *help) Resize(width, height int) { h.w, h.h = width, height }

// Title names the screen.
func (h *help) Title() string { return "keys of " + h.under.Title() }

// Typing takes no characters.
func (h *help) Typing() Typing { return NotTyping }

// Actions scroll the page and leave it.
func (h *help) Actions() []Action {
	return []Action{
		on("enter|?|esc", "back", func() tea.Cmd {
			h.st.Pop(nil)
			return nil
		}),
		on("*|k", cardTitle, func() tea.Cmd {
			h.st.Push(&keyCard{st: h.st, under: h.under})
			return nil
		}),
		on("up|-", "up", func() tea.Cmd { return h.scroll(-1) }),
		on("down|+", "down", func() tea.Cmd { return h.scroll(1) }),
		on("pgup", "", func() tea.Cmd { return h.scroll(-h.room()) }),
		on("pgdown", "", func() tea.Cmd { return h.scroll(h.room()) }),
	}
}

// room is how many lines of the page are in sight: all of the body but the line
// that says which they are.
func (h *help) room() int { return max(1, h.h-1) }

func (h *help) scroll(by int) tea.Cmd {
	h.list.move(by, max(1, len(h.lines())-h.room()+1))
	return nil
}

func (h *help) lines() []string {
	p := &h.st.Palette
	var out []string
	for _, a := range h.under.Actions() {
		if a.Help == "" {
			continue
		}
		text := a.Help
		if a.Why != "" {
			text += ": " + a.Why
		}
		if a.Off != "" {
			text += " (off now: " + a.Off + ")"
		}
		for i, line := range draw.Wrap(text, max(20, h.w-16)) {
			key := ""
			if i == 0 {
				key = keysText(a.Keys)
			}
			out = append(out, "  "+p.Paint(draw.Key, draw.Fit(key, 11))+" "+line)
		}
	}
	if x, ok := h.under.(explained); ok {
		out = append(append(out, ""), x.Explain()...)
	}
	return out
}

func keysText(keys []string) string {
	text := ""
	for i, k := range keys {
		if i > 0 {
			text += " "
		}
		text += keyLabel(k)
	}
	return text
}

// View shows the page from where it is scrolled to.
func (h *help) View() []string {
	lines := h.lines()
	if len(lines) <= h.h {
		return lines
	}
	first := max(0, min(h.list.at, len(lines)-h.room()))
	last := min(len(lines), first+h.room())
	foot := fmt.Sprintf(" lines %d to %d of %d: Up and Down, or - and +, show the rest ", first+1, last, len(lines))
	return append(slices.Clone(lines[first:last]), h.st.Palette.Paint(draw.Frame, draw.Rule(foot, h.w, h.st.ASCII)))
}
