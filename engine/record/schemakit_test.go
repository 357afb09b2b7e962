package record

import (
	"bytes"
	"strings"
	"sync"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"borewright/engine/schema"
)

// compiled holds the schema of a session file and the definitions asked of it.
var compiled = struct {
	sync.Mutex
	*jsonschema.Compiler
}{}

// schemaAt compiles the schema of a session file, or the definition of that
// name in it, with a validator that holds the schema to its dialect.
func schemaAt(def string) *jsonschema.Schema {
	compiled.Lock()
	defer compiled.Unlock()
	if compiled.Compiler == nil {
		doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema()))
		if err != nil {
			panic(err)
		}
		compiled.Compiler = jsonschema.NewCompiler()
		compiled.AssertFormat()
		if err := compiled.AddResource(SessionSchema, doc); err != nil {
			panic(err)
		}
	}
	if def != "" {
		def = strings.TrimPrefix(schema.In(def).Ref, "#")
		return compiled.MustCompile(SessionSchema + "#" + def)
	}
	return compiled.MustCompile(SessionSchema)
}

// bySchema says what the schema, or the definition of that name in it, has
// against a text.
func bySchema(def, text string) error {
	value, err := jsonschema.UnmarshalJSON(strings.NewReader(text))
	if err != nil {
		return err
	}
	return schemaAt(def).Validate(value)
}

// byReader says what the reader has against a file of either form.
func byReader(text string) error {
	f, err := ReadFile(strings.NewReader(text))
	if err != nil || f.Plain == nil {
		return err
	}
	_, err = f.Plain.Events("u1", at, "rk")
	return err
}

// storedText writes the stored bytes of the golden event with such fields.
func storedText(fields string) string {
	return `{"n":9,"v":1,"at":"2026-11-25T08:44:00+01:00","by":"rk",` + fields + `,"prev":"` + anyHash + `"}`
}

func mustTake(tb testing.TB, def, text string) {
	tb.Helper()
	if err := bySchema(def, text); err != nil {
		tb.Errorf("the schema refuses %s\n%v", text, err)
	}
}
