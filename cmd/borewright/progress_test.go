package main

import (
	"errors"
	"strings"
	"testing"
	"time"

	"borewright/store"
)

// progressing is a world whose error stream may be a terminal, with a salvage that
// takes so long for each of two sessions and ends as it is told.
func progressing(out, errs *strings.Builder, terminal bool, each time.Duration, err error) World {
	w := newShelf().world(out, errs)
	w.ErrTerminal = func() bool { return terminal }
	now := time.Unix(1e9, 0)
	w.Watch = func() time.Time { return now }
	w.Salvage = func(_, _ string, tell func(store.Step), _ ...string) (store.Salvaged, error) {
		for _, s := range []store.Step{{Doing: "searching"}, {Doing: "writing", N: 9, Of: 10}, {Doing: "writing", N: 10, Of: 10}, {Doing: "checking"}} {
			tell(s)
			now = now.Add(each)
		}
		return store.Salvaged{Out: "out.db"}, err
	}
	return w
}

// TestProgress: on a terminal a line says how far it has come, is written over and
// gone before anything else is said; elsewhere nothing is written.
func TestProgress(t *testing.T) {
	t.Parallel()
	gone := func(text string) string { return "\r" + strings.Repeat(" ", len(text)) + "\r" }
	end := func(after string) string {
		return "\rchecking ..." + strings.Repeat(" ", len(after)-len("checking ...")) + "\rchecking ..." + gone("checking ...")
	}
	nine, ten := "writing session 9 of 10", "writing session 10 of 10"
	full := "\rsearching ...\r" + nine + "\r" + ten + end(ten)
	for name, try := range map[string]struct {
		terminal bool
		each     time.Duration
		err      error
		want     string
	}{
		"slow":        {true, progressEvery, nil, full},
		"slow, fails": {true, progressEvery, errors.New("it burns"), full + "borewright: it burns\n"},
		"fast":        {true, progressEvery / 10, nil, "\rsearching ...\r" + nine + end(nine)},
		"no terminal": {false, progressEvery, nil, ""},
	} {
		var out, errs strings.Builder
		w := progressing(&out, &errs, try.terminal, try.each, try.err)
		run([]string{"borewright", "--db", "a.db", "salvage", "out.db"}, w)
		if errs.String() != try.want {
			t.Errorf("%s: the error stream has\n%q, want\n%q", name, errs.String(), try.want)
		}
	}
}
