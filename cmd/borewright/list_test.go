package main

import (
	"encoding/json"
	"strings"
	"testing"
)

// stocked is a shelf with one measured bore and two sessions of notes.
func stocked(t *testing.T) *shelf {
	t.Helper()
	s := newShelf()
	s.files["one.json"] = []byte(strings.Replace(oneBore(t), `"unit"`, `"engine":"test \u0062arrel","customer":"Nobody","unit"`, 1))
	s.files["a.json"], s.files["b.json"] = notes(t, "NOTES01A", "First \u202enotes", 3, ""), notes(t, "NOTES01B", "", 1, "")
	for _, name := range []string{"a.json", "one.json", "b.json"} {
		s.must(t, "import", name)
	}
	return s
}

func TestList(t *testing.T) {
	t.Parallel()
	want := `
ID        TOUCHED           READINGS  STATE  TITLE        ENGINE       CUSTOMER  LAST READING
NOTES01B  2026-03-01 08:00  0         open                                       none
BENCH0    2026-03-02 08:00  6         open   One bore     test barrel  Nobody    bore 1: 67.015 at 2026-03-02 08:00
NOTES01A  2026-03-01 08:00  0         open   First notes                         none
`
	if got := stocked(t).must(t, "list"); got != want[1:] {
		t.Errorf("printed\n%s\nwant\n%s", got, want[1:])
	}
}

func TestListJSON(t *testing.T) {
	t.Parallel()
	out := stocked(t).must(t, "list", "--json")
	var got []listedSession
	if err := json.Unmarshal([]byte(out), &got); err != nil {
		t.Fatal(err)
	}
	if len(got) != 3 || got[0].ID != "NOTES01B" || got[2].Title != "First \u202enotes" || strings.Contains(out, "\u202e") {
		t.Fatalf("printed %s", out)
	}
	one := got[1]
	if one.UID != "BENCH02SESSION" || one.Unit != "mm" || one.State != "open" || one.Readings != 6 || one.Digest.N != 10 || len(one.Digest.Hash) != 43 {
		t.Errorf("the bore is listed as %+v", one)
	}
	if one.Last == nil || one.Last.Of != "bore/1" || one.Last.Keyed != "67.015" || one.Last.Dir != "along" || got[0].Last != nil {
		t.Errorf("its last reading is listed as %+v", one.Last)
	}
}
