package main

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"github.com/urfave/cli/v3"

	"borewright/engine"
	"borewright/engine/record"
	"borewright/engine/sheet"
)

// tableFlags are the options of "import" that tables alone have.
func tableFlags() []cli.Flag {
	return []cli.Flag{
		&cli.StringFlag{Name: "into", Usage: "add a table's readings to the session `ID`"},
		&cli.StringFlag{Name: "mapping", Usage: "understand a table as the `FILE` of a mapping says; the options below count before it"},
		&cli.StringSliceFlag{Name: "column", Usage: "take a table's column for another: `\"HEADING=NAME\"`, NAME being feature, level, direction, read, deviation or a direction such as across"},
		&cli.StringFlag{Name: "of", Usage: "the `FAMILY` of a table's features that are named by a number alone, such as bore"},
		&cli.StringFlag{Name: "units", Usage: "the `UNIT` of a table's numbers without one: in or mm"},
		&cli.StringFlag{Name: "separator", Usage: "what stands between a table's cells: `\",\"`, \";\" or tab"},
		&cli.StringFlag{Name: "stage", Usage: "take a table's rows of this `STAGE` only, such as \"as found\""},
		&cli.StringFlag{Name: "title", Usage: "the `TITLE` of the new session that a table becomes"},
		&cli.BoolFlag{Name: "yes", Usage: "take a table in; without it is only said what would be done", HideDefault: true},
	}
}

// isTable reports whether a file is a table by its name.
func isTable(name string) bool { return strings.EqualFold(filepath.Ext(name), ".csv") }

// tableOption returns the first option given that only a table has, or "".
func tableOption(cmd *cli.Command) string {
	for _, f := range tableFlags() {
		if name := f.Names()[0]; cmd.IsSet(name) {
			return name
		}
	}
	return ""
}

// importTable says what taking in a table would do, and does it with --yes.
func importTable(ctx context.Context, cmd *cli.Command, w World, name string) error {
	how, err := mapping(cmd, w)
	if err != nil {
		return err
	}
	by, err := initials(cmd, w)
	if err != nil {
		return err
	}
	path, err := database(cmd, w)
	if err != nil {
		return err
	}
	in, err := readTable(w, name, how)
	if err != nil {
		return err
	}
	if err := printLines(w.Out, in.Summary()); err != nil {
		return err
	}
	if id := cmd.String("into"); id != "" {
		return tableInto(ctx, w, in, taking{name, path, id, by, cmd.Bool("yes")})
	}
	return tableAsNew(w, in, taking{name, path, cmd.String("title"), by, cmd.Bool("yes")})
}

// taking is a table to be taken in: its file, the database, the session or its
// title, whose hand it is, and whether it is to be done.
type taking struct {
	name, path, into, by string
	yes                  bool
}

const notYet = "Nothing is taken in yet; --yes does it."

func readTable(w World, name string, how sheet.Mapping) (sheet.Intake, error) {
	file, err := input(w, name)
	if err != nil {
		return sheet.Intake{}, fileError(name, err)
	}
	in, err := sheet.ReadCSV(file, how)
	if err := errors.Join(err, file.Close()); err != nil {
		return sheet.Intake{}, fileError(name, err)
	}
	return in, nil
}

// tableInto adds the readings of a table to a session that is here.
func tableInto(ctx context.Context, w World, in sheet.Intake, t taking) error {
	events, err := load(w, t.path, t.into, Book.Load)
	if err != nil {
		return err
	}
	session, err := engine.Replay(events)
	if err != nil {
		return err
	}
	bodies, err := in.Into(session)
	if err != nil {
		return fileError(t.name, err)
	}
	uid, title := session.Details().UID, called(session.Details().Title)
	if !t.yes {
		return printLines(w.Out, []string{fmt.Sprintf("They would go into session %s %s.", uid, title), notYet})
	}
	fresh := make([]record.Event, len(bodies))
	for i, b := range bodies {
		fresh[i] = record.Event{At: w.Now(), By: t.by, Body: b}
	}
	err = withBookToKeep(w, t.path, func(b Book) error {
		if _, err := b.Keep(uid, fresh...); err != nil {
			return err
		}
		return b.Wait(ctx)
	})
	if err != nil {
		return err
	}
	return printLines(w.Out, []string{fmt.Sprintf("%s added to session %s %s", plural(int64(len(fresh)), "reading"), uid, title)})
}

// tableAsNew makes a new session of a table.
func tableAsNew(w World, in sheet.Intake, t taking) error {
	if t.into == "" {
		t.into = strings.TrimSuffix(filepath.Base(t.name), filepath.Ext(t.name))
	}
	plain, err := in.Plain(t.into)
	if err != nil {
		return fileError(t.name, err)
	}
	events, session, err := replayFile(record.File{Plain: &plain}, w.UID(), w.Now(), t.by)
	if err != nil {
		return fileError(t.name, err)
	}
	if !t.yes {
		return printLines(w.Out, []string{"They would become a new session " + called(t.into) + ".", notYet})
	}
	return withBookToKeep(w, t.path, func(b Book) error { return takeIn(w, b, session, lines(events)) })
}
