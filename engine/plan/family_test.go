package plan_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/length"
	"borewright/engine/plan"
)

// Every row of the table holds together.
func TestFamilies(t *testing.T) {
	l := plan.Default(plan.Vee, 8, true)
	seen := map[plan.Family]bool{}
	for _, row := range plan.Families() {
		f := row.Family
		if seen[f] {
			t.Errorf("%s stands twice", f)
		}
		seen[f] = true
		if row.Noun == "" || row.Plural == "" || row.Count == nil || row.Count(l) < 1 || len(row.Named) == 0 {
			t.Errorf("%s: %+v", f, row)
		}
		if got, ok := f.Traits(); !ok || got.Family != f || f.Plural() != row.Plural || f.Shape() != row.Shape || f.Line() != row.Line {
			t.Errorf("%s is told as %+v", f, got)
		}
		if (row.Figure != "") != (row.Named[0] == plan.Once) {
			t.Errorf("%s: a figure that is no diameter, and only one, has no direction", f)
		}
		if row.Signed && row.Shape != plan.NoShape {
			t.Errorf("%s: a diameter has no sign", f)
		}
		if row.Judged != "" {
			if _, ok := plan.Angle(f, row.Judged); !ok {
				t.Errorf("%s is judged in direction %q", f, row.Judged)
			}
		}
	}
}

// The usual directions are 1 to 4 that differ, written as they should be.
func TestUsualDirections(t *testing.T) {
	for _, row := range plan.Families() {
		for i, usual := range row.Usual {
			want := i + 1
			if row.Figure != "" {
				want = 1
			}
			if len(usual) != want {
				t.Errorf("%s: %q for %d directions", row.Family, usual, want)
			}
			p := plan.Plan{Families: []plan.Group{{Family: row.Family, Levels: plan.Grid(row.Family, 1), Directions: usual}}}
			if err := p.Validate(); err != nil {
				t.Error(err)
			}
		}
	}
}

// Each loose part, and each seat of one, is a family, and a part without
// readings is found but not proposed.
func TestLooseParts(t *testing.T) {
	for _, row := range plan.Families() {
		for _, f := range []plan.Family{row.Loose, row.Seat} {
			if _, ok := f.Traits(); !ok && f != "" {
				t.Errorf("%s: there is no family %q", row.Family, f)
			}
		}
		if row.Unread {
			t.Errorf("%s is proposed and cannot be read", row.Family)
		}
	}
	if row, ok := plan.Rod.Traits(); !ok || !row.Unread {
		t.Errorf("a rod: %+v, %v", row, ok)
	}
}

func TestFamiliesIsACopy(t *testing.T) {
	all := plan.Families()
	all[0].Noun = "changed"
	if plan.Families()[0].Noun == "changed" {
		t.Error("the caller can change the table")
	}
}

func TestNoFamily(t *testing.T) {
	f := plan.Family("valve")
	if _, ok := f.Traits(); ok || f.Noun() != "valve" || f.Plural() != "valve" || f.Shape() != plan.NoShape || f.Line() != plan.NoLine {
		t.Errorf("%q %q %d %d", f.Noun(), f.Plural(), f.Shape(), f.Line())
	}
}

func TestWordsOfAFamily(t *testing.T) {
	if got := plan.ShellMain.Noun(); got != "main shell" {
		t.Errorf("a noun without its part is %q", got)
	}
	lines := []string{plan.NoLine.String(), plan.CylinderLine.String(), plan.CrankLine.String()}
	if !slices.Equal(lines, []string{"", "cylinder", "main"}) {
		t.Errorf("the lines are %q", lines)
	}
}

func TestCheckSize(t *testing.T) {
	for _, c := range []struct {
		family     plan.Family
		size, want string
	}{
		{plan.Bore, "", ""},
		{plan.Bore, "0.0001 in", ""},
		{plan.Bore, "0.000 in", "0.000 in is not above zero"},
		{plan.Piston, "-3.7460 in", "-3.7460 in is not above zero"},
		{plan.MainBearing, "0 mm", "0 mm is not above zero"},
		{plan.MainJournal, "-1 µm", "-1 µm is not above zero"},
		{plan.ShellMain, "0 mm", "0 mm is not above zero"},
		{"valve", "0 mm", "0 mm is not above zero"},
		{plan.EndPlay, "0 mm", ""},
		{plan.Flatness, "-0.01 mm", "-0.01 mm is below zero"},
		{plan.Deck, "-0.002 in", ""},
		{plan.Liner, "0 mm", ""},
	} {
		err := c.family.CheckSize(written(t, c.size))
		if c.want == "" {
			if err != nil {
				t.Errorf("%s of %s: %v", c.size, c.family, err)
			}
			continue
		}
		refused[*plan.SizeError](t, string(c.family), err, c.want)
	}
}

// Only a figure with a sign is ever below zero, and every family can be
// something above it.
func TestSizesBelowZeroNeedASign(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		row := rapid.SampledFrom(plan.Families()).Draw(t, "family")
		size := length.Written{Length: length.Length(rapid.Int64().Draw(t, "size")), Unit: length.MM, Places: 9}
		err := row.Family.CheckSize(size)
		if size.Length > 0 && err != nil || size.Length < 0 && (err == nil) != row.Signed {
			t.Fatalf("%s of %s: %v", size, row.Family, err)
		}
	})
}
