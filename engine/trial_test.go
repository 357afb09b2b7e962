package engine_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

func change(t *testing.T, did, of, size string) engine.Change {
	t.Helper()
	return engine.Change{Did: did, Of: feature(t, of), Size: inch(t, size)}
}

func sizeOf(t *testing.T, a *engine.Assessment, of string) string {
	t.Helper()
	m, ok := a.Feature(feature(t, of))
	if !ok || m.Figures.Smallest != m.Figures.Largest {
		return "not one size"
	}
	return m.Figures.Mean.Format(length.In, 4)
}

func TestTrialMakesEachChange(t *testing.T) {
	t.Parallel()
	s, before := complete(t)
	for _, c := range []struct {
		change engine.Change
		of     string
		want   string
		told   string
	}{
		{change(t, engine.Hone, "bore/2", "3.7512"), "bore/2", "3.7512", "hone bore 2 to 3.7512 in"},
		{change(t, engine.Grind, "main-journal/3", "2.7490"), "main-journal/3", "2.7490", "grind main journal 3 to 2.7490 in"},
		{change(t, engine.File, "ring-gap/5/top", "0.0170"), "ring-gap/5/top", "0.0170", "file top ring gap 5 to 0.0170 in"},
		{change(t, engine.Bring, "end-play/1", "0.0070"), "end-play/1", "0.0070", "bring end play to 0.0070 in"},
	} {
		after, a, err := s.Trial(c.change)
		if err != nil {
			t.Fatal(err)
		}
		if got := sizeOf(t, a, c.of); got != c.want || s.Tell(c.change) != c.told {
			t.Errorf("%s: %s, want %s", s.Tell(c.change), got, c.want)
		}
		if after.Stage(c.change.Of) != s.Stage(c.change.Of)+1 || after.Head().N <= s.Head().N {
			t.Errorf("%s: no work was done", c.told)
		}
	}
	sameFindings(t, engine.Assess(s), before)
}

// A shell of an undersize takes half of it off the clearance and out of every
// reading of its bearing; a pair takes all of it.
func TestTrialOfShells(t *testing.T) {
	t.Parallel()
	s, before := complete(t)
	for _, c := range []struct {
		halves string
		size   string
		by     string
	}{{"upper", "0.0010", "-0.0005"}, {"lower", "-0.0010", "+0.0005"}, {"upper lower", "0.0010", "-0.0010"}} {
		var changes []engine.Change
		for _, half := range strings.Fields(c.halves) {
			changes = append(changes, change(t, engine.FitShell, "shell-main/3/"+half, c.size))
		}
		_, a, err := s.Trial(changes...)
		if err != nil {
			t.Fatal(err)
		}
		was, is := before.ClearancesOf(feature(t, "main-bearing/3")), a.ClearancesOf(feature(t, "main-bearing/3"))
		if got := is[0].Clearance.Judged.Sub(was[0].Clearance.Judged).FormatSigned(length.In, 4); got != c.by {
			t.Errorf("%s of %s: the clearance changes by %s, want %s", c.halves, c.size, got, c.by)
		}
	}
	// A shell that goes out again leaves what was there.
	there, back := change(t, engine.FitShell, "shell-main/3/upper", "0.0010"), change(t, engine.FitShell, "shell-main/3/upper", "0.0000")
	_, a, err := s.Trial(there, back)
	if err != nil || a.ClearancesOf(feature(t, "main-bearing/3"))[0].Clearance.Judged != before.ClearancesOf(feature(t, "main-bearing/3"))[0].Clearance.Judged {
		t.Errorf("in and out again: %v", err)
	}
}

// Honing opens the gaps of the rings in the bore by π times what it opens where
// they were measured: bore 2 is 3.75025 on the mean 4.0 in deep.
func TestHoningOpensTheGaps(t *testing.T) {
	t.Parallel()
	s, _ := complete(t)
	_, a, err := s.Trial(change(t, engine.Hone, "bore/2", "3.7512"))
	if err != nil {
		t.Fatal(err)
	}
	m, _ := a.Feature(feature(t, "ring-gap/2/top"))
	bore, _ := engine.Assess(s).Feature(feature(t, "bore/2"))
	middle, bottom := bore.Figures.Levels[1].Mean.Float(), bore.Figures.Levels[2].Mean.Float()
	at := middle + (bottom-middle)*0.75
	want := 0.0165*float64(length.Inch) + 3.141592653589793*(3.7512*float64(length.Inch)-at)
	if d := m.Figures.Mean.Float() - want; d > 2 || d < -2 {
		t.Errorf("the top gap is %s, %g pm from what it should be", m.Figures.Mean.Format(length.In, 6), d)
	}
	if other, _ := a.Feature(feature(t, "ring-gap/3/top")); other.Figures.Mean.Format(length.In, 4) != "0.0170" {
		t.Error("a gap in another bore opens too")
	}
}

func TestTrialRefusesWhatCannotBe(t *testing.T) {
	t.Parallel()
	s, _ := complete(t)
	for name, c := range map[string]struct {
		change engine.Change
		says   string
	}{
		"honing a journal": {change(t, engine.Hone, "main-journal/3", "2.7490"), "grind"},
		"grinding a bore":  {change(t, engine.Grind, "bore/3", "3.7512"), "it is not done to bores"},
		"no such bore":     {change(t, engine.Hone, "bore/9", "3.7512"), "the layout has 6 bores"},
		"below zero":       {change(t, engine.Hone, "bore/3", "-3.7512"), "is not above zero"},
		"a wall of none":   {change(t, engine.FitWall, "shell-main/3/upper", "0"), "is not above zero"},
		"a bore seated":    {engine.Change{Did: engine.Seat, Of: feature(t, "bore/3"), At: feature(t, "bore/2")}, "bores are no loose parts"},
		"nothing known":    {change(t, "bless", "bore/3", "1"), "it is not done"},
	} {
		_, _, err := s.Trial(c.change)
		if name == "honing a journal" {
			c.says = "it is not done to main journals"
		}
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, want %q", name, err, c.says)
		}
	}
}

// What is intended is read back as the change it was.
func TestChangesAndActions(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		w := length.Written{Length: length.Length(rapid.Int64Range(1, 1e6).Draw(t, "size")) * length.Inch / 10000, Unit: length.In, Places: 4}
		half := plan.Feature{Family: plan.ShellMain, At: 2, Part: plan.Upper}
		c := rapid.SampledFrom([]engine.Change{
			{Did: engine.Hone, Of: plan.Feature{Family: plan.Bore, At: 3}, Size: w},
			{Did: engine.File, Of: plan.Feature{Family: plan.RingGap, At: 3, Part: plan.Top}, Size: w},
			{Did: engine.FitShell, Of: half, Size: w},
			{Did: engine.FitWall, Of: half, Size: w},
			{Did: engine.Seat, Of: plan.Feature{Family: plan.Piston, At: 3}, At: plan.Feature{Family: plan.Bore, At: 1}},
		}).Draw(t, "change")
		if got, ok := engine.ChangeOf(c.Action()); !ok || got != c {
			t.Fatalf("%+v comes back as %+v", c, got)
		}
	})
	for _, a := range []record.Action{
		{Did: "wash", To: []plan.Feature{feature(t, "bore/1")}},
		{Did: engine.Hone, To: []plan.Feature{feature(t, "bore/1")}, Amount: "much"},
		{Did: engine.Seat, To: []plan.Feature{feature(t, "piston/1")}},
		{Did: engine.Hone},
	} {
		if c, ok := engine.ChangeOf(a); ok {
			t.Errorf("%+v is taken for %+v", a, c)
		}
	}
}

func TestExtraClearanceIsSaidSo(t *testing.T) {
	t.Parallel()
	s, _ := complete(t)
	for size, want := range map[string]string{
		"-0.0010": "fit upper main shell 3 of extra clearance 0.0010 in", "0.0000": "fit upper main shell 3 of standard size",
		"0.0020": "fit upper main shell 3 of 0.0020 in undersize",
	} {
		if got := s.Tell(change(t, engine.FitShell, "shell-main/3/upper", size)); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
