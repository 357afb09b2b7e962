package main

import (
	"github.com/urfave/cli/v3"

	"borewright/engine/record"
	"borewright/tui/term"
)

// byVariable names the initials that are written into events.
const byVariable = "BOREWRIGHT_BY"

// looksFlags are the options of a command that opens the station.
func looksFlags() []cli.Flag {
	choice := func(name, usage string) cli.Flag {
		return &cli.BoolFlag{Name: name, Usage: usage, HideDefault: true, Local: true}
	}
	return []cli.Flag{
		choice("light", "draw for a light terminal"),
		choice("dark", "draw for a dark terminal"),
		choice("no-colour", "draw without colours"),
		choice("ascii", "draw with ASCII signs only"),
		sheetsFlag(),
		byFlag(true),
		gaugeFlag(),
	}
}

// byFlag is the option --by of a command that makes events.
func byFlag(local bool) cli.Flag {
	return &cli.StringFlag{
		Name: "by", Usage: "write these `INITIALS` into what is kept", DefaultText: byVariable, Local: local,
	}
}

// looks returns how the station is to be drawn. A choice counts before and
// after the name of the command.
func looks(cmd *cli.Command) (term.Flags, error) {
	chosen := func(name string) bool {
		for _, c := range cmd.Lineage() {
			if c.Bool(name) {
				return true
			}
		}
		return false
	}
	flags := term.Flags{NoColour: chosen("no-colour"), ASCII: chosen("ascii")}
	switch light, dark := chosen("light"), chosen("dark"); {
	case light && dark:
		return flags, usagef("the terminal is --light or --dark, not both")
	case light:
		flags.Background = term.Light
	case dark:
		flags.Background = term.Dark
	}
	return flags, nil
}

// initials returns the initials that are written into events: those of --by,
// else of BOREWRIGHT_BY, else none.
func initials(cmd *cli.Command, w World) (string, error) {
	by := w.Env(byVariable)
	for _, c := range cmd.Lineage() {
		if given := c.String("by"); given != "" {
			by = given
			break
		}
	}
	note := record.Event{At: w.Now(), By: by, Body: record.Note{Text: "initials"}}
	if err := note.Validate(); err != nil {
		return "", usagef("the initials of --by or %s cannot be kept: %w", byVariable, err)
	}
	return by, nil
}
