package sheet

import (
	"fmt"
	"strings"
	"testing"

	"borewright/engine"
	"borewright/engine/enginetest"
	"borewright/engine/prep"
	"borewright/engine/record"
)

// prepared is the measured launch with the list of an engine after machining.
func prepared(t *testing.T, more ...record.Body) *engine.Session {
	t.Helper()
	s := session(t, "launch-complete", 0)
	for _, p := range prep.Presets() {
		if p.ID == "after-machining" {
			enginetest.Apply(t, s, record.Steps{List: p.List(prep.For{Layout: s.Layout(), Unit: s.Unit()})})
		}
	}
	enginetest.Apply(t, s, more...)
	return s
}

func counted(t *testing.T, way string, n int) record.Done {
	t.Helper()
	step := prep.PlugsOut
	if way == prep.In {
		step = prep.PlugsIn
	}
	return record.Done{Tick: prep.Tick{Step: step, Way: way, Count: n, Keyed: fmt.Sprint(n)}}
}

// section returns the text of a section of a sheet, cell by cell.
func section(t *testing.T, s Sheet, heading string) string {
	t.Helper()
	for _, x := range s.Sections {
		if x.Heading != heading {
			continue
		}
		lines := append([]string{}, x.Notes...)
		for _, table := range x.Tables {
			lines = append(lines, table.Caption, strings.Join(table.Columns, "|"))
			for _, row := range table.Rows {
				var cells []string
				for _, c := range row {
					cells = append(cells, c.Text)
				}
				lines = append(lines, strings.Join(cells, "|"))
			}
		}
		return strings.Join(lines, "\n")
	}
	t.Fatalf("there is no section %q", heading)
	return ""
}

// What was counted out stands on the sheet until it is back.
func TestSheetTellsTheTally(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		more []record.Body
		want string
	}{
		{nil, "gallery plugs|not counted out"},
		{[]record.Body{counted(t, prep.Out, 11)}, "gallery plugs|11|0|0|11|11 not back"},
	} {
		s := built(t, prepared(t, c.more...), "")
		got := section(t, s, "Prep and sign-off")
		if !strings.Contains(got, c.want) || !strings.Contains(got, "Not ready: ") {
			t.Errorf("want %q in\n%s", c.want, got)
		}
		if !strings.Contains(s.Verdict, "prep not finished") && !strings.Contains(s.Verdict, "outside") {
			t.Errorf("the verdict is %q", s.Verdict)
		}
	}
}

// What was noted down and signed off is told with its time and its hand.
func TestSheetTellsNotes(t *testing.T) {
	t.Parallel()
	s := built(t, prepared(t, counted(t, prep.Out, 11), record.Note{Text: "a score at the top of bore 1"}), "")
	for heading, want := range map[string]string{
		"Notes":             "a score at the top of bore 1",
		"Prep and sign-off": "gallery plugs out, 11",
	} {
		if got := section(t, s, heading); !strings.Contains(got, want) {
			t.Errorf("want %q in\n%s", want, got)
		}
	}
}

// A session that went through a hone shows both stages, side by side and as
// rows of their own.
func TestSheetShowsBothStages(t *testing.T) {
	t.Parallel()
	s := built(t, session(t, "hillclimb", 0), "")
	beside := section(t, s, "What was found and what was done")
	if !strings.Contains(beside, "smallest, as found|now") || strings.Count(beside, "|after work") < 1 {
		t.Errorf("found and done is\n%s", beside)
	}
	for _, heading := range []string{"Bores, journals, bearings and pistons", "Readings"} {
		if got := section(t, s, heading); !strings.Contains(got, "|as found|") || !strings.Contains(got, "|after work|") {
			t.Errorf("%s lacks a stage:\n%s", heading, got)
		}
	}
}
