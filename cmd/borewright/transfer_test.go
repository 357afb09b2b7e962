package main

import (
	"bytes"
	"strings"
	"testing"

	"borewright/engine/record"
)

func TestExportImportRoundTrip(t *testing.T) {
	t.Parallel()
	here, there := stocked(t), newShelf()
	file := here.must(t, "export", "One bore")
	there.files["f"] = []byte(file)
	if got, want := there.must(t, "import", "f"), "session BENCH02SESSION \"One bore\": new, 10 events\n"; got != want {
		t.Errorf("said %q, want %q", got, want)
	}
	if again := there.must(t, "export", "bench02"); again != file {
		t.Errorf("exported\n%s\nwant\n%s", again, file)
	}
	if got, want := there.must(t, "assess", "f"), here.must(t, "assess", "one.json"); got != want {
		t.Errorf("the exported file is assessed as\n%s\nwant\n%s", got, want)
	}
}

func TestExportToFile(t *testing.T) {
	t.Parallel()
	s := stocked(t)
	want := s.must(t, "export", "NOTES01A")
	if got := s.must(t, "export", "-o", "out.json", "NOTES01A"); got != "3 events written to out.json\n" {
		t.Errorf("said %q", got)
	}
	s.must(t, "export", "NOTES01B", "--output=out.json", "--force")
	s.must(t, "export", "NOTES01A", "--output=out.json", "--force")
	if got := string(s.files["out.json"]); got != want {
		t.Errorf("wrote %q, want %q", got, want)
	}
}

// A session that is here already gains what is missing, and only that.
func TestImportMerges(t *testing.T) {
	t.Parallel()
	s := newShelf()
	for _, step := range []struct {
		events int
		says   string
	}{
		{3, "new, 3 events"},
		{3, "nothing new"},
		{5, "2 events added to 3"},
		{4, "nothing new; 1 event later than the file"},
		{5, "nothing new"},
		{6, "1 event added to 5"},
	} {
		s.files["f"] = notes(t, "uid-1", "Launch", step.events, "")
		if got, want := s.must(t, "import", "f"), "session uid-1 \"Launch\": "+step.says+"\n"; got != want {
			t.Errorf("%d events: said %q, want %q", step.events, got, want)
		}
	}
	if got := s.must(t, "export", "uid-1"); got != string(s.files["f"]) {
		t.Errorf("what is kept is %q, want %q", got, s.files["f"])
	}
}

// A session that went on in two places is taken in as a new one, which says
// what it was copied from.
func TestImportAsNew(t *testing.T) {
	t.Parallel()
	s := newShelf()
	s.files["ours"], s.files["theirs"] = notes(t, "uid-1", "Launch", 4, ""), notes(t, "uid-1", "Launch", 4, "another end")
	s.must(t, "import", "ours")
	if got := s.must(t, "import", "--as-new", "theirs"); got != "session BENCH02SESSION \"Launch\": new, 4 events\n" {
		t.Errorf("said %q", got)
	}
	if got := s.must(t, "export", "uid-1"); got != string(s.files["ours"]) {
		t.Errorf("ours is %q, want %q", got, s.files["ours"])
	}
	file, err := record.ReadFile(strings.NewReader(s.must(t, "export", "BENCH02")))
	if err != nil {
		t.Fatal(err)
	}
	source, err := record.ReadFile(bytes.NewReader(s.files["theirs"]))
	if err != nil {
		t.Fatal(err)
	}
	details := file.Full.Events[0].Body.(record.Details)
	if want := "4 " + source.Full.Digest.Hash; details.Copied != want || details.UID != "BENCH02SESSION" || details.Title != "Launch" {
		t.Errorf("the copy says %+v, want it copied from %q", details, want)
	}
	for i, e := range file.Full.Events[1:] {
		if was := source.Full.Events[i+1]; e.Body != was.Body || !e.At.Equal(was.At) || e.By != was.By || e.N != was.N {
			t.Errorf("event %d became %+v", was.N, e.Event)
		}
	}
}

// A file written by hand is a new session each time, by whoever takes it in.
func TestImportPlain(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		env  string
		args []string
		by   string
	}{
		"nobody":   {"", nil, ""},
		"variable": {"ek", nil, "ek"},
		"option":   {"ek", []string{"--by", "mw"}, "mw"},
	} {
		s := newShelf()
		s.env["BOREWRIGHT_BY"], s.stdin = c.env, oneBore(t)
		for _, uid := range []string{"BENCH01SESSION", "BENCH02SESSION"} {
			if got := s.must(t, append([]string{"import", "-"}, c.args...)...); got != "session "+uid+" \"One bore\": new, 10 events\n" {
				t.Errorf("%s: said %q", name, got)
			}
			events, err := s.mem.Load(uid)
			if err != nil {
				t.Fatal(err)
			}
			for _, e := range events {
				if e.By != c.by || e.At.Unix() == 0 {
					t.Errorf("%s: event %d is by %q at %v", name, e.N, e.By, e.At)
				}
			}
		}
	}
}
