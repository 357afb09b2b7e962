package tui

import (
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/muesli/termenv"

	"borewright/engine/record"
	"borewright/tui/draw"
)

// hostile is what a name can hold to hurt who reads it: sequences that a terminal
// obeys, a window title, a link, turned and hidden text, and no end.
var hostile = []string{
	"\x1b[2J\x1b[31mred\x1b]0;owned\x07\x1b]8;;http://x\x1b\\link\x1b]8;;\x1b\\\x9b31m\x1bP1;2|q\x1b\\",
	"gpj\u202eexe.\u2066a\u2069\u200f\u061c\u200b\u200d\ufeff\u2060\u00ad\U000e0041",
	"one\r\ntwo\x00\x08\x7f\u2028three\u2029four\t",
	"\xff\xfe\xc3(" + strings.Repeat("\u0301", 50),
	strings.Repeat("without an end\u202e ", 1<<16),
}

// spoken are the fields whose text somebody chose.
var spoken = []string{"Title", "Customer", "Engine", "Name", "Text", "Source", "Why", "Plate", "Fastener", "Lubricant", "Note", "Part", "By", "Torque", "Condition"}

// poison puts the text in front of every text of a body that somebody chose.
func poison(v reflect.Value, text string) (done int) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			f, name := v.Field(i), v.Type().Field(i).Name
			switch {
			case !f.CanSet():
			case f.Kind() == reflect.String && f.Type().PkgPath() == "" && f.Len() > 0 && slices.Contains(spoken, name):
				f.SetString(text + f.String())
				done++
			default:
				done += poison(f, text)
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			done += poison(v.Index(i), text)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			done += poison(v.Elem(), text)
		}
	default:
	}
	return done
}

// poisoned returns the events with the text in front of every name, as somebody
// could have put it past us into a database.
func poisoned(events []record.Sealed, text string) (out []record.Sealed, done int) {
	for _, e := range events {
		body := reflect.New(reflect.TypeOf(e.Body)).Elem()
		body.Set(reflect.ValueOf(e.Body))
		done += poison(body, text)
		e.Body = body.Interface().(record.Body)
		out = append(out, e)
	}
	return out, done
}

// ownStyling is what the palette of 16 colours on a dark ground sends: bright
// colours, bold, and the end of each.
var ownStyling = regexp.MustCompile(`\x1b\[(1|(1;)?9[0-7]|0)m`)

// TestHostileNamesReachNoTerminal: whatever names hold, no screen draws what a
// terminal would obey or what turns a line round.
func TestHostileNamesReachNoTerminal(t *testing.T) {
	screens, names := 0, 0
	for i, text := range hostile {
		huge := len(text) > 1<<16
		events, err := readDemo("launch") // our own: they are changed
		if err != nil {
			t.Fatal(err)
		}
		n := len(events)
		if huge {
			n = 1 // the session's own names: a megabyte in every name is slow to load
		}
		bad, done := poisoned(events[:n], text)
		bad = append(bad, events[n:]...)
		for name, keys := range everyScreen {
			if huge && name != "bench" && name != "measure" {
				continue
			}
			s := newStation(t, 80, 24)
			coloured := (i+screens)%2 == 0
			if coloured {
				s.st.Palette = draw.NewPalette(true, termenv.ANSI)
			}
			uid := s.book.put("launch")
			s.book.sessions[uid] = bad
			names += done
			s.st.Push(newBench(s.st))
			s.run(s.r.settle())
			s.keys(keys...)
			screens++
			for _, line := range strings.Split(s.r.View(), "\n") {
				if coloured {
					line = ownStyling.ReplaceAllString(line, "")
				}
				if strings.ContainsFunc(line, draw.Obeyed) {
					t.Errorf("text %d on %s (%s) draws %.300q", i, name, s.r.top().Title(), line)
				}
			}
		}
	}
	if names < 1000 {
		t.Fatalf("only %d names were poisoned", names)
	}
	t.Logf("PROOF | hostile names in a database: escapes, OSC, bidi, zero width, 1 MB | %d | 0 | %d screens drawn, nothing raw on any", names, screens)
}
