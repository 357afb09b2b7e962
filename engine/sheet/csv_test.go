package sheet

import (
	"bytes"
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// without returns a session of the same set-up in which nothing was read.
func without(t *testing.T, s *engine.Session) *engine.Session {
	t.Helper()
	var out []record.Sealed
	var head record.Head
	for _, e := range s.Events() {
		switch e.Body.(type) {
		case record.Reading, record.Withdrawn, record.Work:
			continue
		}
		x, err := record.Seal(e.Event, head)
		if err != nil {
			t.Fatal(err)
		}
		out, head = append(out, x), x.Head
	}
	bare, err := engine.Replay(out)
	if err != nil {
		t.Fatal(err)
	}
	return bare
}

// What goes out comes in to the same readings, all but for how it came in.
func TestReadingsGoOutAndComeIn(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"launch", "launch-complete", "one-bore"} {
		s := session(t, name, 0)
		var table bytes.Buffer
		if err := ReadingsCSV(&table, s); err != nil {
			t.Fatal(err)
		}
		in, err := ReadCSV(&table, Mapping{})
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		bodies, err := in.Into(without(t, s))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		want := map[plan.Place][]record.Reading{}
		total := 0
		for _, p := range s.Places() {
			for _, x := range append(s.Now(p), s.Blind(p, s.Stage(p.Of))...) {
				r := x.Reading
				r.Via, r.As = record.ViaFile, record.First
				if len(want[p]) > 0 {
					r.As = x.As
				}
				want[p] = append(want[p], r)
				total++
			}
		}
		got := map[plan.Place][]record.Reading{}
		for _, b := range bodies {
			r := b.(record.Reading)
			got[r.Place()] = append(got[r.Place()], r)
		}
		if total < 6 || len(bodies) != total || !reflect.DeepEqual(got, want) {
			t.Errorf("%s: %d readings came in of %d:\n%v\nwant\n%v", name, len(bodies), total, got, want)
		}
	}
}

// A session that went through a hone has both stages in its table, and either
// can be taken.
func TestReadingsOfEveryStage(t *testing.T) {
	t.Parallel()
	s := session(t, "hillclimb", 0)
	var table bytes.Buffer
	if err := ReadingsCSV(&table, s); err != nil {
		t.Fatal(err)
	}
	text := table.String()
	counts := map[string]int{}
	for _, stage := range []string{"", "as found", "after work"} {
		in, err := ReadCSV(strings.NewReader(text), Mapping{Stage: stage})
		if err != nil {
			t.Fatal(err)
		}
		counts[stage] = len(in.Readings)
	}
	if counts["after work"] != 9 || counts[""] != counts["as found"]+counts["after work"] {
		t.Errorf("readings by stage: %v", counts)
	}
	in, err := ReadCSV(strings.NewReader(text), Mapping{})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := in.Into(without(t, s)); err == nil || !strings.Contains(err.Error(), "a stage may be chosen") {
		t.Errorf("both stages at once: %v", err)
	}
}

// The corner cases of RFC 4180, section 2.
func TestReadCSVCorners(t *testing.T) {
	t.Parallel()
	rows := func(text string) string { return strings.ReplaceAll(text, "|", "\r\n") }
	for name, text := range map[string]string{
		"ends with a line break": rows("feature,across (mm)|bore/1,82.007|"),
		"ends without one":       rows("feature,across (mm)|bore/1,82.007"),
		"line feeds alone":       "feature,across (mm)\nbore/1,82.007\n",
		"in quotation marks":     rows(`"feature","across (mm)"|"bore/1","82.007"|`),
		"decimal comma":          rows(`feature,across (mm)|bore/1,"82,007"|`),
		"a comma in a heading":   rows(`feature,"note, long",across (mm)|bore/1,"a ""b"", c",82.007|`),
		"a break in a field":     rows(`feature,note,across (mm)|bore/1,"a|b",82.007|`),
		"mark of UTF-8":          "\ufeff" + rows("feature,across (mm)|bore/1,82.007|"),
		"a unit in the cell":     rows("feature,across|bore/1,82.007 mm|"),
		"empty lines":            rows("feature,across (mm)||bore/1,82.007||"),
	} {
		in, err := ReadCSV(strings.NewReader(text), Mapping{})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if len(in.Readings) != 1 || in.Readings[0].Size != (length.Written{Length: 82_007_000_000, Unit: length.MM, Places: 3}) {
			t.Errorf("%s: read %+v", name, in.Readings)
		}
	}
}

// What cannot be taken is refused with row and column.
func TestReadCSVRefuses(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]string{
		"":                                           "row 1: there is no heading",
		"feature,across (mm)\n":                      "row 2: there are no readings below the heading",
		"level,across (mm)\na,1\n":                   "no column names the feature",
		"feature,level\nbore/1,a\n":                  "no column holds what was read",
		"feature,across (mm)\nbore/1,1,2\n":          "row 2: it has not as many columns",
		"feature,across (mm)\nbore/1,\"1\n":          "row 2: a text in quotation marks",
		"feature,note,across\nbore/1,a\"b,1\n":       "row 2: a text with a quotation mark",
		"feature,across (mm)\nbore/1,NaN\n":          "row 2, column across (mm): \"NaN\"",
		"feature,across (mm)\nbore/1,1e9\n":          "row 2, column across (mm): \"1e9\"",
		"feature,across\nbore/1,82\n":                "no unit given",
		"feature,across,ACROSS\nbore/1,1,1\n":        "row 1, column 3: \"ACROSS\": this column is there twice",
		"feature,as,across (mm)\nbore/1,maybe,1\n":   "row 2, column as: \"maybe\"",
		"feature,a\x00,across (mm)\nbore/1,\x00,x\n": "row 2, column across (mm)",
	} {
		_, err := ReadCSV(strings.NewReader(text), Mapping{})
		var field *record.FieldError
		if !errors.As(err, &field) || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
}

func TestIntoRefusesByRowAndColumn(t *testing.T) {
	t.Parallel()
	s := without(t, session(t, "hillclimb", 0))
	for text, want := range map[string]string{
		"bore/9,a,across,82.0":      `row 2, column feature: "bore/9": it is not in the plan`,
		"plug 1,a,across,82.0":      `row 2, column feature: "plug 1": it is no feature`,
		"bore/1,z,across,82.0":      `row 2, column level: "z"`,
		"bore/1,a,sideways,82.0":    `row 2, column direction: "sideways"`,
		"bore/1,a,along,82.0":       `row 2, column direction: "along"`,
		"bore/1,a,across,-1":        `row 2, column read (mm): "-1"`,
		"lifter-bore/1,a,across,82": `row 2, column feature`,
	} {
		in, err := ReadCSV(strings.NewReader("feature,level,direction,read (mm)\n"+text+"\n"), Mapping{})
		if err != nil {
			t.Fatal(err)
		}
		if _, err = in.Into(s); err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
}

// A spreadsheet of another's becomes a session of its own by a mapping.
func TestForeignTableBecomesASession(t *testing.T) {
	t.Parallel()
	in, err := ReadCSV(strings.NewReader("Cyl,Where,Thrust,Pin,By\n1,top,82.007,82.010,x\n1,bottom,82.008,,x\n2,top,82.009,82.011,y\n2,top,82.010,,y\n"),
		Mapping{Of: plan.Bore, Unit: length.MM, Columns: map[string]string{"Cyl": "feature", "Where": "level", "Thrust": "across", "Pin": "along"}})
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(in.Passed, []string{"By"}) || in.Rows != 4 || len(in.Readings) != 6 {
		t.Errorf("read %+v", in)
	}
	plain, err := in.Plain("from a table")
	if err != nil {
		t.Fatal(err)
	}
	s, err := engine.Replay(eventsOf(t, record.File{Plain: &plain}))
	if err != nil {
		t.Fatal(err)
	}
	p := plan.Place{Of: plan.Feature{Family: plan.Bore, At: 2}, Level: "a", Dir: "across"}
	if got := len(s.Now(p)); got != 2 || s.LevelName(plan.Bore, "b") != "bottom" {
		t.Errorf("%d readings at bore 2, top, across; level b is %q", got, s.LevelName(plan.Bore, "b"))
	}
	if _, err := ReadCSV(strings.NewReader("a,b\n1,2\n"), Mapping{Columns: map[string]string{"Nix": "feature"}}); err == nil || !strings.Contains(err.Error(), "no such column") {
		t.Errorf("a column that is not there: %v", err)
	}
}

// Every line ends with CR LF, and every row has a cell for each column.
func TestTablesKeepToTheRFC(t *testing.T) {
	t.Parallel()
	s := session(t, "launch-complete", 0)
	var a, b bytes.Buffer
	if err := errors.Join(ReadingsCSV(&a, s), ResultsCSV(&b, s, engine.Assess(s))); err != nil {
		t.Fatal(err)
	}
	for _, text := range []string{a.String(), b.String()} {
		if n := strings.Count(text, "\n"); n < 50 || n != strings.Count(text, "\r\n") || !strings.HasSuffix(text, "\r\n") {
			t.Errorf("%d line breaks, %d of them CR LF", n, strings.Count(text, "\r\n"))
		}
	}
}
