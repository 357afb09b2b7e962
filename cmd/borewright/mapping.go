package main

import (
	"cmp"
	"errors"
	"strings"

	"github.com/urfave/cli/v3"

	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/sheet"
)

// mapping returns how a table is to be understood: as the file of --mapping
// says, and before it as the other options do.
func mapping(cmd *cli.Command, w World) (m sheet.Mapping, err error) {
	if cmd.IsSet("into") && cmd.IsSet("title") {
		return m, usagef("--title is for a new session, --into names one that is here")
	}
	if name := cmd.String("mapping"); name != "" {
		if m, err = readMapping(w, name); err != nil {
			return m, err
		}
	}
	m.Stage = cmp.Or(cmd.String("stage"), m.Stage)
	if err := mapColumns(cmd, &m); err != nil {
		return m, err
	}
	if text := cmd.String("of"); text != "" {
		if m.Of, err = plan.FamilyOf(text); err != nil {
			return m, usagef("--of: %w", err)
		}
	}
	if text := cmd.String("units"); text != "" {
		if m.Unit, err = length.ParseUnit(text); err != nil {
			return m, usagef("--units: %w", err)
		}
	}
	if text := cmd.String("separator"); text != "" {
		if m.Separator, err = sheet.ParseSeparator(text); err != nil {
			return m, usagef("--separator %q: %w", text, err)
		}
	}
	return m, nil
}

// mapColumns takes in what --column says.
func mapColumns(cmd *cli.Command, m *sheet.Mapping) error {
	if m.Columns == nil {
		m.Columns = map[string]string{}
	}
	for _, text := range cmd.StringSlice("column") {
		at := strings.LastIndex(text, "=")
		if at < 1 {
			return usagef("--column %q is not HEADING=NAME", text)
		}
		m.Columns[text[:at]] = text[at+1:]
	}
	return nil
}

// readMapping reads the file of a mapping.
func readMapping(w World, name string) (sheet.Mapping, error) {
	file, err := input(w, name)
	if err != nil {
		return sheet.Mapping{}, fileError(name, err)
	}
	m, err := sheet.ReadMapping(file)
	if err := errors.Join(err, file.Close()); err != nil {
		return sheet.Mapping{}, fileError(name, err)
	}
	return m, nil
}
