//go:build unix

package main

import (
	"context"
	"fmt"
	"os"
	"strings"

	tea "github.com/charmbracelet/bubbletea"
)

// echo is a program for the stories that prove the stories' own commands: it
// shows its window, its world and what is typed. It rings at "!", ends well at
// "q" and with code 7 at "x", and leaves in the file ended how it ended.
func echo(w World) int {
	ctx, release := w.Hangup(context.Background())
	defer release()
	first := echoScreen{
		world: fmt.Sprintf("terminal %v\nclock %s\nuid %s %s",
			w.Terminal(), w.Now().Format("15:04:05"), w.UID(), w.UID()),
	}
	program := tea.NewProgram(first, tea.WithAltScreen(), tea.WithInput(w.In), tea.WithOutput(w.Out),
		tea.WithoutSignalHandler())
	go func() {
		<-ctx.Done()
		program.Send(echoEnd("window closed"))
	}()
	last, err := program.Run()
	if err := afterScreen(err); err != nil {
		return report(w.Err, err)
	}
	screen := last.(echoScreen)
	if err != nil {
		screen.ended = "window closed"
	}
	if err := os.WriteFile("ended", []byte(screen.ended+"\n"), 0o600); err != nil {
		return report(w.Err, err)
	}
	return screen.code
}

// echoEnd ends the program, saying why.
type echoEnd string

type echoScreen struct {
	world string
	w, h  int
	typed string
	keys  int // messages of keys, each of one or more characters
	ended string
	code  int
}

func (s echoScreen) Init() tea.Cmd { return nil }

func (s echoScreen) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		s.w, s.h = msg.Width, msg.Height
	case echoEnd:
		s.ended = string(msg)
		return s, tea.Quit
	case tea.KeyMsg:
		return s.key(msg.String())
	}
	return s, nil
}

func (s echoScreen) key(name string) (tea.Model, tea.Cmd) {
	s.keys++
	s.typed += name
	switch name {
	case "q":
		s.ended = "quit"
		return s, tea.Quit
	case "x":
		s.ended, s.code = "refused", 7
		return s, tea.Quit
	case "!":
		return s, ring
	}
	return s, nil
}

// ring rings the terminal's bell.
func ring() tea.Msg {
	_, _ = os.Stdout.WriteString("\a") // the story counts what arrives
	return nil
}

func (s echoScreen) View() string {
	lines := []string{
		fmt.Sprintf("window %dx%d", s.w, s.h),
		s.world,
		"typed " + s.typed,
		fmt.Sprintf("keys %d", s.keys),
	}
	return strings.Join(lines, "\n")
}
