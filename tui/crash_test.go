package tui

import (
	"errors"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/tui/term"
)

// broken is a screen that breaks off as soon as it is asked anything.
type broken struct{ *bench }

func (broken) Update(tea.Msg) tea.Cmd { panic("out of true") }

// brokenLater breaks off in what it has done beside the screen.
type brokenLater struct{ *bench }

func (brokenLater) Update(tea.Msg) tea.Cmd {
	return func() tea.Msg { panic("out of true") }
}

// brokenView breaks off when it is drawn.
type brokenView struct{ *bench }

func (brokenView) View() []string { panic("out of true") }

// TestAFaultAnywhereIsWrittenDown: in what is done beside the screen, in the
// drawing, and in a goroutine of the program's own.
func TestAFaultAnywhereIsWrittenDown(t *testing.T) {
	for name, fault := range map[string]func(s *station){
		"beside the screen": func(s *station) {
			s.r.stack = append(s.r.stack, brokenLater{newBench(s.st)})
			s.send(returned{})
		},
		"drawing": func(s *station) {
			s.r.stack = append(s.r.stack, brokenView{newBench(s.st)})
			s.r.View()
		},
		"a goroutine": func(s *station) {
			done := make(chan error)
			term.Go(func() { panic("out of true") }, func(err error) { done <- err })
			s.r.record(<-done)
			panic("as the others do")
		},
	} {
		s := newStation(t, 80, 24)
		var reports []string
		s.st.Crash = func(report string) string {
			reports = append(reports, report)
			return "crash.txt"
		}
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s: the fault was swallowed", name)
				}
			}()
			fault(s)
		}()
		if len(reports) != 1 || !strings.Contains(reports[0], "out of true") || !strings.Contains(reports[0], "crash_test.go") {
			t.Errorf("%s: written down: %q", name, reports)
		}
	}
}

func TestAFaultIsWrittenDownOnce(t *testing.T) {
	s := newStation(t, 80, 24)
	var reports []string
	s.st.Crash = func(report string) string {
		reports = append(reports, report)
		return "crash.txt"
	}
	s.r.stack = append(s.r.stack, broken{newBench(s.st)})
	for range 2 {
		func() {
			defer func() {
				if recover() == nil {
					t.Error("the fault was swallowed")
				}
			}()
			s.send(returned{})
		}()
	}
	if len(reports) != 1 || !strings.Contains(reports[0], "out of true") || !strings.Contains(reports[0], "crash_test.go") {
		t.Errorf("written down: %q", reports)
	}
	err := s.r.crashed(errors.New("a panic"))
	if !errors.Is(err, ErrCrashed) || !strings.Contains(err.Error(), "crash.txt") {
		t.Errorf("said: %v", err)
	}
}
