package record

import (
	"bytes"
	"encoding/json"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"borewright/engine/length"
	"borewright/engine/plan"
)

// b9 is the bore of check B9: readings ours, after the rule of TM
// 9-6115-670-14&P.
const b9 = `{"borewright":1,"title":"One bore","unit":"mm",
 "layout":{"form":"inline","cylinders":1},
 "plan":[{"family":"bore","levels":[{"id":"a","depth":"10"},{"id":"b","depth":"45"},{"id":"c","depth":"90"}],
          "directions":["across","along"]}],
 "limits":[{"on":"overall spread","of":"bore","wear":{"high":"0.15"}}],
 "readings":[{"of":"bore/1","across":["67.118","67.060","67.021"],"along":["67.075","67.048","67.015"]}]}`

// readPlainText reads a plain file that a test knows to be one.
func readPlainText(tb testing.TB, text string) Plain {
	tb.Helper()
	f, err := ReadFile(strings.NewReader(text))
	if err != nil || f.Plain == nil || f.Full != nil {
		tb.Fatalf("%s: %+v, %v", text, f, err)
	}
	return *f.Plain
}

// say writes events as short lines: the fields of the body without their frame.
func say(tb testing.TB, events []Event) []string {
	tb.Helper()
	var out []string
	for _, e := range events {
		c, _ := codecOf(e.Body)
		fields, err := compact(c.fields(e.Body))
		if err != nil {
			tb.Fatal(err)
		}
		out = append(out, string(e.Is())+" "+string(fields))
	}
	return out
}

func TestPlainB9(t *testing.T) {
	events, err := readPlainText(t, b9).Events("u1", at, "rk")
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		`details {"uid":"u1","title":"One bore","unit":"mm"}`,
		`layout {"form":"inline","cylinders":1,"mains":2,"rod_journals":1,"rods_per_journal":1,"cam_bearings":2}`,
		`plan {"families":[{"family":"bore","levels":[{"id":"a","depth":"10 mm"},{"id":"b","depth":"45 mm"},{"id":"c","depth":"90 mm"}],"directions":["across","along"]}]}`,
		`limit {"on":"overall spread","of":"bore","wear":{"high":"0.15 mm"}}`,
	}
	for _, r := range []string{"a across 67.118", "b across 67.060", "c across 67.021", "a along 67.075", "b along 67.048", "c along 67.015"} {
		f := strings.Fields(r)
		want = append(want, fmt.Sprintf(`reading {"of":"bore/1","level":"%s","dir":"%s","keyed":"%s","via":"file","size":"%s mm","as":"first"}`, f[0], f[1], f[2], f[2]))
	}
	if got := say(t, events); !reflect.DeepEqual(got, want) {
		t.Errorf("the events are\n%s\nnot\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	var head Head
	for _, e := range events {
		s, err := Seal(e, head)
		if err != nil || !s.At.Equal(at) || s.By != "rk" {
			t.Fatalf("%+v: %v", s, err)
		}
		head = s.Head
	}
}

// readings says the readings among events as "of level dir keyed size as", and
// all other events but the first by their kind.
func readings(events []Event) []string {
	var out []string
	for _, e := range events[1:] {
		switch b := e.Body.(type) {
		case Reading:
			out = append(out, fmt.Sprintf("%s %s %s %s = %s %s", b.Of, b.Level, b.Dir, b.Keyed, b.Size, b.As))
		case Layout, Plan:
		default:
			out = append(out, string(b.Is()))
		}
	}
	return out
}

// plainRows are plain files with the readings they hold.
var plainRows = []struct {
	name, text string
	want       []string
}{
	{"numbers of all sorts", `"unit":"mm","readings":[{"of":"bore/1","across":[67.118,"2.64 in","67,020"," 67.0 "]}]`, []string{
		"bore/1 a across 67.118 = 67.118 mm first", "bore/1 b across 2.64 in = 2.64 in first",
		"bore/1 c across 67,020 = 67.020 mm first", "bore/1 d across  67.0  = 67.0 mm first",
	}},
	{"trailing zeros of a number", `"unit":"mm","readings":[{"of":"bore/1","across":[67.100]}]`, []string{"bore/1 a across 67.100 = 67.100 mm first"}},
	{"nothing measured", `"unit":"mm","readings":[{"of":"bore/1","across":[null,"67.1"],"along":[null,null]}]`, []string{"bore/1 b across 67.1 = 67.1 mm first"}},
	{"repeats", `"unit":"mm","readings":[{"of":"bore/1","across":[["67.1",67.2,"67.3"],"67.4"]}]`, []string{
		"bore/1 a across 67.1 = 67.1 mm first", "bore/1 a across 67.2 = 67.2 mm repeat",
		"bore/1 a across 67.3 = 67.3 mm repeat", "bore/1 b across 67.4 = 67.4 mm first",
	}},
	{"an angle and its name", `"unit":"mm","readings":[{"of":"bore/1","90":["67.1"],"180":["67.2"],"45":["67.3"]}]`, []string{
		"bore/1 a across 67.1 = 67.1 mm first", "bore/1 a 45 67.3 = 67.3 mm first", "bore/1 a along 67.2 = 67.2 mm first",
	}},
	{"levels by id and by number", `"unit":"mm","plan":[{"family":"bore"}],"readings":[
		{"of":"bore/1","level":"b","across":"67.1","along":["67.2","67.3"]},
		{"of":"bore/1","level":3,"across":["67.4"],"along":null},
		{"of":"bore/1","level":"1","across":[["67.5","67.6"]],"along":[null]}]`, []string{
		"bore/1 b across 67.1 = 67.1 mm first", "bore/1 b along 67.2 = 67.2 mm first", "bore/1 b along 67.3 = 67.3 mm repeat",
		"bore/1 c across 67.4 = 67.4 mm first", "bore/1 a across 67.5 = 67.5 mm first", "bore/1 a across 67.6 = 67.6 mm repeat",
	}},
	{"an id goes before a number", `"unit":"mm","plan":[{"family":"bore","levels":[{"id":"2"},{"id":"1"}]}],"readings":[{"of":"bore/1","level":1,"across":"67.1"}]`, []string{
		"bore/1 1 across 67.1 = 67.1 mm first",
	}},
	{"one level alone", `"unit":"in","plan":[{"family":"piston"}],"readings":[{"of":"piston/1","across":"3.7460"}]`, []string{"piston/1 a across 3.7460 = 3.7460 in first"}},
	{"work", `"unit":"in","stage":"final","work":[{"did":"honed","to":["bore/1"],"amount":"0.002 in","metal":true}],
		"readings":[{"of":"bore/1","across":["3.7530"]},{"of":"bore/1","stage":"as found","across":["3.7510"]},{"of":"piston/1","stage":"after work","across":["3.7460"]}]`, []string{
		"bore/1 a across 3.7510 = 3.7510 in first", "work",
		"bore/1 a across 3.7530 = 3.7530 in first", "piston/1 a across 3.7460 = 3.7460 in first", "state",
	}},
	{"as found and no work", `"unit":"in","stage":"as found","readings":[{"of":"bore/1","stage":"as found","across":["3.7510"]}]`, []string{"bore/1 a across 3.7510 = 3.7510 in first"}},
	{"parts and limits", `"unit":"in","layout":{"form":"inline","cylinders":2},"parts":[{"part":"piston/2","at":"bore/1"}],"limits":[{"on":"size","of":"bore/2","new":{"low":"3.75"}}]`, []string{"limit", "fitted"}},
	{"rules, what is given and tables", `"unit":"in","rules":{"judge":"wear"},"given":[{"name":"stroke","value":"3.48"}],"tables":[{"name":"costs"}],
		"limits":[{"on":"size","of":"bore","new":{"low":"3.75"}}],"parts":[{"part":"piston/1","at":"bore/1"}]`, []string{"rules", "limit", "given", "table", "fitted"}},
}

func TestPlainReadings(t *testing.T) {
	for _, c := range plainRows {
		events, err := readPlainText(t, `{"borewright":1,`+c.text+`}`).Events("u1", at, "rk")
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if got := readings(events); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s gives\n%s\nnot\n%s", c.name, strings.Join(got, "\n"), strings.Join(c.want, "\n"))
		}
	}
}

// plainUsual are plain files with what they leave out.
var plainUsual = []struct {
	name, text string
	unit       length.Unit
	cylinders  int
	groups     []string
}{
	{"nothing at all", `"unit":"in"`, length.In, 1, nil},
	{"units of the numbers", `"readings":[{"of":"bore/1","across":[null,"95250 µm"]}]`, length.MM, 1, []string{"bore top bottom / across along"}},
	{"unit of the nominal", `"plan":[{"family":"bore","nominal":"3750000 uin"}]`, length.In, 1, []string{"bore top middle bottom / across along"}},
	{"usual grids", `"unit":"in","plan":[{"family":"bore"},{"family":"piston"},{"family":"main-bearing"},{"family":"main-journal"}]`, length.In, 1, []string{
		"bore top middle bottom / across along", "piston skirt / across", "main-bearing front rear / vertical horizontal", "main-journal front rear / vertical horizontal",
	}},
	{"grids of the rows", `"unit":"in","readings":[{"of":"main-journal/5","0":["2.5"],"60":["2.5"],"120":["2.5"]},{"of":"bore/2","across":["3.75","3.75","3.75","3.75"],"along":[null,null,null,null],"135":[null,null,null,null]}]`, length.In, 4, []string{
		"bore top level 2 level 3 bottom / across 45 along 135", "main-journal middle / horizontal 60 120",
	}},
	{"a layout of one's own", `"unit":"in","layout":{"form":"vee","cylinders":8,"shared":true}`, length.In, 8, nil},
}

func TestPlainUsual(t *testing.T) {
	for _, c := range plainUsual {
		events, err := readPlainText(t, `{"borewright":1,`+c.text+`}`).Events("u1", at, "")
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		details, _ := events[0].Body.(Details)
		layout, _ := events[1].Body.(Layout)
		if details.Unit != c.unit || layout.Cylinders != c.cylinders {
			t.Errorf("%s: unit %q and %d cylinders, not %q and %d", c.name, details.Unit, layout.Cylinders, c.unit, c.cylinders)
		}
		var groups []string
		for _, e := range events {
			if p, ok := e.Body.(Plan); ok {
				groups = grids(p.Plan)
			}
		}
		if !reflect.DeepEqual(groups, c.groups) {
			t.Errorf("%s: the plan is %q, not %q", c.name, groups, c.groups)
		}
	}
}

// grids says the groups of a plan.
func grids(p plan.Plan) []string {
	var out []string
	for _, g := range p.Families {
		s := string(g.Family)
		for _, l := range g.Levels {
			s += " " + l.Called()
		}
		out = append(out, s+" / "+strings.Join(g.Directions, " "))
	}
	return out
}

// TestPlainFacts: rules, what is given and tables stand in a plain file as they
// do in events.
func TestPlainFacts(t *testing.T) {
	events, err := readPlainText(t, `{"borewright":1,"unit":"mm",
		"rules":{"unit":"in","definitions":{"taper":"spread"},"clearance":"mean - mean","decision":"guarded","coverage":"2","drift":"0.002 mm"},
		"given":[{"name":"hone target","of":"bore/1","value":"82.020 mm","doubt":"0.002 mm","source":"order"},{"name":"ring gap factor","value":"0.0035"}],
		"tables":[{"name":"shells","of":"shell-main","rows":[{"name":"standard","undersize":"0 mm","count":"4"}],"source":"shelf"}]}`).Events("u1", at, "rk")
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		`rules {"unit":"in","definitions":{"taper":"spread"},"clearance":"mean - mean","decision":"guarded","coverage":"2","drift":"0.002 mm"}`,
		`given {"name":"hone target","of":"bore/1","value":"82.020 mm","doubt":"0.002 mm","source":"order"}`,
		`given {"name":"ring gap factor","value":"0.0035"}`,
		`table {"name":"shells","of":"shell-main","rows":[{"count":"4","name":"standard","undersize":"0 mm"}],"source":"shelf"}`,
	}
	if got := say(t, events)[2:]; !reflect.DeepEqual(got, want) {
		t.Errorf("the facts are\n%s\nnot\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

func TestPlainPrintsBack(t *testing.T) {
	for _, text := range []string{
		b9,
		`{"borewright":1}`,
		`{"borewright":1,"layout":{},"plan":[{}],"limits":[{}],"parts":[{}],"readings":[{}],"work":[{}]}`,
		`{"borewright":1,"readings":[{"30":null}]}`,
		`{"borewright":1,"title":"<&>","customer":"c","engine":"e","unit":"\"","stage":"final",
		  "readings":[{"of":"bore/1","level":2,"stage":"as found","across":null,"along":["1",2.50,null,[],["3"],["4",5]],"30":7}]}`,
	} {
		first := readPlainText(t, text)
		printed, err := json.Marshal(first)
		if err != nil {
			t.Fatal(err)
		}
		again := readPlainText(t, string(printed))
		reprinted, err := json.Marshal(again)
		if err != nil || !bytes.Equal(printed, reprinted) {
			t.Errorf("%s prints as\n%s\nand then as\n%s (%v)", text, printed, reprinted, err)
		}
		if !reflect.DeepEqual(first.Readings, again.Readings) && len(first.Readings) > 0 && first.Readings[0].Level != "" {
			t.Errorf("%s reads again as %+v", text, again.Readings)
		}
	}
}
