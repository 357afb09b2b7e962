package record

import (
	"bytes"
	"encoding/json"
	"reflect"
	"strings"
	"testing"
)

// someReadings are readings with and without every field that may be missing.
func someReadings() []Reading {
	var out []Reading
	for bits := range 1 << 5 {
		r := Reading{Of: featureOf("main-journal/2"), Level: "b", Dir: "45", Keyed: "+3", Via: ViaKeypad, As: Repeat}
		if bits&1 != 0 {
			r.Set = "s1"
		}
		if bits&2 != 0 {
			r.Size = written("2.6445 in")
		}
		if bits&4 != 0 {
			r.Dev = written("-0.012 mm")
		}
		r.Blind = bits&8 != 0
		if bits&16 != 0 {
			r.Despite = "jump"
		}
		out = append(out, r)
	}
	return out
}

// TestCutReading: fields as Seal writes them are read the short way.
func TestCutReading(t *testing.T) {
	for _, want := range someReadings() {
		object, err := json.Marshal(want)
		if err != nil {
			t.Fatal(err)
		}
		if got, ok := cutReading(nil, bytes.Trim(object, "{}")); !ok || got != want {
			t.Errorf("%s is read %+v, %v", object, got, ok)
		}
	}
}

// TestCutReadingIsTheLongWay: whatever is changed, what the short way reads is what
// the long way reads.
func TestCutReadingIsTheLongWay(t *testing.T) {
	check := func(fields string) {
		t.Helper()
		object := "{" + fields + "}"
		got, ok := cutReading(newTextPool(), []byte(fields))
		if !ok {
			return
		}
		var want Reading
		if err := json.Unmarshal([]byte(object), &want); err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%q is read %+v; the long way it is %+v, %v", object, got, want, err)
		}
	}
	for _, r := range someReadings() {
		object, err := json.Marshal(r)
		if err != nil {
			t.Fatal(err)
		}
		text := strings.Trim(string(object), "{}")
		for i := range text {
			check(text[:i])
			check(text[:i] + text[i+1:])
			for _, b := range []string{`"`, `\`, `,`, `}`, `{`, ` `, "\n", "\x00", "\x7f", "\xff", "µ", `0`, `a`, `""`, `\u0041`} {
				check(text[:i] + b + text[i:])
				check(text[:i] + b + text[i+1:])
			}
		}
		check(text + text)
		check(text + "," + text)
	}
}
