package main

import (
	"context"
	"errors"
	"os/exec"
	"strings"
	"testing"

	"borewright/store"
)

func TestVerifyLines(t *testing.T) {
	t.Parallel()
	r := store.Report{Sessions: 2, Events: 40, Pages: 9, Faults: []store.Fault{{Page: 7, Session: "s2", Title: "Launch", Event: 5, Text: "cannot be read"}}, More: 3}
	want := "session \"Launch\" (s2): event 5 cannot be read (page 7)\nand 3 more\n40 events of 2 sessions on 9 pages can be reached and are intact"
	if got := strings.Join(verifyLines(r), "\n"); got != want {
		t.Errorf("said %q, want %q", got, want)
	}
	r.Faults, r.More, r.Sound = nil, 0, true
	if got := strings.Join(verifyLines(r), "\n"); got != "40 events of 2 sessions on 9 pages intact; the database is sound" {
		t.Errorf("said %q", got)
	}
}

// TestAnswerOf: a check that ends badly is told as that, and never as sound.
func TestAnswerOf(t *testing.T) {
	t.Parallel()
	late, cancel := context.WithCancel(t.Context())
	cancel()
	for name, try := range map[string]struct {
		ctx  context.Context
		out  string
		err  error
		want string
	}{
		"died":    {t.Context(), "", &exec.ExitError{}, "the check could not be finished"},
		"late":    {late, "", errors.New("killed"), "took too long"},
		"nothing": {t.Context(), "", nil, "said nothing that can be read"},
		"refused": {t.Context(), `{"error":"the database is already open"}`, nil, "already open"},
	} {
		if r, err := answerOf(try.ctx, []byte(try.out), try.err); err == nil || !strings.Contains(err.Error(), try.want) || r.Sound {
			t.Errorf("%s: %v, %+v", name, err, r)
		}
	}
	r, err := answerOf(t.Context(), []byte(`{"report":{"sound":true,"events":3}}`), nil)
	if err != nil || !r.Sound || r.Events != 3 {
		t.Errorf("sound: %v, %+v", err, r)
	}
}
