package tui

import (
	"borewright/engine"
	"borewright/engine/gauge"
	"borewright/engine/plan"
)

// told are the session's answers to what every frame asks, until its next event. A
// digit changes none of them: to work them out for each was 29 of the 64 kB that a
// frame of 80x24 allocated.
type told struct {
	progress last[struct{}, progress]
	live     last[plan.Feature, []engine.LiveFigure]
	reads    last[plan.Place, reads]
}

// last is the answer to what was asked last.
type last[Of comparable, Answer any] struct {
	of     Of
	answer Answer
	known  bool
}

// ask gives the answer, found out by work where something else was asked last.
func (l *last[Of, Answer]) ask(of Of, work func() Answer) Answer {
	if !l.known || l.of != of {
		*l = last[Of, Answer]{of, work(), true}
	}
	return l.answer
}

// progress is how many places of the plan are settled.
type progress struct{ settled, planned int }

// reads is what a text is read against, or why it cannot be read.
type reads struct {
	context gauge.Context
	err     error
}

// progress is [engine.Session.Progress].
func (d *Desk) progress() (settled, planned int) {
	x := d.told.progress.ask(struct{}{}, func() (x progress) {
		x.settled, x.planned = d.Session.Progress()
		return x
	})
	return x.settled, x.planned
}

// live is [engine.Assessment.Live] of a feature. It is not to be changed.
func (d *Desk) live(f plan.Feature) []engine.LiveFigure {
	return d.told.live.ask(f, func() []engine.LiveFigure { return d.Now.Live(d.Session, f) })
}

// reads is [engine.Session.Reads] of a place.
func (d *Desk) reads(p plan.Place) (gauge.Context, error) {
	x := d.told.reads.ask(p, func() (x reads) {
		x.context, x.err = d.Session.Reads(p)
		return x
	})
	return x.context, x.err
}
