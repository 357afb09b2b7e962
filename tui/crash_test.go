package tui

import (
	"errors"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
)

// broken is a screen that breaks off as soon as it is asked anything.
type broken struct{ *bench }

func (broken) Update(tea.Msg) tea.Cmd { panic("out of true") }

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
