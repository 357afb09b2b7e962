package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"borewright/testdata"
)

// schemaOf compiles what "borewright schema" prints for the words.
func schemaOf(t *testing.T, s *shelf, words ...string) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(strings.NewReader(s.must(t, append([]string{"schema"}, words...)...)))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("urn:printed", doc); err != nil {
		t.Fatal(err)
	}
	return c.MustCompile("urn:printed")
}

func validates(t *testing.T, name string, s *jsonschema.Schema, text string) {
	t.Helper()
	value, err := jsonschema.UnmarshalJSON(strings.NewReader(text))
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	if err := s.Validate(value); err != nil {
		t.Errorf("%s: %v", name, err)
	}
}

// TestSchemaOfEverything: every file that comes with the program, what it is
// exported as again, and its assessment are as the printed schemas say.
func TestSchemaOfEverything(t *testing.T) {
	t.Parallel()
	files := map[string][]byte{"one-bore-plain": []byte(oneBore(t))}
	for _, name := range testdata.Names() {
		files[name], _ = testdata.Session(name)
	}
	layouts, err := filepath.Glob("../../testdata/layouts/*.json")
	if err != nil || len(layouts) == 0 {
		t.Fatalf("%d layouts, %v", len(layouts), err)
	}
	for _, path := range layouts {
		if files[filepath.Base(path)], err = os.ReadFile(path); err != nil {
			t.Fatal(err)
		}
	}
	session, assessment := schemaOf(t, newShelf(), "session"), schemaOf(t, newShelf(), "assessment")
	for name, data := range files {
		s := newShelf()
		s.files["f"] = data
		validates(t, name, session, string(data))
		validates(t, name+" assessed", assessment, s.must(t, "assess", "--json", "f"))
		uid := strings.Fields(s.must(t, "import", "f"))[1]
		validates(t, name+" exported", session, s.must(t, "export", uid))
	}
}

func TestSchemaNames(t *testing.T) {
	t.Parallel()
	s := newShelf()
	if s.must(t, "schema") != s.must(t, "schema", "session") {
		t.Error("without a name it is not that of a session")
	}
	for args, want := range map[string]string{
		"schema engine":          `borewright: there is no schema of "engine": it is of session or of assessment` + "\n",
		"schema session and":     `borewright: schema does not know what to do with "and"` + "\n",
		"schema --of assessment": `borewright: there is no option "--of" here; "borewright schema --help" lists them` + "\n",
	} {
		_, errs, code := s.run(strings.Fields(args)...)
		if errs != want || code != 2 {
			t.Errorf("%q ends with %d and says %q, not %q", args, code, errs, want)
		}
	}
	if s.mem != nil {
		t.Error("a database was made")
	}
}
