package main

import (
	"strings"
	"testing"
	"time"

	"borewright/engine/record"
	"borewright/store"
)

func TestSavedLine(t *testing.T) {
	t.Parallel()
	for want, s := range map[string]store.Saved{
		"the shop: 2 events recovered in place, complete": {UID: record.ShopUID, Events: 2},
		`session "Launch" (s1): 1 event recovered in place, 4 lost, 1 set aside; its chain is whole up to event 4`: {
			UID: "s1", Title: "Launch", Events: 1, Lost: []int64{5, 7, 8, 9}, Aside: []int64{11}, Whole: record.Head{N: 4},
		},
		`session s2: 8 events recovered in place, 1 lost; no part of its chain is whole`: {UID: "s2", Events: 8, Lost: []int64{1}},
	} {
		if got := savedLine(&s); got != want {
			t.Errorf("said %q, want %q", got, want)
		}
	}
}

// launch is a session with two rows of lost events and two set aside.
func launch() store.Salvaged {
	at := time.Date(2026, 3, 10, 14, 2, 0, 0, time.FixedZone("", 3600))
	told := func(n int64, text string) *store.Told { return &store.Told{N: n, At: at, By: "ek", Text: text} }
	return store.Salvaged{Path: "a.db", Out: "out.db", Beside: "out.db.aside.jsonl", Streams: []store.Saved{
		{UID: "s0", Title: "Tug", Events: 3},
		{
			UID: "s1", Title: "Launch", Events: 9, Lost: []int64{5, 7, 8}, Aside: []int64{9, 10}, Whole: record.Head{N: 4},
			Gaps: []store.Gap{
				{First: 5, Last: 5, After: told(4, "set t1"), Before: told(6, "bore 1: 4.0012 in"), Remains: []store.Told{{N: 5, Text: "perhaps a reading of bore 3, \x1b[31mlevel b"}}},
				{First: 7, Last: 8, After: told(6, "bore 1: 4.0012 in"), Remains: []store.Told{{N: 8, Text: "perhaps a set t2"}}},
			},
			Strays: []store.Told{
				{N: 9, At: at, By: "ek", Is: record.IsReading, Text: "bore 3, level b, across: 4.0012 in, keyed 4.0012", Why: `bore/3: no set "t2"`},
				{N: 10, At: at, Is: record.IsNote, Text: "note: warm", Why: "it names event 8"},
			},
		},
	}}
}

// TestSalvageLines: on the terminal stands in short what is in place, lost and set
// aside.
func TestSalvageLines(t *testing.T) {
	t.Parallel()
	want := `session "Tug" (s0): 3 events recovered in place, complete
session "Launch" (s1): 9 events recovered in place, 3 lost, 2 set aside; its chain is whole up to event 4
  lost: event 5, perhaps a reading of bore 3, ` + "\x1b" + `[31mlevel b
  lost: events 7 to 8, after event 6 (bore 1: 4.0012 in, 2026-03-10 14:02); of 1 something can be read
  set aside: events 9 to 10, 1 reading among them; of event 9: bore/3: no set "t2"
12 events recovered into out.db, 3 lost, 2 set aside in out.db.aside.jsonl because they rest on what is missing
what is lost and what was set aside is listed in out.db.report.txt`
	if got := strings.Join(salvageLines(salvaged{launch(), "out.db.report.txt"}), "\n"); got != want {
		t.Errorf("said\n%s\nwant\n%s", got, want)
	}
	s := launch()
	s.Streams[1].ByPosition = true
	if got := strings.Join(salvageLines(salvaged{Salvaged: s}), "\n"); !strings.Contains(got, "event 4\n  its layout is not known: places are named by their position") {
		t.Errorf("said\n%s", got)
	}
	if got := strings.Join(listingLines(s), "\n"); !strings.Contains(got, "event 4\nits layout is not known: places are named by their position") {
		t.Errorf("listed\n%s", got)
	}
	s.Streams[1].Gaps = make([]store.Gap, mostGaps+2)
	if got := strings.Join(salvageLines(salvaged{Salvaged: s}), "\n"); strings.Count(got, "  lost: ") != mostGaps+1 || !strings.Contains(got, "  lost: 2 more rows of events, which the listing has\n") {
		t.Errorf("said\n%s", got)
	}
}

// TestListing: the listing has every event that is lost or set aside, and nothing
// that a terminal obeys.
func TestListing(t *testing.T) {
	t.Parallel()
	var text []byte
	w := World{WriteNew: func(path string, data []byte) error {
		if path != "out.db.report.txt" {
			t.Errorf("it is written to %q", path)
		}
		text = data
		return nil
	}}
	where, err := writeListing(w, launch())
	if err != nil || where != "out.db.report.txt" {
		t.Fatal(where, err)
	}
	want := `What was lost of a.db and what was set aside.
All else is in out.db.
Behind "perhaps" stands what can be read of a damaged event: any part of it may be wrong.

session "Launch" (s1): 9 events recovered in place, 3 lost, 2 set aside; its chain is whole up to event 4
lost, to be measured or set again:
  event 5
    came after event 4, 2026-03-10 14:02, ek: set t1
    event 5: perhaps a reading of bore 3, level b
    came before event 6, 2026-03-10 14:02, ek: bore 1: 4.0012 in
  events 7 to 8
    came after event 6, 2026-03-10 14:02, ek: bore 1: 4.0012 in
    event 8: perhaps a set t2
set aside, intact, but no part of the session, because they rest on what is missing:
  event 9, 2026-03-10 14:02, ek: bore 3, level b, across: 4.0012 in, keyed 4.0012
    bore/3: no set "t2"
  event 10, 2026-03-10 14:02: note: warm
    it names event 8
`
	if string(text) != want {
		t.Errorf("it says\n%s\nwant\n%s", text, want)
	}
	if where, err := writeListing(World{}, store.Salvaged{Streams: []store.Saved{{UID: "s", EndUnknown: true}}}); where != "" || err != nil {
		t.Errorf("of nothing: %q, %v", where, err)
	}
}

// TestSalvageNewerIsToldApart: intact events of a newer program are told to be that,
// on the terminal, in the listing and as JSON.
func TestSalvageNewerIsToldApart(t *testing.T) {
	t.Parallel()
	s := launch()
	s.Streams[0].Newer = []store.Told{
		{N: 4, At: s.Streams[1].Strays[0].At, By: "ek", Is: "survey", Text: "this event is of version 3"},
		{N: 5, At: s.Streams[1].Strays[0].At, Text: "this event is of version 4"},
	}
	said := strings.Join(salvageLines(salvaged{Salvaged: s}), "\n")
	for _, want := range []string{
		`session "Tug" (s0): 3 events recovered in place, 2 of a newer borewright; `,
		"\n  of a newer borewright: events 4 to 5; this event is of version 3\n",
		"\n12 events recovered into out.db, 3 lost, 2 set aside in out.db.aside.jsonl because they rest on what is missing, 2 of a newer borewright put as they are into out.db.aside.jsonl",
	} {
		if !strings.Contains(said, want) {
			t.Errorf("said\n%s\nwithout %q", said, want)
		}
	}
	listed := strings.Join(listingLines(s), "\n")
	want := `of a newer borewright, intact, and for that one to salvage:
  event 4, 2026-03-10 14:02, ek: this event is of version 3
  event 5, 2026-03-10 14:02: this event is of version 4`
	if !strings.Contains(listed, want) {
		t.Errorf("listed\n%s", listed)
	}
	var out, errs strings.Builder
	w := newShelf().world(&out, &errs)
	w.Salvage = func(string, string, func(store.Step), ...string) (store.Salvaged, error) { return s, nil }
	w.WriteNew = func(string, []byte) error { return nil }
	if code := run([]string{"borewright", "--db", "a.db", "salvage", "--json", "out.db"}, w); code != 0 || !strings.Contains(out.String(), `"is": "survey"`) {
		t.Errorf("it ended with %d and said\n%s%s", code, out.String(), errs.String())
	}
}

// TestUnlisted: where the listing cannot be written, what it would say in full is
// said in short all the same.
func TestUnlisted(t *testing.T) {
	t.Parallel()
	for flag, want := range map[string]string{"--json": `"lost": [`, "--with=b.db": "  lost: event 5, perhaps "} {
		var out, errs strings.Builder
		w := newShelf().world(&out, &errs)
		w.Salvage = func(string, string, func(store.Step), ...string) (store.Salvaged, error) { return launch(), nil }
		w.WriteNew = func(path string, _ []byte) error { return &store.FileError{Path: path, Kind: store.ErrFull} }
		if code := run([]string{"borewright", "--db", "a.db", "salvage", flag, "out.db"}, w); code != 1 {
			t.Errorf("it ended with %d", code)
		}
		if !strings.Contains(out.String(), want) || strings.Contains(out.String(), "listing") || strings.Contains(out.String(), "is listed in") {
			t.Errorf("it says\n%s", out.String())
		}
		if want := "out.db was made, but what is lost could not be listed beside it: the disk is full: out.db.report.txt"; !strings.Contains(errs.String(), want) {
			t.Errorf("it warns\n%s", errs.String())
		}
	}
}
