package store

import (
	"fmt"
	"runtime/debug"
)

// safely calls f. A panic that is not bbolt's is a mistake of this program: it
// is written down and stops the queue, not the process.
func (b *book) safely(f func() (bool, error)) (ok bool, err error) {
	defer func() {
		if fault := recover(); fault != nil {
			err = fmt.Errorf("%w: %v%s", ErrWriter, fault, b.written(fault))
		}
	}()
	return f()
}

// report tells Notify. A panic of Notify is written down and becomes a warning:
// what is kept is kept all the same.
func (b *book) report(o Outcome) {
	defer func() {
		if fault := recover(); fault != nil {
			b.warn(fmt.Sprintf("what hears about kept events failed: %v%s", fault, b.written(fault)))
		}
	}()
	if b.notify != nil {
		b.notify(o)
	}
}

// written writes a panic down and returns the end of the sentence about it, which
// says where. Call it where it is recovered.
func (b *book) written(fault any) string {
	if b.crash == nil {
		return ""
	}
	where := b.crash(fmt.Sprintf("%v\n\n%s", fault, debug.Stack()))
	if where == "" {
		return ""
	}
	return "; what happened is written in " + where
}
