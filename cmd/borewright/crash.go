package main

import (
	"fmt"
	"runtime/debug"
	"slices"
	"strings"
	"sync"
)

// crashFile is where faults of the program's own are written, beside the
// database.
const crashFile = "borewright-crash.txt"

// crashesWritten is how many faults of one run are written down: what fails
// again at every try says nothing new.
const crashesWritten = 10

// crashes writes down the faults of this run, from whatever goroutine. A file
// that an earlier run left is written over.
type crashes struct {
	w      World
	folder string

	mu      sync.Mutex
	reports []string
	where   string
}

// note writes a fault down and returns in which file, or "" where none could be
// written.
func (c *crashes) note(report string) string {
	c.mu.Lock()
	defer c.mu.Unlock()
	if len(c.reports) >= crashesWritten || slices.Contains(c.reports, report) {
		return c.where
	}
	c.reports = append(c.reports, report)
	where, err := c.w.Write(c.folder, crashFile, []byte(strings.Join(c.reports, "\n\n")), true)
	if err == nil { // else there is nowhere left to say it
		c.where = where
	}
	return c.where
}

// guard calls f. A panic in it is written down and becomes an error that says
// where.
func (c *crashes) guard(f func() error) (err error) {
	defer func() {
		fault := recover()
		if fault == nil {
			return
		}
		err = fmt.Errorf("a part of the program broke off: %v", fault)
		if where := c.note(fmt.Sprintf("%v\n\n%s", fault, debug.Stack())); where != "" {
			err = fmt.Errorf("%w; what happened is written in %s", err, where)
		}
	}()
	return f()
}

// tell names the file of faults that ended nothing.
func (c *crashes) tell() {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.where != "" {
		warn(c.w, []string{"a part of the program broke off; nothing that was kept is lost, and what happened is written in " + c.where})
	}
}
