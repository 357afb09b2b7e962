package main

import (
	"regexp"
	"testing"
	"time"
)

func TestProcessWorld(t *testing.T) {
	w := processWorld()
	if w.In == nil || w.Out == nil || w.Err == nil {
		t.Error("a stream is missing")
	}
	t.Setenv("BOREWRIGHT_DB", "here.db")
	if got := w.Env("BOREWRIGHT_DB"); got != "here.db" {
		t.Errorf("the environment says %q", got)
	}
	if w.Now().Location() != time.Local {
		t.Error("the clock is not the bench's own")
	}
	ctx, release := w.Hangup(t.Context())
	if ctx.Err() != nil {
		t.Error("the window is closed from the start")
	}
	release()
}

func TestProcessWorldGivesNewIdentities(t *testing.T) {
	t.Parallel()
	w, given := processWorld(), map[string]bool{}
	shape := regexp.MustCompile(`^[A-Za-z0-9-]{20,40}$`)
	for range 1000 {
		uid := w.UID()
		if given[uid] || !shape.MatchString(uid) {
			t.Fatalf("identity %q after %d others", uid, len(given))
		}
		given[uid] = true
	}
}
