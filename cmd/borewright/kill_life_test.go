//go:build unix

package main

import (
	"os"
	"regexp"

	"borewright/engine/record"
)

// life is one run of the station on a tormented database.
type life struct {
	*station
	b       *tormented
	step    int    // is being keyed
	written int    // of its writes
	refused int    // writes that were held or refused
	before  string // what was seen before the last one
}

// begin starts the station.
func (b *tormented) begin() *life {
	b.t.Helper()
	b.lives++
	s, err := startStation(b.program(), 80, 24)
	if err != nil {
		b.t.Fatal(err)
	}
	return &life{station: s, b: b, step: b.kept}
}

// await waits until the screen matches.
func (l *life) await(pattern string) {
	l.b.t.Helper()
	re := regexp.MustCompile("(?m)" + pattern)
	if !l.until(patience, func() bool { return re.MatchString(l.text()) }) {
		l.b.t.Fatalf("%q is not on the screen in life %d, step %d:\n%s", pattern, l.b.lives, l.step+1, l.seen())
	}
}

// resume takes the session up where it must go on, with the last reading that
// is kept in sight.
func (l *life) resume() {
	l.b.t.Helper()
	l.await(`^ . Pond pump `)
	l.send("\r")
	l.await(l.at(l.step))
	for i := l.step - 1; i >= 0; i-- {
		if r, ok := l.b.want[l.b.given+i].Body.(record.Reading); ok {
			l.await(regexp.QuoteMeta("keyed " + r.Keyed + ", today"))
			return
		}
	}
}

// at matches a screen at the place of a step with everything kept.
func (l *life) at(step int) string {
	return `\A borewright: Pond pump\n ?` + placeOf(step) + ` `
}

func (l *life) send(keys string) {
	l.b.t.Helper()
	if _, err := l.tty.WriteString(keys); err != nil {
		l.b.t.Fatal(err)
	}
}

// write writes what comes next.
func (l *life) write() {
	l.b.t.Helper()
	l.until(0, func() bool { l.before = l.appearance(); return true })
	l.send(wholeBore[l.step].keys[l.written])
	l.written++
	l.refused += heldWrites(l.step, l.written) - heldWrites(l.step, l.written-1)
}

// whole reports whether all of the step is written.
func (l *life) whole() bool {
	return l.step < len(wholeBore) && l.written == len(wholeBore[l.step].keys)
}

// settle waits until what was written last shows, and at the end of a step
// until its event is shown as kept.
func (l *life) settle() {
	l.b.t.Helper()
	if l.whole() {
		l.await(l.at(l.step + 1))
		l.step, l.written = l.step+1, 0
		return
	}
	if !l.until(patience, func() bool { return l.appearance() != l.before }) {
		l.b.t.Fatalf("write %d of step %d shows nothing in life %d:\n%s", l.written, l.step+1, l.b.lives, l.seen())
	}
	l.silence(oneFrame)
}

// signal ends the program and waits until it and all it wrote have come.
func (l *life) signal(s os.Signal) {
	l.b.t.Helper()
	if err := l.program.Process.Signal(s); err != nil {
		l.b.t.Fatal(err)
	}
	<-l.ended
}

// shown returns how many steps the dead station showed as kept, and how many
// can be.
func (l *life) shown() (least, most int) {
	if !l.whole() {
		return l.step, l.step
	}
	if regexp.MustCompile(l.at(l.step + 1)).MatchString(l.seen()) {
		return l.step + 1, l.step + 1
	}
	return l.step, l.step + 1
}
