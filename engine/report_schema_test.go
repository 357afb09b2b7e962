package engine_test

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"pgregory.net/rapid"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/record"
	"borewright/testdata"
)

// assessmentSchema compiles the schema of an assessment, which the validator
// holds to its dialect.
func assessmentSchema(t *testing.T) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(engine.ReportSchema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource(engine.AssessmentSchema, doc); err != nil {
		t.Fatal(err)
	}
	return c.MustCompile(engine.AssessmentSchema)
}

// sessionsHere are the files of all sessions, by their name.
func sessionsHere(t *testing.T) map[string][]byte {
	t.Helper()
	out := map[string][]byte{}
	for _, name := range testdata.Names() {
		out[name], _ = testdata.Session(name)
	}
	layouts, err := filepath.Glob("../testdata/layouts/*.json")
	if err != nil || len(layouts) == 0 {
		t.Fatalf("%d layouts, %v", len(layouts), err)
	}
	for _, path := range layouts {
		if out[filepath.Base(path)], err = os.ReadFile(path); err != nil {
			t.Fatal(err)
		}
	}
	return out
}

// reportOf writes the report of a file of either form as JSON.
func reportOf(t *testing.T, data []byte) string {
	t.Helper()
	file, err := record.ReadFile(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	s := replayPlain(t, file.Plain)
	if file.Full != nil {
		if s, err = engine.Replay(file.Full.Events); err != nil {
			t.Fatal(err)
		}
	}
	text, err := json.Marshal(engine.Assess(s).Report(s))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// replayPlain replays the plain form; it is nil without one.
func replayPlain(t *testing.T, p *record.Plain) *engine.Session {
	t.Helper()
	if p == nil {
		return nil
	}
	events, err := p.Events("u1", day, "ek")
	if err != nil {
		t.Fatal(err)
	}
	var bodies []record.Body
	for _, e := range events {
		bodies = append(bodies, e.Body)
	}
	return replay(t, bodies)
}

func againstSchema(t rapid.TB, s *jsonschema.Schema, text string) error {
	t.Helper()
	value, err := jsonschema.UnmarshalJSON(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return s.Validate(value)
}

func TestReportSchemaTakesReports(t *testing.T) {
	s := assessmentSchema(t)
	for name, data := range sessionsHere(t) {
		if err := againstSchema(t, s, reportOf(t, data)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestReportSchemaProperty: whatever was read, worked on, left out and
// withdrawn, its report is as the schema says, in both units.
func TestReportSchemaProperty(t *testing.T) {
	schema := assessmentSchema(t)
	rapid.Check(t, func(t *rapid.T) {
		s := replay(t, acts(t, small(rapid.SampledFrom([]length.Unit{length.In, length.MM}).Draw(t, "unit"), "")))
		text, err := json.Marshal(engine.Assess(s).Report(s))
		if err != nil {
			t.Fatal(err)
		}
		if err := againstSchema(t, schema, string(text)); err != nil {
			t.Fatalf("%s\n%v", text, err)
		}
	})
}

// TestReportSchemaRefuses has reports that were spoilt.
func TestReportSchemaRefuses(t *testing.T) {
	s := assessmentSchema(t)
	data, _ := testdata.Session("launch-complete")
	good := reportOf(t, data)
	for name, change := range map[string][2]string{
		"a list that is null":    {`"clearances":[`, `"clearances":null,"x":[`},
		"a field more":           {`"title"`, `"colour":"red","title"`},
		"a field less":           {`"unit":"in",`, ``},
		"another version":        {`"borewright":1`, `"borewright":2`},
		"a verdict nobody gives": {`"verdict":"outside"`, `"verdict":"fine"`},
		"a length with no unit":  {`"smallest":"3.7500 in"`, `"smallest":"3.7500"`},
		"a feature that is none": {`"of":"bore/1"`, `"of":"bore 1"`},
		"a margin in words":      {`"margin":`, `"margin":"most","x":`},
		"no such characteristic": {`"on":"clearance"`, `"on":"weight"`},
		"a digest cut short":     {`"sha256":"`, `"sha256":"x`},
	} {
		if !strings.Contains(good, change[0]) {
			t.Errorf("%s: %s is not in the report", name, change[0])
			continue
		}
		if againstSchema(t, s, strings.Replace(good, change[0], change[1], 1)) == nil {
			t.Errorf("%s: the schema takes %s", name, change[1])
		}
	}
}
