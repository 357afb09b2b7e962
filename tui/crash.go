package tui

import (
	"fmt"
	"runtime/debug"
)

// note writes down a fault of the program's own before it ends the station.
func (r *router) note() {
	fault := recover()
	if fault == nil {
		return
	}
	if r.crash == "" && r.st.Crash != nil {
		r.crash = r.st.Crash(fmt.Sprintf("%v\n\n%s", fault, debug.Stack()))
	}
	panic(fault)
}

// crashed is what is said when the station broke off, and where it is written.
func (r *router) crashed(cause error) error {
	if r.crash == "" {
		return fmt.Errorf("%w: %w", ErrCrashed, cause)
	}
	return fmt.Errorf("%w: what happened is written in %s", ErrCrashed, r.crash)
}
