package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"borewright/tui/draw"
)

// confirm asks before something is done that one key shall not do.
type confirm struct {
	st       *Station
	title    string
	question []string
	// yes and no say what either answer does.
	yes, no string
	do      func() tea.Cmd
	w, h    int
}

// confirmed tells the router to do what was asked for, over the screen beneath.
type confirmed struct{ do func() tea.Cmd }

// Init needs nothing.
func (c *confirm) Init() tea.Cmd { return nil }

// Update takes nothing.
func (c *confirm) Update(tea.Msg) tea.Cmd { return nil }

// Resize sets the size of the body.
func (c *confirm) Resize(w, h int) { c.w, c.h = w, h }

// Title names what is asked.
func (c *confirm) Title() string { return c.title }

// Typing takes no characters.
func (c *confirm) Typing() Typing { return NotTyping }

// Actions are the two answers.
func (c *confirm) Actions() []Action {
	return []Action{
		on("enter", c.yes, func() tea.Cmd {
			c.st.Pop(confirmed{c.do})
			return nil
		}),
		on("esc|/", c.no, func() tea.Cmd {
			c.st.Pop(nil)
			return nil
		}),
	}
}

// View draws the question and the answers.
func (c *confirm) View() []string {
	p := &c.st.Palette
	lines := []string{""}
	for i, q := range c.question {
		tone := draw.Plain
		if i == 0 {
			tone = draw.Title
		}
		for _, line := range draw.Wrap(q, max(20, c.w-4)) {
			lines = append(lines, "  "+p.Paint(tone, line))
		}
	}
	return append(lines, "",
		"  "+p.Paint(draw.Key, draw.Fit("Enter", 7))+c.yes,
		"  "+p.Paint(draw.Key, draw.Fit("Esc", 7))+c.no)
}
