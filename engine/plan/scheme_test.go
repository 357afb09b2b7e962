package plan

import (
	"strings"
	"testing"
)

func TestSchemesNumberAVeeEight(t *testing.T) {
	for id, want := range map[string]string{
		"sequence":          "1 2 3 4 5 6 7 8",
		"right first":       "5 6 7 8 1 2 3 4",
		"alternating":       "1 3 5 7 2 4 6 8",
		"SAE J824 sequence": "2 4 6 8 1 3 5 7",
		"SAE J824 banks":    "1L 2L 3L 4L 1R 2R 3R 4R",
		"ISO 1204":          "A4 A3 A2 A1 B4 B3 B2 B1",
	} {
		l := Default(Vee, 8, true)
		l.Lead = RightBank
		l = l.Numbered(scheme(t, id))
		if got := strings.Join(l.Labels["cylinders"], " "); got != want {
			t.Errorf("%s numbers %s, want %s", id, got, want)
		}
		if err := l.Validate(); err != nil {
			t.Errorf("%s: %v", id, err)
		}
		if s, ok := l.Numbering(); !ok || s.ID != id {
			t.Errorf("%s is taken for %q", id, s.ID)
		}
		if f, ok := l.ByLabel(Bore, l.Labels["cylinders"][4]); !ok || f.At != 5 {
			t.Errorf("%s: the label of position 5 leads to %v", id, f)
		}
	}
}

func TestSchemesOfOneBank(t *testing.T) {
	for _, s := range Schemes() {
		want := "1 2 3 4"
		if s.ID == "ISO 1204" {
			want = "4 3 2 1"
		}
		l := Default(Inline, 4, false).Numbered(s)
		if got := strings.Join(l.Labels["cylinders"], " "); got != want {
			t.Errorf("%s numbers an inline four %s, want %s", s.ID, got, want)
		}
	}
}

func TestFreeLabelsAreNoScheme(t *testing.T) {
	l := Default(Inline, 2, false)
	l.Labels = map[string][]string{"cylinders": {"port", "star"}}
	if s, ok := l.Numbering(); ok {
		t.Errorf("free labels are taken for %q", s.ID)
	}
}

func scheme(t *testing.T, id string) Scheme {
	t.Helper()
	for _, s := range Schemes() {
		if s.ID == id {
			return s
		}
	}
	t.Fatalf("no scheme %q", id)
	return Scheme{}
}

func TestRodsOnTheCrank(t *testing.T) {
	shared, split := Default(Vee, 8, true), Default(Vee, 6, false)
	right := shared
	right.Lead = RightBank
	for _, c := range []struct {
		l            Layout
		cylinder, on int
		half         string
	}{
		{shared, 1, 1, FrontHalf},
		{shared, 5, 1, RearHalf},
		{shared, 8, 4, RearHalf},
		{right, 1, 1, RearHalf},
		{right, 5, 1, FrontHalf},
		{split, 1, 1, ""},
		{split, 4, 2, ""},
		{split, 3, 5, ""},
		{split, 6, 6, ""},
		{Default(Inline, 6, false), 4, 4, ""},
		{Default(Flat, 4, false), 3, 2, ""},
	} {
		if on, half := c.l.RodJournalOf(c.cylinder); on != c.on || half != c.half {
			t.Errorf("%s %d: cylinder %d is on journal %d %q, want %d %q", c.l.Form, c.l.Cylinders, c.cylinder, on, half, c.on, c.half)
		}
	}
	if got := right.CylindersOn(2); len(got) != 2 || got[0] != 6 || got[1] != 2 {
		t.Errorf("journal 2 carries %v, want 6 in front of 2", got)
	}
}
