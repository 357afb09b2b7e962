package engine_test

import (
	"encoding/json"
	"strings"
	"testing"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// TestReportListsAreLists: a list that has nothing in it is written as one.
func TestReportListsAreLists(t *testing.T) {
	for _, bodies := range [][]record.Body{
		nil,
		{record.Layout{Layout: plan.Default(plan.Inline, 1, false)}},
	} {
		b := newBench(t, "2026-11-25T08:00:00+01:00", length.MM)
		b.do(append([]record.Body{record.Details{UID: "u1", Unit: length.MM}}, bodies...)...)
		s, err := engine.Replay(b.events)
		if err != nil {
			t.Fatal(err)
		}
		text, err := json.Marshal(engine.Assess(s).Report(s))
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(string(text), "null") {
			t.Errorf("the report has null in it: %s", text)
		}
		for _, list := range []string{"findings", "cylinders", "mains", "features", "clearances"} {
			if !strings.Contains(string(text), `"`+list+`":[`) {
				t.Errorf("%s are no list in %s", list, text)
			}
		}
	}
}
