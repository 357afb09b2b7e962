package record

import (
	"strings"
	"testing"

	"borewright/testdata"
)

// TestSchemaTakesSessions: what comes with the program is as the schema says.
func TestSchemaTakesSessions(t *testing.T) {
	for _, name := range testdata.Names() {
		data, _ := testdata.Session(name)
		mustTake(t, "", string(data))
	}
}

// TestSchemaTakesGolden: an event of every kind, with every field, is as the
// schema says, and so is one alone in a file.
func TestSchemaTakesGolden(t *testing.T) {
	for _, g := range golden {
		mustTake(t, "event", storedText(g.fields))
		mustTake(t, defOf(g.body.Is()), storedText(g.fields))
	}
	mustTake(t, "", fullText(t, fiveEvents(t)))
	for _, c := range []string{b9, `{"borewright":1}`} {
		mustTake(t, "", c)
	}
}

// TestSchemaTakesUnusual has what is unusual and read: see TestDecodeStrictTakes.
func TestSchemaTakesUnusual(t *testing.T) {
	for _, c := range unusual {
		mustTake(t, "event", strings.Replace(stored, c.old, c.new, 1))
	}
	for _, body := range unusualBodies() {
		stored, err := (Event{N: 9, V: 1, At: at, By: "rk", Body: body, Prev: anyHash}).encode()
		if err != nil {
			t.Fatal(err)
		}
		mustTake(t, "event", string(stored))
	}
	for _, c := range plainRows {
		mustTake(t, "", `{"borewright":1,`+c.text+`}`)
	}
	for _, c := range plainUsual {
		mustTake(t, "", `{"borewright":1,`+c.text+`}`)
	}
}
