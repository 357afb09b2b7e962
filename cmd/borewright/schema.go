package main

import (
	"context"
	"fmt"
	"strings"

	"github.com/urfave/cli/v3"

	"borewright/engine"
	"borewright/engine/record"
)

// schemas are what there is a JSON Schema of; the first one is printed where
// none is named.
var schemas = []struct {
	name  string
	print func() []byte
}{
	{"session", record.Schema},
	{"assessment", engine.ReportSchema},
}

// schemaCommand is "borewright schema [session|assessment]".
func schemaCommand(w World) *cli.Command {
	return &cli.Command{
		Name:      "schema",
		Usage:     "print the JSON Schema of a session file or of an assessment",
		ArgsUsage: "[session|assessment]",
		Description: `Prints a JSON Schema, draft 2020-12: of the file that "borewright assess" and
"borewright import" read and "borewright export" writes, in both its forms, or
of what "borewright assess --json" prints. An editor that knows it can complete
and check a file written by hand. Whether the numbers make sense, and whether
events follow each other unaltered, only reading the file can tell.`,
		ShellComplete: completeSchema,
		Action: func(_ context.Context, cmd *cli.Command) error {
			return printSchema(cmd, w)
		},
	}
}

func printSchema(cmd *cli.Command, w World) error {
	of := schemas[0].name
	if cmd.Args().Present() {
		args, err := operands(cmd, "session|assessment")
		if err != nil {
			return err
		}
		of = args[0]
	}
	var names []string
	for _, s := range schemas {
		if s.name == of {
			_, err := w.Out.Write(s.print())
			return err
		}
		names = append(names, s.name)
	}
	return usagef("there is no schema of %q: it is of %s", of, strings.Join(names, " or of "))
}

// completeSchema completes what there is a schema of, once.
func completeSchema(ctx context.Context, cmd *cli.Command) {
	switch {
	case strings.HasPrefix(lastWord(ctx), "-"):
		cli.DefaultCompleteWithFlags(ctx, cmd)
	case !cmd.Args().Present():
		for _, s := range schemas {
			_, _ = fmt.Fprintln(cmd.Root().Writer, s.name) // a shell that has gone needs no words
		}
	}
}
