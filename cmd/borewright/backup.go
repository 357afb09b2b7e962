package main

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"

	"github.com/urfave/cli/v3"

	"borewright/store"
)

// backupsKept is how many backups stay, one for each day of work.
const backupsKept = 14

// errNoFile is returned where sessions are not kept in a file.
var errNoFile = errors.New("the sessions are not kept in a file that can be copied")

// backupCommand is "borewright backup FILE".
func backupCommand(w World) *cli.Command {
	return &cli.Command{
		Name:      "backup",
		Usage:     "copy the database to a new file and check the copy",
		ArgsUsage: "FILE",
		Description: `The copy is read back whole before it gets its name; nothing is ever written
over. The station makes one by itself on each day of work, in the folder
beside the database whose name ends in "-backups", and keeps the newest 14.
Read one with --db: under its own name a backup is only read. Copied under
another name, such as the database's own, it is a database to go on from.`,
		ShellComplete: completeFile,
		Action: func(_ context.Context, cmd *cli.Command) error {
			args, err := operands(cmd, "FILE")
			if err != nil {
				return err
			}
			return backup(cmd, w, args[0])
		},
	}
}

func backup(cmd *cli.Command, w World, to string) error {
	path, err := database(cmd, w)
	if err != nil {
		return err
	}
	if !w.Exists(path) {
		return fmt.Errorf("no database is at %s", path)
	}
	return withBook(w, path, func(b Book) error {
		file, ok := b.(interface{ Backup(path string) error })
		if !ok {
			return errNoFile
		}
		if err := file.Backup(to); err != nil {
			return err
		}
		return printLines(w.Out, []string{"copied and checked: " + to})
	})
}

// busyWords adds to the error of a database that a station has open, the one at
// the path where the error names none, where it can be read meanwhile. Any other
// error stays as it is.
func busyWords(path string, err error) error {
	if !errors.Is(err, store.ErrBusy) {
		return err
	}
	if file := (*store.FileError)(nil); errors.As(err, &file) {
		path = file.Path
	}
	have := store.Backups(path)
	if len(have) == 0 {
		return fmt.Errorf("%w; there is no backup of it yet", err)
	}
	return fmt.Errorf("%w; its newest backup can be read meanwhile with --db %s", err, filepath.ToSlash(have[len(have)-1]))
}

// onlyRead returns why nothing can be kept in a book, or nil where it can.
func onlyRead(b Book) error {
	if file, ok := b.(interface{ ReadOnly() error }); ok {
		return file.ReadOnly()
	}
	return nil
}
