package main

import (
	"fmt"
	"io"
	"strings"
	"time"

	"borewright/store"
)

// progressEvery is how long a line of progress stands at least before the same step is
// said of another session.
const progressEvery = 100 * time.Millisecond

// progress is one line on the error stream that says how far a long command has
// come. It is written over each time and is gone at the end. Where that stream is no
// terminal there is none.
type progress struct {
	out io.Writer // nil where there is none
	now func() time.Time
	// doing is what was said to be done last, at the time last.
	doing string
	last  time.Time
	// width is how many signs of the line are on the terminal.
	width int
}

func newProgress(w World) *progress {
	p := &progress{now: w.Watch}
	if w.ErrTerminal() {
		p.out = w.Err
	}
	return p
}

// step says how far a salvage has come, unless the same step has only just been said
// of another session.
func (p *progress) step(s store.Step) {
	if p.out == nil {
		return
	}
	now := p.now()
	if s.Doing == p.doing && now.Sub(p.last) < progressEvery {
		return
	}
	p.doing, p.last = s.Doing, now
	if s.Of > 0 {
		p.put(fmt.Sprintf("%s session %d of %d", s.Doing, s.N, s.Of))
	} else {
		p.put(s.Doing + " ...")
	}
}

// clear takes the line away.
func (p *progress) clear() {
	if p.width > 0 {
		p.put("")
	}
}

// put writes text, of ASCII signs, over the line, with blanks and carriage returns alone, which every
// terminal obeys.
func (p *progress) put(text string) {
	blank := ""
	if gone := p.width - len(text); gone > 0 {
		blank = strings.Repeat(" ", gone) + "\r" + text
	}
	p.width = len(text)
	_, _ = io.WriteString(p.out, "\r"+text+blank) // it is no result
}
