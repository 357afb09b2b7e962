package main

import (
	"context"
	"errors"
	"fmt"

	"github.com/urfave/cli/v3"

	"borewright/engine"
	"borewright/engine/record"
	"borewright/store"
)

// importCommand is "borewright import FILE".
func importCommand(w World) *cli.Command {
	return &cli.Command{
		Name:      "import",
		Usage:     "take a session in from a file",
		ArgsUsage: "FILE|-",
		Description: `An exported session is taken in event by event; of one that is here
already, what is missing is added. One that went on in both places is
refused unless --as-new makes a session of its own of it. A file written by
hand becomes a new session. "-" reads standard input.

A table of readings, FILE.csv, becomes a new session or goes into the one
that --into names. Its heading says what a column is: feature, level,
direction, read or deviation, or a direction such as across, with the unit
behind it: "across (mm)". Other headings are named by --column, or by a
mapping: {"columns":{"Cyl":"feature","Thrust":"across"},"of":"bore"}, which
may have units, stage and separator too. What would be done is said first;
--yes does it.`,
		Flags: append([]cli.Flag{
			&cli.BoolFlag{Name: "as-new", Usage: "make a new session that says what it was copied from", HideDefault: true},
			byFlag(false),
		}, tableFlags()...),
		ShellComplete: completeFile,
		Action: func(ctx context.Context, cmd *cli.Command) error {
			args, err := operands(cmd, "FILE")
			if err != nil {
				return err
			}
			if isTable(args[0]) {
				return importTable(ctx, cmd, w, args[0])
			}
			if name := tableOption(cmd); name != "" {
				return usagef("--%s is for a table, FILE.csv", name)
			}
			return importFile(cmd, w, args[0])
		},
	}
}

func importFile(cmd *cli.Command, w World, name string) error {
	by, err := initials(cmd, w)
	if err != nil {
		return err
	}
	path, err := database(cmd, w)
	if err != nil {
		return err
	}
	file, err := readFile(w, name)
	if err != nil {
		return err
	}
	uid := w.UID()
	events, session, err := replayFile(file, uid, w.Now(), by)
	if err == nil && file.Full != nil && cmd.Bool("as-new") {
		events, session, err = copied(file.Full, uid)
	}
	if err != nil {
		return fileError(name, err)
	}
	return withBookToKeep(w, path, func(b Book) error { return takeIn(w, b, session, lines(events)) })
}

// copied returns the events of a file as those of a new session, which says
// what it was copied from by the digest of the file.
func copied(full *record.Full, uid string) ([]record.Sealed, *engine.Session, error) {
	fresh := make([]record.Event, len(full.Events))
	for i, e := range full.Events {
		fresh[i] = e.Event
		if d, ok := e.Body.(record.Details); ok {
			d.UID, d.Copied = uid, fmt.Sprintf("%d %s", full.Digest.N, full.Digest.Hash)
			fresh[i].Body = d
		}
	}
	events, err := seal(fresh)
	if err != nil {
		return nil, nil, err
	}
	session, err := engine.Replay(events)
	return events, session, err
}

// takeIn adds what is missing of a session to the book and says what it was.
func takeIn(w World, b Book, session *engine.Session, theirs [][]byte) error {
	details := session.Details()
	kept, err := b.Lines(details.UID)
	if err != nil && !errors.Is(err, store.ErrNoSession) {
		return err
	}
	missing, err := record.Merge(kept, theirs)
	var diverged *record.DivergedError
	if errors.As(err, &diverged) {
		return fmt.Errorf("event %d differs from the one kept here in session %s %s: the two went separate ways; --as-new makes a new session of the file",
			diverged.N, details.UID, called(details.Title))
	}
	if err != nil {
		return err
	}
	if err := b.Append(details.UID, missing); err != nil {
		return err
	}
	name := fmt.Sprintf("session %s %s: ", details.UID, called(details.Title))
	return printLines(w.Out, []string{name + takenIn(len(kept), len(theirs), len(missing))})
}

// takenIn says what came of so many events here, so many in a file and so many
// of those missing here.
func takenIn(kept, theirs, missing int) string {
	switch {
	case kept == 0:
		return "new, " + plural(int64(missing), "event")
	case missing > 0:
		return plural(int64(missing), "event") + " added to " + fmt.Sprint(kept)
	case kept > theirs:
		return fmt.Sprintf("nothing new; %s later than the file", plural(int64(kept-theirs), "event"))
	default:
		return "nothing new"
	}
}
