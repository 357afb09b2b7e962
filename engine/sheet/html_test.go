package sheet

import (
	"bytes"
	"testing"
	"time"

	"borewright/engine"
	"borewright/engine/record"
	"borewright/testdata"
)

// session returns a demo session as it stands after so many events, or wholly
// when n is 0.
func session(tb testing.TB, name string, n int) *engine.Session {
	tb.Helper()
	data, ok := testdata.Session(name)
	if !ok {
		tb.Fatalf("no session %s", name)
	}
	file, err := record.ReadFile(bytes.NewReader(data))
	if err != nil {
		tb.Fatal(err)
	}
	events := eventsOf(tb, file)
	if n > 0 {
		events = events[:n]
	}
	s, err := engine.Replay(events)
	if err != nil {
		tb.Fatal(err)
	}
	return s
}

// eventsOf returns the events of a file in either form.
func eventsOf(tb testing.TB, file record.File) []record.Sealed {
	tb.Helper()
	if file.Full != nil {
		return file.Full.Events
	}
	fresh, err := file.Plain.Events("plain", time.Unix(0, 0).UTC(), "")
	if err != nil {
		tb.Fatal(err)
	}
	var out []record.Sealed
	var head record.Head
	for _, e := range fresh {
		s, err := record.Seal(e, head)
		if err != nil {
			tb.Fatal(err)
		}
		out, head = append(out, s), s.Head
	}
	return out
}

// built returns the sheet of a session.
func built(t *testing.T, s *engine.Session, u Units) Sheet {
	t.Helper()
	out, err := Build(s, engine.Assess(s), Options{u})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// pageOf returns the page of a sheet.
func pageOf(t *testing.T, s Sheet) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := HTML(&b, s); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// The same events give the same bytes, and nothing is fetched from elsewhere.
func TestHTMLIsAlwaysTheSame(t *testing.T) {
	t.Parallel()
	for _, name := range testdata.Names() {
		for _, u := range []Units{"", Inch, MM, Both} {
			first := pageOf(t, built(t, session(t, name, 0), u))
			if again := pageOf(t, built(t, session(t, name, 0), u)); !bytes.Equal(first, again) {
				t.Errorf("%s in %q: two pages differ", name, u)
			}
			for _, bad := range []string{"http:", "https:", "src=", "<link", "<script", "@import", "url(", "ZgotmplZ", "<no value>"} {
				if bytes.Contains(first, []byte(bad)) {
					t.Errorf("%s in %q: the page holds %q", name, u, bad)
				}
			}
		}
	}
}

// Titles from outside stay texts.
func TestHTMLOfHostileNames(t *testing.T) {
	t.Parallel()
	s := built(t, session(t, "one-bore", 0), "")
	for _, bad := range []string{"</title><script>alert(1)</script>", "a\x1b[31mb\u202ec\x00d", "../../etc/passwd", "\"onload=\"x"} {
		s.Title, s.Engine, s.Customer = clean(bad), clean(bad), clean(bad)
		s.Sections[0].Notes[0] = clean(bad)
		page := pageOf(t, s)
		for _, no := range []string{"<script", "\x1b", "\u202e", "\x00", "=\"x"} {
			if bytes.Contains(page, []byte(no)) {
				t.Errorf("%q: the page holds %q", bad, no)
			}
		}
	}
}

func TestMarkRoundTrip(t *testing.T) {
	t.Parallel()
	for _, u := range []Units{"", Inch, MM, Both} {
		s := built(t, session(t, "hillclimb", 0), u)
		if m, ok := FindMark(pageOf(t, s)); !ok || m != s.Mark {
			t.Errorf("found %+v, %v; want %+v", m, ok, s.Mark)
		}
	}
	if m, ok := FindMark([]byte("borewright-sheet uid=a n=1 sha256=short units=in;")); ok {
		t.Errorf("found %+v in what is no mark", m)
	}
}
