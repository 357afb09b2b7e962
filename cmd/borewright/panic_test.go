//go:build unix

package main

import (
	"context"
	"time"

	"borewright/store"
)

// breakOff makes one part of the world panic when the station has taken a
// reading: "update" in the goroutine that deals with keys, "goroutine" in one of
// the program's own, "writer" in the store's, where it reports what is kept,
// "backup" in that of the day's backup.
func breakOff(w *World, where string) {
	if where == "" {
		return
	}
	open, watch, hangup := w.Open, w.Watch, w.Hangup
	kept := make(chan struct{}, 1000)
	taken := false
	w.Open = func(path string, o store.Options) (Book, error) {
		notify := o.Notify
		o.Notify = func(outcome store.Outcome) {
			if notify != nil {
				notify(outcome)
			}
			if notify == nil || outcome.First <= demoEvents {
				return
			}
			if where == "writer" {
				panic("out of true")
			}
			kept <- struct{}{}
		}
		b, err := open(path, o)
		if where == "backup" && err == nil {
			b = brokenBackup{b}
		}
		return b, err
	}
	switch where {
	case "update":
		w.Watch = func() time.Time {
			select {
			case <-kept:
				taken = true
			default:
			}
			if taken {
				panic("out of true")
			}
			return watch()
		}
	case "goroutine":
		w.Hangup = func(ctx context.Context) (context.Context, context.CancelFunc) {
			ctx, release := hangup(ctx)
			return brokenContext{ctx, kept}, release
		}
	}
}

// demoEvents is how many events the demo session has.
const demoEvents = 91

// brokenBackup is a database whose backup breaks off.
type brokenBackup struct{ Book }

func (brokenBackup) BackupOfDay(time.Time, int, store.Pace) (string, error) { panic("out of true") }

// brokenContext panics in whoever waits for it, once something is kept.
type brokenContext struct {
	context.Context
	kept <-chan struct{}
}

// Done waits a moment, so that the reading shows.
func (c brokenContext) Done() <-chan struct{} {
	<-c.kept
	time.Sleep(atRest)
	panic("out of true")
}
