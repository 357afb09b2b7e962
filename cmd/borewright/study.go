package main

import (
	"context"
	"errors"
	"slices"
	"strings"

	"github.com/urfave/cli/v3"

	"borewright/engine"
	"borewright/engine/record"
)

// studyCommand is "borewright study FILE".
func studyCommand(w World) *cli.Command {
	return &cli.Command{
		Name:      "study",
		Usage:     "say how much of what a gauge reads is the gauge",
		ArgsUsage: "FILE|-",
		Description: `Reads the values of a study, from standard input when it is called "-": a
table in CSV with the columns operator, part, trial and value. Needs no
database. One operator, one part or missing values are said, and what can
still be computed is computed.`,
		Flags: []cli.Flag{
			&cli.StringFlag{
				Name: "method", Value: engine.StudyByVariance,
				Usage: "how to analyse it: range (average and range) or anova (analysis of variance)",
			},
			&cli.StringFlag{Name: "tolerance", Usage: "the width between the limits that the gauge is for, such as \"0.0005 in\""},
			jsonFlag(),
		},
		ShellComplete: completeStudy,
		Action: func(_ context.Context, cmd *cli.Command) error {
			args, err := operands(cmd, "FILE")
			if err != nil {
				return err
			}
			return study(cmd, w, args[0])
		},
	}
}

func study(cmd *cli.Command, w World, name string) error {
	method := cmd.String("method")
	if !slices.Contains(engine.StudyMethods(), method) {
		return usagef("there is no method %q; the methods are %s", method, strings.Join(engine.StudyMethods(), " and "))
	}
	rows, err := readStudy(w, name)
	if err != nil {
		return err
	}
	report, err := engine.StudyOf(rows, method, cmd.String("tolerance"))
	switch {
	case errors.Is(err, engine.ErrTolerance):
		return usagef("%w", err)
	case err != nil:
		return fileError(name, err)
	case cmd.Bool("json"):
		return record.WriteJSON(w.Out, report)
	default:
		return printLines(w.Out, report.Lines())
	}
}

// readStudy reads the values of a study from the file that the user named.
func readStudy(w World, name string) ([]record.StudyRow, error) {
	in, err := input(w, name)
	if err != nil {
		return nil, fileError(name, err)
	}
	rows, err := record.ReadStudyCSV(in)
	if err := errors.Join(err, in.Close()); err != nil {
		return nil, fileError(name, err)
	}
	return rows, nil
}

// completeStudy completes options, methods and files.
func completeStudy(ctx context.Context, cmd *cli.Command) {
	if completesValue(ctx, "--method") {
		_, _ = cmd.Root().Writer.Write([]byte(strings.Join(engine.StudyMethods(), "\n") + "\n")) // a shell that has gone needs no words
		return
	}
	completeFile(ctx, cmd)
}
