package main

import (
	"bytes"
	"context"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/urfave/cli/v3"

	"borewright/engine"
	"borewright/engine/record"
	"borewright/testdata"
	"borewright/tui"
)

// The sessions that the demo opens when none is named.
const (
	demoInterrupted = "launch"
	demoComplete    = "launch-complete"
)

// demoCommand is "borewright demo".
func demoCommand(w World) *cli.Command {
	return &cli.Command{
		Name:  "demo",
		Usage: "open the station on an invented session",
		Description: `The session is kept in demo.db beside the database and goes on where it was
left, until --fresh begins it anew; it is dated as if it had been left ten
minutes before that. Where there is no terminal nothing is
written: the worst cylinder and every finding are printed instead.`,
		Flags: append([]cli.Flag{
			&cli.BoolFlag{Name: "fresh", Usage: "put the old demo aside and begin anew", HideDefault: true},
			&cli.BoolFlag{Name: "complete", Usage: "open the one that is measured completely", HideDefault: true},
			&cli.StringFlag{Name: "session", Usage: "open `NAME`: " + strings.Join(testdata.Names(), ", ")},
		}, looksFlags()...),
		ShellComplete: completeDemo,
		Action: func(ctx context.Context, cmd *cli.Command) error {
			if _, err := operands(cmd); err != nil {
				return err
			}
			return demo(ctx, cmd, w)
		},
	}
}

func demo(ctx context.Context, cmd *cli.Command, w World) error {
	name, err := demoName(cmd)
	if err != nil {
		return err
	}
	o, err := stationOptions(cmd, w)
	if err != nil {
		return err
	}
	events, session, err := demoSession(w, name)
	if err != nil {
		return err
	}
	if !w.Terminal() {
		return printLines(w.Out, engine.Assess(session).Summary(session))
	}
	return demoStation(ctx, cmd, w, o, events)
}

// demoStation opens the station on the events of a session, in the demo's
// database.
func demoStation(ctx context.Context, cmd *cli.Command, w World, o tui.Options, events []record.Sealed) error {
	path, err := demoPath(cmd, w)
	if err != nil {
		return err
	}
	notice := "An invented session: " + filepath.Base(path) + " keeps it until --fresh."
	if cmd.Bool("fresh") {
		if notice, err = demoAside(w, path, notice); err != nil {
			return err
		}
	}
	return runStation(ctx, w, o, seat{path: path, apart: "invented", prepare: func(b Book) (string, string, error) {
		uid, err := layDemo(b, path, events)
		return uid, notice, err
	}})
}

// demoName returns the name of the session that the command line asks for.
func demoName(cmd *cli.Command) (string, error) {
	name, complete := cmd.String("session"), cmd.Bool("complete")
	switch {
	case complete && cmd.IsSet("session"):
		return "", usagef("name the session with --complete or with --session, not both")
	case complete:
		return demoComplete, nil
	case !cmd.IsSet("session"):
		return demoInterrupted, nil
	case !slices.Contains(testdata.Names(), name):
		return "", usagef("there is no demo session %q; there are %s", name, strings.Join(testdata.Names(), ", "))
	default:
		return name, nil
	}
}

// demoSession returns the invented session of that name.
func demoSession(w World, name string) ([]record.Sealed, *engine.Session, error) {
	data, ok := testdata.Session(name)
	if !ok {
		return nil, nil, fmt.Errorf("this program was built without the demo session %q", name)
	}
	file, err := record.ReadFile(bytes.NewReader(data))
	if err != nil {
		return nil, nil, fmt.Errorf("demo session %q: %w", name, err)
	}
	now := w.Now()
	events, _, err := replayFile(file, "demo-"+name, now, "")
	if err != nil {
		return nil, nil, fmt.Errorf("demo session %q: %w", name, err)
	}
	events, err = justNow(events, now)
	if err != nil {
		return nil, nil, fmt.Errorf("demo session %q: %w", name, err)
	}
	session, err := engine.Replay(events)
	return events, session, err
}

// demoAgo is how long ago the demo's last event happened: its gauges lie in the
// hand, and no zero check is asked for.
const demoAgo = 10 * time.Minute

// justNow returns the events as of a session that was broken off a moment ago.
func justNow(events []record.Sealed, now time.Time) ([]record.Sealed, error) {
	later := now.Truncate(time.Second).Add(-demoAgo).Sub(events[len(events)-1].At)
	fresh := make([]record.Event, len(events))
	for i, e := range events {
		fresh[i] = e.Event
		fresh[i].At = e.At.Add(later).In(now.Location())
	}
	return seal(fresh)
}
