package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"borewright/tui/draw"
)

// sure asks whether something is to be recorded, and shows what.
type sure struct {
	st    *Station
	title string
	asks  string
	lines []string
	// do records it; done is then handed to the screen beneath.
	do   func() error
	done any
	w, h int
}

// Init needs nothing.
func (s *sure) Init() tea.Cmd { return nil }

// Update takes nothing.
func (s *sure) Update(tea.Msg) tea.Cmd { return nil }

// Resize sets the size of the body.
func (s *sure) Resize(w, h int) { s.w, s.h = w, h }

// Title names the screen.
func (s *sure) Title() string { return s.title }

// Typing takes no characters.
func (s *sure) Typing() Typing { return NotTyping }

// Actions record it or leave it.
func (s *sure) Actions() []Action {
	return []Action{
		on("enter", "record it", s.record),
		on("/|esc", "leave it", func() tea.Cmd {
			s.st.Pop(nil)
			return nil
		}),
	}
}

func (s *sure) record() tea.Cmd {
	if err := s.do(); err != nil {
		s.st.Say(draw.Bad, err.Error())
		s.st.Ring(2)
		return nil
	}
	s.st.Pop(s.done)
	return nil
}

// View shows what would be recorded.
func (s *sure) View() []string {
	out := []string{"", " " + s.st.Palette.Paint(draw.Title, s.asks), ""}
	for _, line := range s.lines {
		out = append(out, wrapped(s.st, s.w, draw.Plain, "  "+line, 3)...)
	}
	return out[:min(len(out), max(s.h, 0))]
}
