// Package testdata embeds the invented sessions that the demo opens and the
// tests assess, in the form of exported files.
//
// Caveat: the names are those of the files without their ending; what is in
// them is for the reader to check, like any other file.
package testdata

import (
	"embed"
	"slices"
	"strings"
)

//go:embed sessions/*.json
var sessions embed.FS

const ending = ".json"

// Session returns the file of the session of that name; ok is false when there
// is none.
func Session(name string) (data []byte, ok bool) {
	data, err := sessions.ReadFile("sessions/" + name + ending)
	return data, err == nil
}

// Names returns the names of all sessions in alphabetical order.
func Names() []string {
	entries, err := sessions.ReadDir("sessions")
	if err != nil {
		return nil // the folder is part of the program
	}
	var names []string
	for _, e := range entries {
		names = append(names, strings.TrimSuffix(e.Name(), ending))
	}
	slices.Sort(names)
	return names
}
