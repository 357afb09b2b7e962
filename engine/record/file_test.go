package record

import (
	"bytes"
	"errors"
	"io"
	"strings"
	"sync"
	"testing"
)

// fullText writes the full form of events.
func fullText(tb testing.TB, events []Sealed) string {
	tb.Helper()
	var b strings.Builder
	if err := WriteFull(&b, linesOf(events)); err != nil {
		tb.Fatal(err)
	}
	return b.String()
}

func TestWriteFull(t *testing.T) {
	events := stream(t, Details{UID: "u1", Unit: 2}, Note{Text: "a & b"})
	want := `{"borewright":1,"digest":{"n":2,"sha256":"` + events[1].Head.Hash + `"},"events":[
{"n":1,"v":1,"at":"2026-11-25T08:44:00+01:00","by":"rk","is":"details","uid":"u1","title":"","unit":"mm","prev":""},
{"n":2,"v":1,"at":"2026-11-25T08:45:00+01:00","by":"rk","is":"note","text":"a & b","prev":"` + events[0].Head.Hash + `"}
]}
`
	if got := fullText(t, events); got != want {
		t.Errorf("the full form is\n%s\nnot\n%s", got, want)
	}
	if err := WriteFull(io.Discard, nil); !errors.Is(err, ErrEmpty) {
		t.Errorf("nothing to write: %v", err)
	}
	if err := WriteFull(io.Discard, linesOf(events)[1:]); !errors.Is(err, ErrBroken) {
		t.Errorf("a broken chain: %v", err)
	}
	full := errors.New("the disk is full")
	if err := WriteFull(failing{full}, linesOf(events)); !errors.Is(err, full) {
		t.Errorf("a full disk: %v", err)
	}
}

// failing fails to read and to write.
type failing struct{ err error }

func (f failing) Read([]byte) (int, error)  { return 0, f.err }
func (f failing) Write([]byte) (int, error) { return 0, f.err }

func TestReadFull(t *testing.T) {
	events := fiveEvents(t)
	for name, text := range map[string]string{
		"as written":          fullText(t, events),
		"behind a byte order": "\ufeff" + fullText(t, events),
		"with line ends CRLF": strings.ReplaceAll(fullText(t, events), "\n", "\r\n"),
	} {
		f, err := ReadFile(strings.NewReader(text))
		if err != nil || f.Full == nil || f.Plain != nil {
			t.Fatalf("%s: %+v, %v", name, f, err)
		}
		if f.Full.Digest != events[4].Head || len(f.Full.Events) != 5 {
			t.Errorf("%s: digest %+v and %d events", name, f.Full.Digest, len(f.Full.Events))
		}
		for i, line := range f.Full.Lines {
			if !bytes.Equal(line, events[i].Bytes) || f.Full.Events[i].Head != events[i].Head {
				t.Errorf("%s: event %d is %s", name, i+1, line)
			}
		}
	}
}

// badFile is a file with the sentence that it is refused with.
type badFile struct {
	name, text, want string
	is               error
}

// tooLarge is a file with more bytes than are read, made once.
var tooLarge = sync.OnceValue(func() string { return `{"borewright":1,"title":"` + strings.Repeat(" ", MaxFile) })

// badFiles are files that were spoilt.
func badFiles(t *testing.T) []badFile {
	t.Helper()
	full := fullText(t, fiveEvents(t))
	spoilt := func(old, new string) string {
		if !strings.Contains(full, old) {
			t.Fatalf("%s is not in the file", old)
		}
		return strings.Replace(full, old, new, 1)
	}
	head := fiveEvents(t)[4].Head
	return []badFile{
		{"empty", "", ErrForeign.Error(), ErrForeign},
		{"a picture", "\x89PNG\r\n\x1a\n\x00", ErrForeign.Error(), ErrForeign},
		{"a table", "of;across;along\nbore/1;67.1;67.2\n", ErrForeign.Error(), ErrForeign},
		{"another program's", `{"version":3,"parts":[]}`, ErrForeign.Error(), ErrForeign},
		{"only the version", `{"borewright":1`, "borewright: the text ends too early", ErrTruncated},
		{"newer", `{"borewright":2,"pages":[{"x":1e9}],"readings":null}`, "this file is of version 2 and this program reads up to version 1: a newer borewright is needed", ErrNewer},
		{"no version", `{"borewright":0}`, `borewright: "0": no version of a file`, nil},
		{"a version in words", `{"borewright":"one"}`, `borewright: "one": here must stand a number, not a text`, nil},
		{"wrong case", `{"Borewright":1}`, `["Borewright"]: this key is written "borewright"`, nil},
		{"both forms", `{"borewright":1,"readings":[],"events":[]}`, "readings: a file has readings or events, not both", nil},
		{"too large", tooLarge(), ErrTooLarge.Error(), ErrTooLarge},
		{"binary in the middle", `{"borewright":1,"title":"` + "\xfe" + `"}`, "byte 26 is not text in UTF-8", nil},

		{"plain: cut", b9[:len(b9)-40], "readings[0]: the text ends too early", ErrTruncated},
		{"plain: unknown", `{"borewright":1,"titel":"x"}`, "titel: no such field is known", nil},
		{"plain: in a level", strings.Replace(b9, `"depth":"45"`, `"deep":"45"`, 1), "plan[0].levels[1].deep: no such field is known", nil},
		{"plain: doubled", strings.Replace(b9, `"along":["67.075"`, `"across":["67.075"`, 1), "readings[0].across: this key stands twice in the same object", nil},
		{"plain: doubled limits", strings.Replace(b9, `"of":"bore","wear"`, `"of":"bore","of":"bore/1","wear"`, 1), "limits[0].of: this key stands twice in the same object", nil},
		{"plain: wrong case", strings.Replace(b9, `"along":["67.075"`, `"Along":["67.075"`, 1), `readings[0]["Along"]: this key is written in small letters`, nil},
		{"plain: wrong case of a field", strings.Replace(b9, `"unit"`, `"Unit"`, 1), `["Unit"]: this key is written "unit"`, nil},
		{"plain: wrong case in a row", strings.Replace(b9, `"of":"bore/1"`, `"OF":"bore/1"`, 1), `readings[0]["OF"]: this key is written "of"`, nil},
		{"plain: null", strings.Replace(b9, `"mm"`, `null`, 1), `unit: "null": here must stand a text, not null`, nil},
		{"plain: null among repeats", strings.Replace(b9, `"67.048"`, `["67.048",null]`, 1), `readings[0].along[1][1]: "null": here must stand a text or a number, not null`, nil},
		{"plain: too many lists", strings.Replace(b9, `"67.048"`, `[["67.048"]]`, 1), `readings[0].along[1][0]: "[": here must stand a text or a number, not a list`, nil},
		{"plain: an object for a value", strings.Replace(b9, `"67.048"`, `{"size":"67.048"}`, 1), `readings[0].along[1]: "{": here must stand a list or a text or a number or null, not an object`, nil},
		{"plain: NaN", strings.Replace(b9, `"67.048"`, `NaN`, 1), `readings[0].along[1]: "NaN": not a number that can be measured`, nil},
		{"plain: an exponent", strings.Replace(b9, `"67.048"`, `6.7048e1`, 1), `readings[0].along[1]: "6.7048e1": a number here has no exponent`, nil},
		{"plain: a bare point", strings.Replace(b9, `"67.048"`, `67.`, 1), `readings[0].along[1]: "67.": not a number as JSON writes it`, nil},
		{"plain: no feature", strings.Replace(b9, `"of":"bore/1"`, `"of":"bore 1"`, 1), `readings[0].of: feature "bore 1" is not written family/position, such as bore/3`, nil},
		{"plain: no unit", strings.Replace(b9, `"mm"`, `"cm"`, 1), `unit: "cm": not a unit known here: use in, mm, µm or µin`, nil},
		{"plain: a digest", strings.Replace(b9, `"title"`, `"digest":{"n":1,"sha256":""},"title"`, 1), "events: a file with a digest has events", nil},
		{"plain: deep", `{"borewright":1,"title":` + strings.Repeat("[", 100), "title" + strings.Repeat("[0]", 31) + ": nested more than 32 deep", nil},

		{"full: no digest", `{"borewright":1,"events":[]}`, "digest: a file with events has a digest", nil},
		{"full: no events", `{"borewright":1,"digest":{"n":0,"sha256":""},"events":[]}`, "the file holds no events", ErrEmpty},
		{"full: cut", full[:len(full)-30], "events[4].prev: the text ends too early", ErrTruncated},
		{"full: cut after an event", full[:strings.Index(full, "\n{\"n\":4")], "events[3]: the text ends too early", ErrTruncated},
		{"full: a title", spoilt(`"digest"`, `"title":"x","digest"`), "title: no such field is known", nil},
		{"full: altered", spoilt(`67.118`, `67.018`), "event 3: the hash it holds is not that of event 2: one of the two was altered", ErrBroken},
		{"full: last altered", spoilt(`done`, `DONE`), "the digest does not match the events: it says 5 events", ErrDigest},
		{"full: gap", spoilt(`{"n":3,`, `{"n":4,`), "event 3: it is missing; event 4 stands in its place", ErrBroken},
		{"full: digest too far", spoilt(`"digest":{"n":5`, `"digest":{"n":6`), `the digest does not match the events: it says 6 events that end in "` + head.Hash[:40] + `…", and there are 5`, ErrDigest},
		{"full: an unknown field", spoilt(`"text":"done"`, `"text":"done","color":"red"`), "event 5: color: no such field is known", nil},
		{"full: a newer event", spoilt(`{"n":2,"v":1`, `{"n":2,"v":3`), "event 2: this event is of version 3 and this program reads up to version 2: a newer borewright is needed", ErrNewer},
		{"full: two lines", spoilt(`,"text"`, ",\n\"text\""), "event 5: a stored event is one line", nil},
		{"full: not an event", spoilt(`"events":[`, `"events":[7,`), `event 1: "7": here must stand an object, not a number`, nil},
		{"full: a direction", spoilt(`"dir":"along"`, `"dir":"0"`), `event 3: reading dir: direction "0" of bores is written "along"`, nil},
	}
}

func TestReadFileRefuses(t *testing.T) {
	for _, c := range badFiles(t) {
		f, err := ReadFile(strings.NewReader(c.text))
		if err == nil || !strings.HasPrefix(err.Error(), c.want) || c.is != nil && !errors.Is(err, c.is) {
			t.Errorf("%s: ReadFile gives %+v\nand says  %v\nnot       %s", c.name, f, err, c.want)
		}
		if f.Full != nil || f.Plain != nil {
			t.Errorf("%s: ReadFile gives %+v and refuses it", c.name, f)
		}
	}
	broken := errors.New("the stick was pulled out")
	if _, err := ReadFile(failing{broken}); !errors.Is(err, broken) {
		t.Errorf("a reader that fails: %v", err)
	}
}
