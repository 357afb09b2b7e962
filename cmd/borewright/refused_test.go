package main

import (
	"bytes"
	"strings"
	"testing"

	"borewright/store"
)

// refusals are inputs that a command must refuse with one sentence.
func refusals(t *testing.T) map[string]refusal {
	t.Helper()
	kept, longer := string(notes(t, "kept", "Kept", 3, "")), string(notes(t, "kept", "Kept", 4, "other"))
	full := string(notes(t, "other", "Other", 4, ""))
	return map[string]refusal{
		"assess nothing":      {args: "assess", code: 2, want: "assess needs FILE"},
		"assess two":          {args: "assess a b", code: 2, want: `assess does not know what to do with "b"`},
		"assess missing":      {args: "assess gone.json", code: 1, want: "gone.json: file does not exist"},
		"assess empty":        {args: "assess f", file: " \n", code: 1, want: "f: this is not a borewright file"},
		"assess foreign":      {args: "assess f", file: `{"title":"x"}`, code: 1, want: "f: this is not a borewright file"},
		"assess binary":       {args: "assess f", file: "\x7fELF\x00", code: 1, want: "f: this is not a borewright file"},
		"assess cut":          {args: "assess f", file: kept[:len(kept)-5], code: 1, want: "f: events[2]: the text ends too early"},
		"assess newer":        {args: "assess f", file: `{"borewright":2}`, code: 1, want: "f: this file is of version 2 and this program reads up to version 1"},
		"assess deep":         {args: "assess f", file: `{"borewright":1,"x":` + strings.Repeat("[", 40), code: 1, want: "f: x"},
		"assess twice":        {args: "assess f", file: `{"borewright":1,"borewright":1}`, code: 1, want: "f: borewright: "},
		"assess wrong case":   {args: "assess f", file: `{"borewright":1,"Title":"x"}`, code: 1, want: `f: ["Title"]: this key is written "title"`},
		"assess NaN":          {args: "assess f", file: strings.Replace(oneBore(t), `"67.118"`, "NaN", 1), code: 1, want: "f: "},
		"assess no number":    {args: "assess f", file: strings.Replace(oneBore(t), "67.118", "67.1.8", 1), code: 1, want: `f: readings[0].across[0]: "67.1.8": `},
		"assess long text":    {args: "assess f", file: `{"borewright":1,"unit":"mm","title":"` + strings.Repeat("x", 5000) + `"}`, code: 1, want: "f: title: "},
		"assess wrong bore":   {args: "assess f", file: strings.Replace(oneBore(t), "bore/1", "bore/7", 1), code: 1, want: "f: "},
		"assess stdin":        {args: "assess -", stdin: "7", code: 1, want: "standard input: this is not a borewright file"},
		"assess escapes":      {args: "assess f", file: `{"borewright":1,"unit":"mm","title":"\u001b[31mred"}`, code: 1, want: "f: details title: "},
		"import nothing":      {args: "import", code: 2, want: "import needs FILE"},
		"import missing":      {args: "import gone.json", code: 1, want: "gone.json: file does not exist"},
		"import broken chain": {args: "import f", file: strings.Replace(full, "remark 3", "remark 9", 1), code: 1, want: "f: event 4: the hash it holds is not that of event 3: one of the two was altered"},
		"import gap":          {args: "import f", file: strings.Replace(full, `{"n":3,`, `{"n":5,`, 1), code: 1, want: "f: event 3: it is missing; event 5 stands in its place"},
		"import altered end":  {args: "import f", file: strings.Replace(full, "remark 4", "remark 9", 1), code: 1, want: "f: the digest does not match the events"},
		"import new kind":     {args: "import f", file: strings.Replace(full, `"is":"note"`, `"is":"nut"`, 1), code: 1, want: `f: event 2: is: "nut": `},
		"import diverged": {
			args: "import f", file: longer, code: 1,
			want: `event 4 differs from the one kept here in session kept "Kept": the two went separate ways; --as-new makes a new session of the file`,
		},
		"import long initials": {
			args: "import f --by " + strings.Repeat("x", 40), file: full, code: 2,
			want: "the initials of --by or BOREWRIGHT_BY cannot be kept: by: ",
		},
		"export nothing":   {args: "export", code: 2, want: "export needs ID"},
		"export unknown":   {args: "export gone", code: 1, want: `no session has the title "gone" or an ID that begins so; "borewright list" shows them`},
		"export ambiguous": {args: "export k", code: 1, want: `"k" names 2 sessions (kept-2 "Kept too", kept "Kept"); give the ID of one`},
		"export over":      {args: "export kept -o there.json", code: 1, want: "a file of this name is there already: there.json; --force writes over it"},
		"export nowhere":   {args: "export kept -o=", code: 2, want: "--output needs the name of a file"},
		"export force":     {args: "export kept --force", code: 2, want: "--force is for a file: name it with --output"},
		"demo something":   {args: "demo launch", code: 2, want: `demo does not know what to do with "launch"`},
		"demo unknown":     {args: "demo --session lunch", code: 2, want: `there is no demo session "lunch"; there are `},
		"demo light, dark": {args: "demo --light --dark", code: 2, want: "the terminal is --light or --dark, not both"},
		"demo twice":       {args: "demo --complete --session launch", code: 2, want: "name the session with --complete or with --session, not both"},
		"no terminal":      {args: "", code: 1, want: `the station needs a terminal; without one there are "borewright demo", "borewright list" and "borewright assess FILE"`},
		"light and dark":   {args: "--light --dark", code: 2, want: "the terminal is --light or --dark, not both"},
		"long initials":    {args: "--by " + strings.Repeat("x", 40), code: 2, want: "the initials of --by or BOREWRIGHT_BY cannot be kept: by: "},
		"list busy":        {args: "list", busy: true, code: 1, want: "the database is already open in another window: bench.db"},
		"export busy":      {args: "export kept", busy: true, code: 1, want: "the database is already open in another window: bench.db"},
		"import busy":      {args: "import f", file: full, busy: true, code: 1, want: "the database is already open in another window: bench.db"},
	}
}

// refusal is a command line with what it meets, the exit code and how the
// sentence begins.
type refusal struct {
	args, file, stdin string
	busy              bool
	code              int
	want              string
}

func TestRefusals(t *testing.T) {
	t.Parallel()
	for name, c := range refusals(t) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			s := newShelf()
			s.files["kept.json"], s.files["kept-2.json"] = notes(t, "kept", "Kept", 4, ""), notes(t, "kept-2", "Kept too", 2, "")
			s.must(t, "import", "kept.json")
			s.must(t, "import", "kept-2.json")
			s.files["there.json"] = []byte("theirs")
			s.stdin = c.stdin
			if c.file != "" {
				s.files["f"] = []byte(c.file)
			}
			if c.busy {
				s.busy = &store.FileError{Path: "bench.db", Kind: store.ErrBusy}
			}
			before := s.contents(t)
			out, errs, code := s.run(strings.Fields(c.args)...)
			if code != c.code || out != "" {
				t.Errorf("ended with %d, want %d, and printed %q", code, c.code, out)
			}
			if !strings.HasPrefix(errs, "borewright: "+c.want) || strings.Count(errs, "\n") != 1 || len(errs) > 400 {
				t.Errorf("said %q, want %q", errs, c.want)
			}
			if bytes.ContainsAny([]byte(errs), "\x1b\x00\r") {
				t.Errorf("said %q to the terminal", errs)
			}
			if after := s.contents(t); after != before {
				t.Errorf("it changed\n%s\ninto\n%s", before, after)
			}
		})
	}
}

func TestNothingIsMadeByLooking(t *testing.T) {
	t.Parallel()
	for args, want := range map[string]string{
		"list":               "There is no session yet; \"borewright\" begins one.\n",
		"list --json":        "[]\n",
		"export kept":        "",
		"import gone.json":   "",
		"import broken.json": "",
	} {
		s := newShelf()
		s.files["broken.json"] = []byte("{")
		out, errs, code := s.run(strings.Fields(args)...)
		if out != want || (code != 0) != (want == "") || (errs == "") != (want != "") {
			t.Errorf("%s ended with %d, printed %q and said %q", args, code, out, errs)
		}
		if s.mem != nil {
			t.Errorf("%s made a database", args)
		}
	}
}
