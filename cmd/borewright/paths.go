package main

import (
	"errors"
	"path/filepath"

	"github.com/urfave/cli/v3"
)

// The option and the variable that name the database.
const (
	databaseOption   = "db"
	databaseVariable = "BOREWRIGHT_DB"
)

// errNoDataHome is returned when nothing says where the database is.
var errNoDataHome = errors.New("this system names no data folder; say where the database is with --db or " + databaseVariable)

// databaseFlag is the option --db, which every command understands.
func databaseFlag() cli.Flag {
	return &cli.StringFlag{
		Name:        databaseOption,
		Usage:       "keep sessions in `FILE`",
		DefaultText: databaseVariable + ", else borewright.db in the data folder",
	}
}

// database returns the file that the sessions of this command line are kept in.
func database(cmd *cli.Command, w World) (string, error) {
	named := cmd.String(databaseOption)
	if cmd.IsSet(databaseOption) && named == "" {
		return "", usagef("--%s needs the name of a file", databaseOption)
	}
	return databasePath(named, w)
}

// databasePath returns, as the first that is given: named, the variable
// BOREWRIGHT_DB, borewright/borewright.db in the folder XDG_DATA_HOME, the same
// in w.DataHome. As its specification asks, an XDG_DATA_HOME that is not an
// absolute path is passed over (XDG Base Directory Specification 0.8,
// "Environment variables").
func databasePath(named string, w World) (string, error) {
	if named != "" {
		return named, nil
	}
	if named = w.Env(databaseVariable); named != "" {
		return named, nil
	}
	for _, home := range []string{w.Env("XDG_DATA_HOME"), w.DataHome} {
		if filepath.IsAbs(home) {
			return filepath.Join(home, "borewright", "borewright.db"), nil
		}
	}
	return "", errNoDataHome
}
