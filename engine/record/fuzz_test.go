package record

import (
	"bytes"
	"encoding/json"
	"reflect"
	"strings"
	"testing"
)

// FuzzDecodeStrict: stored bytes that are accepted are read alike by Decode,
// and print to bytes that mean the same.
func FuzzDecodeStrict(f *testing.F) {
	f.Add([]byte(stored))
	for _, m := range malformed {
		f.Add([]byte(strings.Replace(stored, m.old, m.new, 1)))
	}
	for _, g := range golden {
		f.Add([]byte(`{"n":9,"v":1,"at":"2026-11-25T08:44:00Z","by":"","v":1,` + g.fields + `,"prev":"` + anyHash + `"}`))
		f.Add([]byte(`{"n":9,"v":1,"at":"2026-11-25T08:44:00-07:30","by":"x",` + g.fields + `,"prev":"` + anyHash + `"}`))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		loose, looseErr := Decode(data) // of whatever bytes, it returns
		e, err := DecodeStrict(data)
		if err != nil {
			return
		}
		if looseErr != nil || !reflect.DeepEqual(loose, e) {
			t.Fatalf("Decode of %s is\n%+v, %v\nnot\n%+v", data, loose, looseErr, e)
		}
		printed, err := e.encode()
		if err != nil {
			t.Fatalf("%s does not print: %v", data, err)
		}
		again, err := DecodeStrict(printed)
		if err != nil {
			t.Fatalf("%s prints as %s: %v", data, printed, err)
		}
		if reprinted, err := again.encode(); err != nil || !bytes.Equal(reprinted, printed) {
			t.Fatalf("%s prints as\n%s\nand then as\n%s, %v", data, printed, reprinted, err)
		}
	})
}

// FuzzReadFile: a file that is accepted prints back and reads the same, and a
// plain one becomes events that seal or is refused with a sentence.
func FuzzReadFile(f *testing.F) {
	f.Add([]byte(b9))
	f.Add([]byte(fullText(f, fiveEvents(f))))
	f.Add([]byte(`{"borewright":1,"layout":{},"plan":[{}],"limits":[{}],"parts":[{}],"readings":[{}],"work":[{}]}`))
	f.Add([]byte(`{"borewright":1,"unit":"in","stage":"final","work":[{"did":"honed","to":["bore/1"]}],
		"readings":[{"of":"bore/1","level":2,"stage":"as found","across":null,"along":["1",2.50,[],["4",5]],"30":7}]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		file, err := ReadFile(bytes.NewReader(data))
		switch {
		case err != nil:
		case file.Full != nil:
			checkFull(t, file.Full)
		default:
			checkPlain(t, *file.Plain)
		}
	})
}

func checkFull(t *testing.T, full *Full) {
	t.Helper()
	var b bytes.Buffer
	if err := WriteFull(&b, full.Lines); err != nil {
		t.Fatal(err)
	}
	again, err := ReadFile(&b)
	if err != nil || !reflect.DeepEqual(again.Full, full) {
		t.Fatalf("%+v prints back as %+v, %v", full, again.Full, err)
	}
}

func checkPlain(t *testing.T, p Plain) {
	t.Helper()
	printed, err := json.Marshal(p)
	if err != nil {
		t.Fatal(err)
	}
	again, err := ReadFile(bytes.NewReader(printed))
	if err != nil {
		t.Fatalf("%s: %v", printed, err)
	}
	if reprinted, err := json.Marshal(again.Plain); err != nil || !bytes.Equal(reprinted, printed) {
		t.Fatalf("%s prints as %s, %v", printed, reprinted, err)
	}
	events, err := p.Events("u1", at, "rk")
	later, laterErr := again.Plain.Events("u1", at, "rk")
	if !reflect.DeepEqual(events, later) || (err == nil) != (laterErr == nil) {
		t.Fatalf("%s gives %+v, %v\nand printed back %+v, %v", printed, events, err, later, laterErr)
	}
	var head Head
	for _, e := range events {
		s, err := Seal(e, head)
		if err != nil {
			t.Fatalf("%s: %v", printed, err)
		}
		head = s.Head
	}
}
