package tui

import (
	"errors"
	"fmt"
	"runtime/debug"
	"sync"

	tea "github.com/charmbracelet/bubbletea"

	"borewright/tui/term"
)

// crash is where the first fault of the program's own was written down; faults
// come from every goroutine.
type crash struct {
	mu    sync.Mutex
	where string
}

// note writes down a fault of the program's own before it ends the station.
func (r *router) note() {
	fault := recover()
	if fault == nil {
		return
	}
	r.report(fault, debug.Stack())
	panic(fault)
}

// record writes down what ended a goroutine of the program's own.
func (r *router) record(err error) {
	if p := (*term.PanicError)(nil); errors.As(err, &p) {
		r.report(p.Value, p.Stack)
	}
}

func (r *router) report(fault any, stack []byte) {
	r.crash.mu.Lock()
	defer r.crash.mu.Unlock()
	if r.crash.where == "" && r.st.Crash != nil {
		r.crash.where = r.st.Crash(fmt.Sprintf("%v\n\n%s", fault, stack))
	}
}

// noting is a command whose fault is written down, with the commands it asks for.
func (r *router) noting(cmd tea.Cmd) tea.Cmd {
	if cmd == nil {
		return nil
	}
	return func() tea.Msg {
		defer r.note()
		msg := cmd()
		if batch, ok := msg.(tea.BatchMsg); ok {
			for i, c := range batch {
				batch[i] = r.noting(c)
			}
		}
		return msg
	}
}

// crashed is what is said when the station broke off, and where it is written.
func (r *router) crashed(cause error) error {
	r.crash.mu.Lock()
	defer r.crash.mu.Unlock()
	if r.crash.where == "" {
		return fmt.Errorf("%w: %w", ErrCrashed, cause)
	}
	return fmt.Errorf("%w: what happened is written in %s", ErrCrashed, r.crash.where)
}
