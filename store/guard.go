package store

import (
	"fmt"
	"runtime/debug"
)

// panicError is a panic or a memory fault inside bbolt, caught.
type panicError struct {
	value any
}

func (e *panicError) Error() string { return fmt.Sprint(e.value) }

// guard calls f, which may call bbolt and nothing that is not about its pages.
// A damaged file makes bbolt panic, and a file cut short makes its memory map
// fault: both come back as a *panicError. Faults are caught per goroutine, so
// every call into bbolt goes through here.
func guard(f func() error) (err error) {
	before := debug.SetPanicOnFault(true)
	defer debug.SetPanicOnFault(before)
	defer func() {
		if r := recover(); r != nil {
			err = &panicError{r}
		}
	}()
	return f()
}
