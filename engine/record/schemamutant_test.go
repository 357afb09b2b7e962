package record

import (
	"encoding/json"
	"maps"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// changed returns a JSON text with the value at a path put in another's place;
// a nil path is the whole.
func changed(tb fataler, text string, path []any, to func(any) any) string {
	d := json.NewDecoder(strings.NewReader(text))
	d.UseNumber()
	var v any
	if err := d.Decode(&v); err != nil {
		tb.Fatalf("%s: %v", text, err)
	}
	out, err := compact(put(v, path, to))
	if err != nil {
		tb.Fatalf("%s: %v", text, err)
	}
	return string(out)
}

// fataler is a test of either sort.
type fataler interface{ Fatalf(string, ...any) }

// gone is put in the place of what is taken out.
type gone struct{}

func put(v any, path []any, to func(any) any) any {
	if len(path) == 0 {
		return to(v)
	}
	switch x := v.(type) {
	case map[string]any:
		key, _ := path[0].(string)
		inner := put(x[key], path[1:], to)
		if inner == (gone{}) {
			delete(x, key)
		} else {
			x[key] = inner
		}
	case []any:
		i, _ := path[0].(int)
		inner := put(x[i], path[1:], to)
		if inner == (gone{}) {
			return append(x[:i:i], x[i+1:]...)
		}
		x[i] = inner
	}
	return v
}

// paths returns the paths of all values in a JSON text.
func paths(v any, at []any) [][]any {
	out := [][]any{slices.Clone(at)}
	switch x := v.(type) {
	case map[string]any:
		for _, key := range slices.Sorted(maps.Keys(x)) {
			out = append(out, paths(x[key], append(slices.Clone(at), key))...)
		}
	case []any:
		for i := range x {
			out = append(out, paths(x[i], append(slices.Clone(at), i))...)
		}
	}
	return out
}

// oddities are put in the place of what is right.
var oddities = []any{
	gone{},
	gone{},
	gone{},
	nil, true, false, "", " ", "x", "a", "b", "top", "0", "1", "-1", "once", "across", "vertical", "45", "90", "180", "90°", "007",
	"bore", "bore/1", "bore/2", "piston/1", "end-play/1", "deck/1", "main-bearing/1", "shell-main/1/upper", "rod/1", "ring-gap/1/oil", "lifter-bore/3",
	"in", "MM", "inch", `"`, "um", "3 in", "-3 mm", "0 mm", "-0 mm", "5-", " 3.5IN ", "1,5 µm", "3.7503", "2 strokes", "1e3", "NaN",
	"new", "wear", "size", "clearance", "taper", "end to end", "spread", "every reading", "mean - mean", "file", "first", "final", "as found", "after work",
	"front", "left", "right", "vee", "flat", "inline", "feature", "scale", "ring", "direct", "indicator", "counted", "once", "per place", "out", "closed",
	json.Number("0"), json.Number("1"), json.Number("2"), json.Number("3"), json.Number("8"), json.Number("-1"), json.Number("1.5"), json.Number("17"),
	[]any{},
	[]any{"bore/1"},
	[]any{"across"},
	[]any{nil},
	[]any{"3 mm", "4 mm"},
	[]any{json.Number("1")},
	map[string]any{},
	map[string]any{"low": "3 mm"},
	strings.Repeat("x", 65), strings.Repeat("é", 33), strings.Repeat("y", 17), "two\nlines", "a\x1bb", "2026-11-25T08:44:00.000Z", "2026-11-25", anyHash, "\u00a0",
}

// mutant draws a JSON text with a few values changed.
func mutant(t *rapid.T, text string) string {
	for range rapid.IntRange(1, 3).Draw(t, "changes") {
		var v any
		if err := json.Unmarshal([]byte(text), &v); err != nil {
			t.Fatal(err)
		}
		path := rapid.SampledFrom(paths(v, nil)).Draw(t, "path")
		odd := rapid.SampledFrom(oddities).Draw(t, "odd")
		text = changed(t, text, path, func(old any) any {
			if o, ok := old.(map[string]any); ok && odd != (gone{}) && rapid.Bool().Draw(t, "inside") {
				o[rapid.SampledFrom([]string{"x", "of", "dev", "size", "half", "lead", "shared", "work", "unit", "45", "along", "stage", "why", "df", "per"}).Draw(t, "key")] = odd
				return o
			}
			if len(path) == 0 {
				return old
			}
			return odd
		})
	}
	return text
}

// TestSchemaTakesEvents: whatever event the reader takes, the schema takes.
func TestSchemaTakesEvents(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := rapid.SampledFrom(golden).Draw(t, "event")
		text := mutant(t, storedText(g.fields))
		if _, err := DecodeStrict([]byte(text)); err != nil {
			return
		}
		if err := bySchema("event", text); err != nil {
			t.Fatalf("the reader takes %s\nand the schema says %v", text, err)
		}
	})
}

// plains are plain files with something of everything.
var plains = []string{
	b9,
	`{"borewright":1,"title":"All","customer":"c","engine":"e","unit":"mm","stage":"final",
	  "layout":{"form":"vee","cylinders":4,"shared":true,"lead":"right","labels":{"cylinders":["1","3","2","4"]}},
	  "plan":[{"family":"bore","nominal":"90","levels":[{"id":"a","name":"top","depth":10},{"depth":"50"}],"directions":["across","along","45"]},
	          {"family":"rod-journal","levels":[{"id":"f","half":"front"},{"id":"r","half":"rear"}],"directions":["vertical"]},
	          {"family":"ring-gap","directions":["once"],"levels":[{"depth":"25"}]},{"family":"deck"},{"family":"piston"}],
	  "limits":[{"on":"size","of":"bore","by":"average","new":{"low":"90.00","high":90.02},"wear":{"high":"90.10"},"target":"90.01","judge":"new","source":"book"},
	            {"on":"taper","of":"bore/1","wear":{"high":"0.01"},"per":"25.4","travel":"80"}],
	  "rules":{"unit":"in","definitions":{"taper":"spread"},"clearance":"mean - mean","judge":"new","decision":"guarded","coverage":"2","stale_hours":2},
	  "given":[{"name":"stroke","of":"bore","value":"80 mm","doubt":"0.1 mm","source":"s"}],
	  "tables":[{"name":"ladder","of":"bore","rows":[{"name":"0.5","step":"0.5 mm"}],"source":"s"}],
	  "parts":[{"part":"piston/1","at":"bore/2"},{"part":"piston/2","at":"bore/1"}],
	  "readings":[{"of":"bore/1","stage":"as found","across":["90.01",null],"180":[null,null]},{"of":"bore/1","across":["90.03",["90.02",90.025]]},
	              {"of":"bore/2","level":"a","across":"90.01","45":["90.0","90.1"]},{"of":"rod-journal/1","vertical":["50.01","50.00"]},
	              {"of":"ring-gap/1/top","once":["0.4"]},{"of":"deck/1","once":["0","-0.1"]}],
	  "work":[{"did":"honed","to":["bore/1"],"amount":"0.02 mm","changes":["bore/1"],"metal":true,"note":"n"}]}`,
}

// TestSchemaTakesChains: whatever is sealed and written as a file, the schema
// takes.
func TestSchemaTakesChains(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var lines [][]byte
		var head Head
		for n := range rapid.Int64Range(1, 6).Draw(t, "events") {
			s, err := Seal(Event{At: drawTime(t), By: drawLine(t, "by", 0, 32), Body: drawBody(t, n+1)}, head)
			if err != nil {
				t.Fatal(err)
			}
			lines, head = append(lines, s.Bytes), s.Head
		}
		var file strings.Builder
		if err := WriteFull(&file, lines); err != nil {
			t.Fatal(err)
		}
		if err := bySchema("", file.String()); err != nil {
			t.Fatalf("the schema refuses %s\n%v", file.String(), err)
		}
	})
}

// TestSchemaTakesPlain: whatever plain file means something, the schema takes.
func TestSchemaTakesPlain(t *testing.T) {
	for i, text := range plains {
		if err := byReader(text); err != nil {
			t.Fatalf("file %d: %v", i, err)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		drawn, _ := drawPlain(t)
		written, err := json.Marshal(drawn)
		if err != nil {
			t.Fatal(err)
		}
		if err := bySchema("", string(written)); err != nil {
			t.Fatalf("the schema refuses %s\n%v", written, err)
		}
		text := mutant(t, rapid.SampledFrom(append(plains, string(written))).Draw(t, "file"))
		if byReader(text) != nil {
			return
		}
		if err := bySchema("", text); err != nil {
			t.Fatalf("the reader takes %s\nand the schema says %v", text, err)
		}
	})
}
