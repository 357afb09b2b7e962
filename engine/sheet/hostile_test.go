package sheet

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"unicode"

	"borewright/engine"
	"borewright/engine/record"
	"borewright/testdata"
)

// hostileName is what a name can hold to hurt who reads it: escapes, a window
// title, turned and hidden text, line ends and other controls.
const hostileName = "\x1b[2J\x1b]0;owned\x07\u202eexe\u2066a\u2069\u200f\u061c\u200b\u200d\ufeff\u2060\u00ad\U000e0041\r\n\x00\x08\x7f\u009b31m\u2028three\u2029\ufffd</td>"

// renamed puts the name in front of every text that somebody chose.
func renamed(v reflect.Value, name string) (done int) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			f, field := v.Field(i), v.Type().Field(i).Name
			chosen := slices.Contains([]string{"Title", "Customer", "Engine", "Name", "Text", "Source", "Fastener", "Lubricant", "Note", "By"}, field)
			switch {
			case f.Kind() == reflect.String && f.CanSet() && chosen && f.Type().PkgPath() == "" && f.Len() > 0:
				f.SetString(name + f.String())
				done++
			case f.CanSet():
				done += renamed(f, name)
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			done += renamed(v.Index(i), name)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			done += renamed(v.Elem(), name)
		}
	default:
	}
	return done
}

// hostileSession is a session with the name in front of all its names, as
// somebody could have put it past us into a database.
func hostileSession(t *testing.T, name string) (*engine.Session, int) {
	t.Helper()
	data, _ := testdata.Session("launch-complete")
	file, err := record.ReadFile(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	events, done := eventsOf(t, file), 0
	for i, e := range events {
		body := reflect.New(reflect.TypeOf(e.Body)).Elem()
		body.Set(reflect.ValueOf(e.Body))
		done += renamed(body, name)
		events[i].Body = body.Interface().(record.Body)
	}
	s, err := engine.Replay(events)
	if err != nil {
		t.Fatal(err)
	}
	return s, done
}

// TestHostileNamesInDocuments: nothing of a name reaches the document, what it
// says of itself, or the page, but what can be seen.
func TestHostileNamesInDocuments(t *testing.T) {
	t.Parallel()
	s, names := hostileSession(t, hostileName)
	made := built(t, s, Both)
	file := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(file, document(t, made), 0o600); err != nil {
		t.Fatal(err)
	}
	info, err := exec.CommandContext(t.Context(), reader(t, "pdfinfo", "poppler-utils"), file).Output()
	if err != nil {
		t.Fatal(err)
	}
	for what, text := range map[string]string{"the document": textOf(t, file), "its title": string(info), "the page": string(pageOf(t, made))} {
		for i, r := range text {
			hidden := unicode.IsControl(r) && r != '\n' && r != '\f' || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp)
			if hidden {
				t.Errorf("%s holds %U: %.80q", what, r, text[max(0, i-30):])
				break
			}
		}
		if !strings.Contains(text, "exe") {
			t.Errorf("%s does not show the names", what)
		}
	}
	if names < 20 {
		t.Fatalf("only %d names were made hostile", names)
	}
	t.Logf("PROOF | hostile names in a PDF and a page: escapes, bidi, zero width, controls | %d | 0 | nothing but what can be seen", names)
}

// TestPlaceholdersInDocuments: what a name holds of the signs that a document's
// writer, or a format, puts something in the place of stays as it is written, and
// every page says which of how many it is.
func TestPlaceholdersInDocuments(t *testing.T) {
	t.Parallel()
	const name = "{nb} %d %s ${x} {{.}} \\n (a) "
	s, _ := hostileSession(t, name)
	made := built(t, s, Both)
	file := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(file, document(t, made), 0o600); err != nil {
		t.Fatal(err)
	}
	pages := strings.Split(strings.TrimSuffix(textOf(t, file), "\f"), "\f")
	for i, text := range pages {
		if want := fmt.Sprintf("page %d of %d", i+1, len(pages)); !strings.Contains(text, want) {
			t.Errorf("it does not say %q", want)
		}
		if !strings.Contains(text, strings.TrimSpace(name)) {
			t.Errorf("page %d does not show the title %q", i+1, name)
		}
	}
	if shown, page := strings.Count(strings.Join(pages, ""), "{nb}"), strings.Count(string(pageOf(t, made)), "{nb}"); shown < page/2 || page < 20 {
		t.Errorf("the document shows %d of them, the page %d", shown, page)
	}
	if len(pages) < 2 {
		t.Errorf("only %d page", len(pages))
	}
	t.Logf("PROOF | signs in a name that the writer of a PDF takes for the number of its pages | %d | 0 | the name, as it was written", strings.Count(strings.Join(pages, ""), "{nb}"))
}
