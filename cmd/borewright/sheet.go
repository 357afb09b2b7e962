package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/urfave/cli/v3"

	"borewright/engine"
	"borewright/engine/sheet"
	"borewright/store"
)

// sheetCommand is "borewright sheet ID".
func sheetCommand(w World) *cli.Command {
	return &cli.Command{
		Name:      "sheet",
		Usage:     "write a session's build sheet, the record that leaves the shop",
		ArgsUsage: "ID",
		Description: `ID is what "borewright list" shows, any beginning of it that no other
session has, or the exact title. The sheet goes to standard output, or where
-o says. The same events give the same sheet, byte by byte. With --check the
database is asked whether a sheet that was written still matches.`,
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "to", Usage: "write `FORM`: " + sheetForms, DefaultText: "what the name of FILE ends in, else html"},
			&cli.StringFlag{Name: "output", Aliases: []string{"o"}, Usage: "write `FILE`, for its owner only"},
			&cli.BoolFlag{Name: "force", Usage: "write over a file that is there", HideDefault: true},
			&cli.StringFlag{Name: "table", Value: "readings", Usage: "of csv, write the `TABLE` of readings or of results"},
			&cli.StringFlag{Name: "check", Usage: "say whether the sheet in `FILE` still matches its session; takes no ID"},
			&cli.StringFlag{Name: "units", Usage: "show figures in `UNITS`: in, mm or both", DefaultText: "the session's own"},
		},
		ShellComplete: completeSheet(w),
		Action: func(_ context.Context, cmd *cli.Command) error {
			if cmd.IsSet("check") {
				if _, err := operands(cmd); err != nil {
					return err
				}
				return checkSheet(cmd, w, cmd.String("check"))
			}
			args, err := operands(cmd, "ID")
			if err != nil {
				return err
			}
			return writeSheet(cmd, w, args[0])
		},
	}
}

// completeSheet completes options, their values, and the uid of a session.
func completeSheet(w World) cli.ShellCompleteFunc {
	return func(ctx context.Context, cmd *cli.Command) {
		for option, values := range map[string]string{"--to": "html\npdf\ncsv\njson\n", "--units": "in\nmm\nboth\n", "--table": "readings\nresults\n", "--check": ""} {
			if completesValue(ctx, option) {
				_, _ = io.WriteString(cmd.Root().Writer, values) // a shell that has gone needs no words
				return
			}
		}
		completeSession(w)(ctx, cmd)
	}
}

func writeSheet(cmd *cli.Command, w World, id string) error {
	form, err := sheetForm(cmd)
	if err != nil {
		return err
	}
	units, err := sheet.ParseUnits(cmd.String("units"))
	if err != nil {
		return usagef("there are no units %q: %w", cmd.String("units"), err)
	}
	path, err := database(cmd, w)
	if err != nil {
		return err
	}
	to, err := exportFile(cmd)
	if err != nil {
		return err
	}
	events, err := load(w, path, id, Book.Load)
	if err != nil {
		return err
	}
	session, err := engine.Replay(events)
	if err != nil {
		return err
	}
	made, err := sheet.Make(form, session, units)
	if err != nil {
		return err
	}
	return deliver(w, to, made.Data, cmd.Bool("force"))
}

// sheetForms names the forms of a sheet.
const sheetForms = "html, pdf, csv or json"

// sheetForm returns the form of sheet that the command line asks for.
func sheetForm(cmd *cli.Command) (sheet.Form, error) {
	form, table := cmd.String("to"), cmd.String("table")
	if !cmd.IsSet("to") {
		form = "html"
		if ending := strings.ToLower(strings.TrimPrefix(filepath.Ext(cmd.String("output")), ".")); ending == "pdf" || ending == "csv" || ending == "json" {
			form = ending
		}
	}
	switch {
	case form == "html":
		return sheet.HTMLForm, nil
	case form == "pdf":
		return sheet.PDFForm, nil
	case form == "json":
		return sheet.JSONForm, nil
	case form != "csv":
		return 0, usagef("there is no form %q; the forms are %s", form, sheetForms)
	case table == "readings":
		return sheet.ReadingsForm, nil
	case table == "results":
		return sheet.ResultsForm, nil
	default:
		return 0, usagef("there is no table %q; the tables are readings and results", table)
	}
}

// deliver writes data to the file named, or to standard output when none is,
// and says where it went.
func deliver(w World, to string, data []byte, overwrite bool) error {
	if to == "" {
		_, err := w.Out.Write(data)
		return err
	}
	dir, name := filepath.Split(to)
	written, err := w.Write(cmp.Or(dir, "."), name, data, overwrite)
	if errors.Is(err, store.ErrExists) {
		return fmt.Errorf("%w; --force writes over it", err)
	}
	if err != nil {
		return err
	}
	return printLines(w.Out, []string{"sheet written to " + written})
}
