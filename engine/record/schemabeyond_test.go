package record

import (
	"strings"
	"testing"
)

// refusedText is what the reader refuses, with the definition of the schema that
// it falls under.
type refusedText struct{ name, def, text string }

// refusedTexts are the malformed events and files of all tables.
func refusedTexts(t *testing.T) []refusedText {
	t.Helper()
	var out []refusedText
	for _, m := range malformed {
		out = append(out, refusedText{m.name, "event", strings.Replace(stored, m.old, m.new, 1)})
	}
	for _, c := range badFiles(t) {
		out = append(out, refusedText{c.name, "", c.text})
	}
	for _, c := range meaningless {
		out = append(out, refusedText{"meaning: " + c.name, "", `{"borewright":1,` + c.text + `}`})
	}
	for _, c := range badBodies(t) {
		stored, err := (Event{N: 9, V: 1, At: at, By: "rk", Body: c.body, Prev: anyHash}).encode()
		if err == nil { // else nobody can write it
			out = append(out, refusedText{c.want, "event", string(stored)})
		}
	}
	return out
}

// beyond are those that no schema can refuse, by what it would have to know.
var beyond = map[string][]string{
	"how JSON is written": {
		"a lone half", "a lone second half", "two first halves", "a line break", "not UTF-8", "binary in the middle",
		"doubled", "doubled by an escape", "plain: doubled", "plain: doubled limits", "a fraction", "plain: an exponent",
		"full: two lines", `details engine: "\xff": not text in UTF-8`,
	},
	"the calendar": {"no day"},
	"how much a number says": {
		"a length beyond", "meaning: below zero", `rules coverage: "10.01": not from 0 to 10`, `rules blind_rate: "-0.01": not from 0 to 1`,
		`setting "z1": master temperature "300.5" is not from -60 to 300`, `setting "z1": gauge temperature "-60.1" is not from -60 to 300`,
	},
	"what follows a number": {
		`given value: "11.7e-6 /K": a number here has no exponent`,
		`given doubt: "` + strings.Repeat("x", 40) + `…": at most 64 bytes long`,
	},
	"which of two figures is larger": {
		"meaning: depths in disorder", "meaning: a limit that is turned round",
		`instrument "bg1": high "1 in" is not above low`, `instrument "bg1": step "0.001 in" is coarser than a graduation`,
	},
	"what stands elsewhere": {
		"meaning: no unit", "meaning: a bare number without a unit", "meaning: too many without a layout", "meaning: a family twice",
		"meaning: too many levels", "meaning: a limit for a missing feature", "meaning: a figure of what is not there", "meaning: a table of what is not there", "meaning: a part that is not there",
		"meaning: a feature that is not there", "meaning: a family that is not planned", "meaning: a direction that is not planned",
		"meaning: a direction twice", "meaning: too many directions", "meaning: too few values", "meaning: a value alone",
		"meaning: a level", "meaning: a level beyond", "meaning: levels in a row of one", "meaning: a place twice",
		"meaning: after no work", "meaning: work on what is not there", "moved places: 1 places for 2 readings",
		`steps list: step "plugs": it stands twice in the list`, `steps list: step "a": not before "b", which is no step of the list`,
	},
	"the order of events": {
		`moved readings[1]: "9": not an event before this one`, `withdrawn event: "9": not an event before this one`,
		`work after: "9": not an event before this one`, "full: gap",
	},
	"the chain and the digest": {"full: altered", "full: last altered", "full: digest too far"},
}

// TestSchemaRefuses: what the reader refuses, the schema refuses too, or it is
// beyond any schema.
func TestSchemaRefuses(t *testing.T) {
	why := map[string]string{}
	for reason, names := range beyond {
		for _, name := range names {
			why[name] = reason
		}
	}
	for _, r := range refusedTexts(t) {
		reason, is := why[r.name]
		switch err := bySchema(r.def, r.text); {
		case err == nil && !is:
			t.Errorf("%s: the schema takes %.300s", r.name, r.text)
		case err != nil && is:
			t.Errorf("%s is not beyond the schema for %s: it says %v", r.name, reason, err)
		}
		delete(why, r.name)
	}
	for name, reason := range why {
		t.Errorf("%s, beyond the schema for %s, is in no table", name, reason)
	}
}
