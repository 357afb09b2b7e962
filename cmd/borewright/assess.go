package main

import (
	"context"
	"time"

	"github.com/urfave/cli/v3"

	"borewright/engine"
	"borewright/engine/record"
)

// assessCommand is "borewright assess FILE".
func assessCommand(w World) *cli.Command {
	return &cli.Command{
		Name:      "assess",
		Usage:     "judge the readings in a file and say what is worst",
		ArgsUsage: "FILE|-",
		Description: `Reads a file written by hand or by "borewright export", from standard
input when it is called "-", and needs no database. With --strict the exit
code is 3 when something is outside its limits.`,
		Flags: []cli.Flag{
			jsonFlag(),
			&cli.BoolFlag{Name: "strict", Usage: "end with code 3 when something is outside", HideDefault: true},
		},
		ShellComplete: completeFile,
		Action: func(_ context.Context, cmd *cli.Command) error {
			args, err := operands(cmd, "FILE")
			if err != nil {
				return err
			}
			return assess(cmd, w, args[0])
		},
	}
}

func jsonFlag() cli.Flag {
	return &cli.BoolFlag{Name: "json", Usage: "print JSON for other programs", HideDefault: true}
}

// An assessment does not depend on when a plain file is read, nor does the
// digest that is printed with it.
const assessedUID = "file"

var assessedAt = time.Unix(0, 0).UTC()

func assess(cmd *cli.Command, w World, name string) error {
	file, err := readFile(w, name)
	if err != nil {
		return err
	}
	_, session, err := replayFile(file, assessedUID, assessedAt, "")
	if err != nil {
		return fileError(name, err)
	}
	found := engine.Assess(session)
	if cmd.Bool("json") {
		err = record.WriteJSON(w.Out, found.Report(session))
	} else {
		err = printLines(w.Out, found.Whole(session))
	}
	if err != nil {
		return err
	}
	if n := found.Outside(); n > 0 && cmd.Bool("strict") {
		return outsidef("%s outside its limits", plural(int64(n), "finding"))
	}
	return nil
}
