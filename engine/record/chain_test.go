package record

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"
)

// stream seals bodies one after the other, a minute apart.
func stream(tb testing.TB, bodies ...Body) []Sealed {
	tb.Helper()
	var out []Sealed
	var head Head
	for i, b := range bodies {
		s, err := Seal(Event{At: at.Add(time.Duration(i) * time.Minute), By: "rk", Body: b}, head)
		if err != nil {
			tb.Fatal(err)
		}
		out, head = append(out, s), s.Head
	}
	return out
}

// reading is a size read at a place of bore 1.
func reading(level, dir, size string) Reading {
	return Reading{Of: featureOf("bore/1"), Level: level, Dir: dir, Keyed: size, Via: ViaKeypad, Size: written(size + " mm"), As: First}
}

// fiveEvents is a stream of five events.
func fiveEvents(tb testing.TB) []Sealed {
	tb.Helper()
	return stream(tb, Details{UID: "u1", Unit: 2}, reading("a", "across", "67.118"), reading("a", "along", "67.075"),
		Withdrawn{Event: 3}, Note{Text: "done"})
}

func linesOf(events []Sealed) [][]byte {
	var out [][]byte
	for _, e := range events {
		out = append(out, bytes.Clone(e.Bytes))
	}
	return out
}

func TestVerify(t *testing.T) {
	sealed := fiveEvents(t)
	got, err := Verify(linesOf(sealed))
	if err != nil || len(got) != 5 {
		t.Fatalf("Verify gives %d events, %v", len(got), err)
	}
	for i := range got {
		if got[i].Head != sealed[i].Head || got[i].N != int64(i+1) || !bytes.Equal(got[i].Bytes, sealed[i].Bytes) {
			t.Errorf("event %d comes back as %+v, not %+v", i+1, got[i], sealed[i])
		}
	}
	rest, err := Continue(sealed[2].Head, linesOf(sealed)[3:])
	if err != nil || len(rest) != 2 || rest[1].Head != sealed[4].Head {
		t.Errorf("Continue after event 3 gives %d events, %v", len(rest), err)
	}
	if got, err := Verify(nil); len(got) != 0 || err != nil {
		t.Errorf("an empty stream gives %v, %v", got, err)
	}
}

func TestVerifyRefuses(t *testing.T) {
	for _, c := range []struct {
		name, want string
		is         error
		change     func([][]byte) [][]byte
	}{
		{"altered", "event 3: the hash it holds is not that of event 2: one of the two was altered", ErrBroken, func(l [][]byte) [][]byte {
			l[1] = bytes.Replace(l[1], []byte("67.118"), []byte("67.018"), 1)
			return l
		}},
		{"gap", "event 3: it is missing; event 4 stands in its place", ErrBroken, func(l [][]byte) [][]byte { return slices.Delete(l, 2, 3) }},
		{"first missing", "event 1: it is missing; event 2 stands in its place", ErrBroken, func(l [][]byte) [][]byte { return l[1:] }},
		{"twice", "event 3: it is numbered 2, a number that was used before", ErrBroken, func(l [][]byte) [][]byte { return slices.Insert(l, 2, l[1]) }},
		{"renumbered", "event 5: it is missing; event 7 stands in its place", ErrBroken, func(l [][]byte) [][]byte {
			l[4] = bytes.Replace(l[4], []byte(`"n":5`), []byte(`"n":7`), 1)
			return l
		}},
		{"first with a hash", "event 1: it is the first but holds the hash of an event before it", ErrBroken, func(l [][]byte) [][]byte {
			l[0] = bytes.Replace(l[0], []byte(`"prev":""`), []byte(`"prev":"`+anyHash+`"`), 1)
			return l
		}},
		{"newer", "event 2: this event is of version 3 and this program reads up to version 2: a newer borewright is needed", ErrNewer, func(l [][]byte) [][]byte {
			l[1] = bytes.Replace(l[1], []byte(`"v":1`), []byte(`"v":3`), 1)
			return l
		}},
		{"unknown kind", `event 5: is: "remark": no kind of event`, nil, func(l [][]byte) [][]byte {
			l[4] = bytes.Replace(l[4], []byte(`"note"`), []byte(`"remark"`), 1)
			return l
		}},
		{"cut off", "event 4: an event cannot be read: unexpected end of JSON input", nil, func(l [][]byte) [][]byte {
			l[3] = l[3][:40]
			return l
		}},
		{"not a feature", `event 2: event 2 (reading) cannot be read: feature "bor/1": no family is called "bor"`, nil, func(l [][]byte) [][]byte {
			l[1] = bytes.Replace(l[1], []byte("bore/1"), []byte("bor/1"), 1)
			return l
		}},
		{"no time", `event 1: at: "2026-11-25 08:44": not a time such as 2026-11-25T08:44:00+01:00`, nil, func(l [][]byte) [][]byte {
			l[0] = bytes.Replace(l[0], []byte("2026-11-25T08:44:00+01:00"), []byte("2026-11-25 08:44"), 1)
			return l
		}},
	} {
		got, err := Verify(c.change(linesOf(fiveEvents(t))))
		if err == nil || err.Error() != c.want || got != nil || c.is != nil && !errors.Is(err, c.is) {
			t.Errorf("%s: Verify gives %d events and %v\nnot %s", c.name, len(got), err, c.want)
		}
	}
}

func TestSealRefuses(t *testing.T) {
	good := Event{At: at, By: "rk", Body: Note{Text: "x"}}
	lines := make([]map[string]string, 6000)
	for i := range lines {
		lines[i] = map[string]string{"name": strings.Repeat("x", 180)}
	}
	for _, c := range []struct {
		name, want string
		change     func(*Event)
	}{
		{"no time", "at: an event has a time", func(e *Event) { e.At = time.Time{} }},
		{"year", `at: "-0001-11-30 00:00:00 +0000 +0000": a year is from 1 to 9999`, func(e *Event) { e.At = time.Date(-1, 11, 30, 0, 0, 0, 0, time.UTC) }},
		{"seconds of offset", `at: "2026-11-25 08:41:28 +0057 +0057": an offset is whole minutes, less than a day`, func(e *Event) { e.At = at.In(time.FixedZone("", 3448)) }},
		{"initials", `by: "rk\n": one line without control characters`, func(e *Event) { e.By = "rk\n" }},
		{"no body", "is: no kind of event", func(e *Event) { e.Body = nil }},
		{"a pointer", `is: "note": no kind of event`, func(e *Event) { e.Body = &Note{Text: "x"} }},
		{"a foreign body", `is: "remark": no kind of event`, func(e *Event) { e.Body = remark{} }},
		{"too large", fmt.Sprintf("an event has at most %d bytes, not 1152103", MaxEvent), func(e *Event) { e.Body = Table{Name: Costs, Rows: lines} }},
	} {
		e := good
		c.change(&e)
		if s, err := Seal(e, Head{}); err == nil || err.Error() != c.want {
			t.Errorf("%s: Seal gives %q, %v\nnot %s", c.name, s.Bytes, err, c.want)
		}
	}
	if _, err := Seal(good, Head{N: 3, Hash: "short"}); err == nil || err.Error() != `prev: "short": not a SHA-256 in base64url` {
		t.Errorf("a head that is none: %v", err)
	}
	if _, err := Seal(good, Head{N: -1}); err == nil || err.Error() != "n: events are numbered from 1, not 0" {
		t.Errorf("a head below zero: %v", err)
	}
}

// remark is a kind nobody knows.
type remark struct{}

func (remark) Is() Kind { return "remark" }
