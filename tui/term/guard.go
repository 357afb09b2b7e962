package term

import (
	"fmt"
	"runtime/debug"
)

// PanicError is a panic in one of the program's own goroutines.
type PanicError struct {
	Value any    // what was passed to panic
	Stack []byte // the goroutine's stack, for the crash file
}

// Error says what the panic said.
func (e *PanicError) Error() string {
	return fmt.Sprintf("a part of the program failed: %v", e.Value)
}

// Unwrap returns the panic's value if it is an error.
func (e *PanicError) Unwrap() error {
	err, _ := e.Value.(error)
	return err
}

// Go runs fn in a goroutine of its own. Bubble Tea puts the terminal right
// only after panics in its own goroutines, so a panic in fn is caught and
// given to report, from that goroutine, as a *PanicError; send it to the
// program as a message that ends it. A nil report drops it.
func Go(fn func(), report func(error)) {
	go func() {
		defer func() {
			if v := recover(); v != nil && report != nil {
				report(&PanicError{Value: v, Stack: debug.Stack()})
			}
		}()
		fn()
	}()
}
