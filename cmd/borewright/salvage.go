package main

import (
	"context"
	"errors"
	"fmt"

	"github.com/urfave/cli/v3"

	"borewright/engine/record"
	"borewright/store"
)

// salvageCommand is "borewright salvage OUT".
func salvageCommand(w World) *cli.Command {
	return &cli.Command{
		Name:      "salvage",
		Usage:     "recover every intact event of a damaged database into a new one",
		ArgsUsage: "OUT",
		Description: `Searches the database, which is not written, for every event of which no
byte is changed, and makes the new database OUT of them. One changed byte of an
event is set right where the next event proves it. A note stands in the
place of an event that is lost, and the title of its session says so: read
those places again. What is lost can come from a backup: --with FILE. Events
that cannot stand without a lost one are set aside: OUT.aside.jsonl has them as
they were kept, and those of a newer borewright, which is to salvage them.
OUT.report.txt lists in bench words what is lost, as far as that can be told,
and what every event says that was set aside.`,
		Flags: []cli.Flag{
			jsonFlag(),
			&cli.StringSliceFlag{Name: "with", Usage: "search `FILE`, a backup or a copy, too"},
		},
		ShellComplete: completeFile,
		Action: func(_ context.Context, cmd *cli.Command) error {
			args, err := operands(cmd, "OUT")
			if err != nil {
				return err
			}
			return salvage(cmd, w, args[0])
		},
	}
}

func salvage(cmd *cli.Command, w World, out string) error {
	path, err := database(cmd, w)
	if err != nil {
		return err
	}
	if listing := out + listingSuffix; w.Exists(listing) {
		return &store.FileError{Path: listing, Kind: store.ErrExists}
	}
	p := newProgress(w)
	s, err := w.Salvage(path, out, p.step, cmd.StringSlice("with")...)
	p.clear()
	if err != nil {
		return busyWords(path, err)
	}
	x := salvaged{Salvaged: s}
	listing, unlisted := writeListing(w, s)
	if unlisted == nil {
		x.Listing = listing
	} else {
		unlisted = fmt.Errorf("%s was made, but what is lost could not be listed beside it: %w", s.Out, unlisted)
	}
	if cmd.Bool("json") {
		err = record.WriteJSON(w.Out, x)
	} else {
		err = printLines(w.Out, salvageLines(x))
	}
	return errors.Join(err, unlisted)
}
