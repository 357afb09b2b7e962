package main

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"path/filepath"

	"github.com/urfave/cli/v3"

	"borewright/engine/record"
	"borewright/store"
)

// exportCommand is "borewright export ID".
func exportCommand(w World) *cli.Command {
	return &cli.Command{
		Name:      "export",
		Usage:     "write a session to a file with every event in it",
		ArgsUsage: "ID",
		Description: `ID is what "borewright list" shows, any beginning of it that no other
session has, or the exact title. The file goes to standard output, or where
-o says; it can be assessed and imported elsewhere.`,
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "output", Aliases: []string{"o"}, Usage: "write `FILE`, for its owner only"},
			&cli.BoolFlag{Name: "force", Usage: "write over a file that is there", HideDefault: true},
		},
		ShellComplete: completeSession(w),
		Action: func(_ context.Context, cmd *cli.Command) error {
			args, err := operands(cmd, "ID")
			if err != nil {
				return err
			}
			return export(cmd, w, args[0])
		},
	}
}

func export(cmd *cli.Command, w World, id string) error {
	path, err := database(cmd, w)
	if err != nil {
		return err
	}
	to, err := exportFile(cmd)
	if err != nil {
		return err
	}
	lines, err := load(w, path, id, Book.Lines)
	if err != nil {
		return err
	}
	if to == "" {
		return record.WriteFull(w.Out, lines)
	}
	var data bytes.Buffer
	if err := record.WriteFull(&data, lines); err != nil {
		return err
	}
	dir, name := filepath.Split(to)
	written, err := w.Write(cmp.Or(dir, "."), name, data.Bytes(), cmd.Bool("force"))
	if errors.Is(err, store.ErrExists) {
		return fmt.Errorf("%w; --force writes over it", err)
	}
	if err != nil {
		return err
	}
	return printLines(w.Out, []string{fmt.Sprintf("%s written to %s", plural(int64(len(lines)), "event"), written)})
}

// exportFile returns the file to write, "" for standard output.
func exportFile(cmd *cli.Command) (string, error) {
	to := cmd.String("output")
	switch {
	case to == "" && cmd.IsSet("output"):
		return "", usagef("--output needs the name of a file")
	case to == "" && cmd.Bool("force"):
		return "", usagef("--force is for a file: name it with --output")
	default:
		return to, nil
	}
}

// load returns what read gives of the session that id names.
func load[T any](w World, path, id string, read func(b Book, uid string) (T, error)) (of T, err error) {
	if !w.Exists(path) {
		return of, fmt.Errorf("there is no session %q: no database is at %s", id, path)
	}
	err = withBook(w, path, func(b Book) error {
		hs, err := b.Headings(0)
		if err != nil {
			return err
		}
		h, err := find(hs, id)
		if err != nil {
			return err
		}
		of, err = read(b, h.UID)
		return err
	})
	return of, err
}
