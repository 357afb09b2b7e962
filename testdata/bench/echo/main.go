// Command echo is the least Bubble Tea program that shows what is typed: what a
// key costs that does nothing. Its one argument is the frames a second.
package main

import (
	"os"
	"strconv"

	tea "github.com/charmbracelet/bubbletea"

	_ "borewright/tui/term/probe" // asks the terminal nothing at the start
)

type screen struct{ typed string }

func (s screen) Init() tea.Cmd { return nil }

func (s screen) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	key, ok := msg.(tea.KeyMsg)
	if !ok {
		return s, nil
	}
	if key.Type == tea.KeyCtrlC {
		return s, tea.Quit
	}
	s.typed += key.String()
	s.typed = s.typed[max(0, len(s.typed)-20):]
	return s, nil
}

func (s screen) View() string { return "typed " + s.typed }

func main() {
	frames, err := strconv.Atoi(os.Args[1])
	if err != nil {
		panic(err)
	}
	if _, err := tea.NewProgram(screen{}, tea.WithAltScreen(), tea.WithFPS(frames)).Run(); err != nil {
		panic(err)
	}
}
