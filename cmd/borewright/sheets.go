package main

import (
	"errors"
	"fmt"

	"github.com/urfave/cli/v3"

	"borewright/store"
	"borewright/tui"
)

// sheetsOption names the folder that the station writes sheets into.
const sheetsOption = "sheets"

func sheetsFlag() cli.Flag {
	return &cli.StringFlag{
		Name: sheetsOption, Usage: "let the station write sheets into `FOLDER`", DefaultText: "the one that it is started in", Local: true,
	}
}

// folder is a folder as the station writes into it.
type folder struct {
	w   World
	dir string
}

// sheetsFolder returns the folder that the command line names, before or after
// the name of the command, else the one that the program was started in.
func sheetsFolder(cmd *cli.Command, w World) folder {
	for _, c := range cmd.Lineage() {
		if dir := c.String(sheetsOption); dir != "" {
			return folder{w, dir}
		}
	}
	return folder{w, "."}
}

// Path is where a file of that name would be written.
func (f folder) Path(name string) (string, error) { return store.FilePath(f.dir, name) }

// Write writes a file; its error is [tui.ErrThere] where one is in the way.
func (f folder) Write(name string, data []byte, replace bool) (string, error) {
	path, err := f.w.Write(f.dir, name, data, replace)
	if errors.Is(err, store.ErrExists) {
		where, _ := f.Path(name) // it was found, so it has one
		return "", fmt.Errorf("%w: %s", tui.ErrThere, where)
	}
	return path, err
}
