package fit_test

import (
	"testing"

	. "borewright/engine/fit"
	"borewright/engine/length"
)

type fataler interface{ Fatal(...any) }

// at reads a length in inches; "" is not measured.
func at(t fataler, text string) length.Exact {
	if text == "" {
		return length.Exact{}
	}
	w, err := length.Parse(text, length.In)
	if err != nil {
		t.Fatal(err)
	}
	return w.Exact()
}

// from reads a range in inches.
func from(t fataler, low, high string) Range {
	return Range{Low: at(t, low).Round(), High: at(t, high).Round()}
}

// in writes figures in inches, 4 decimals.
func in(e length.Exact) string { return e.Format(length.In, 4) }

// levels reads [level][direction] in inches.
func levels(t fataler, text ...[]string) [][]length.Exact {
	out := make([][]length.Exact, len(text))
	for i, row := range text {
		for _, v := range row {
			out[i] = append(out[i], at(t, v))
		}
	}
	return out
}

// Diametral clearance from one reading each: journal 1.125, bearing 1.1273
// (CORD, Infusing Mathematics into Automotive Technology, engine repair, which
// prints half of it, 0.00115, unlabelled).
func TestOneReadingEach(t *testing.T) {
	c := Between(levels(t, []string{"1.1273"}), levels(t, []string{"1.125"}), "")
	if in(c.Judged) != "0.0023" || c.By != SmallestLargest || c.Level != 0 || c.Bound {
		t.Errorf("%+v", c)
	}
	if c.Tightest != c.Loosest || c.Mean != c.Tightest {
		t.Errorf("one reading each makes %+v", c)
	}
}

// Bearing 2.7195 2.7197 2.7199, journal 2.7162 2.7164 2.7160 2.7166. Smallest -
// mean: TM 10-3930-660-34 p. 3-101; smallest - smallest: TM 5-3895-370-14&P
// p. 5-272; readings ours.
func TestDefinitions(t *testing.T) {
	bearing := levels(t, []string{"2.7195", "2.7197", "2.7199"})
	journal := levels(t, []string{"2.7162", "2.7164", "2.7160", "2.7166"})
	for by, want := range map[Definition]string{
		SmallestLargest: "0.0029", SmallestMean: "0.0032", SmallestSmallest: "0.0035", MeanMean: "0.0034",
	} {
		c := Between(bearing, journal, by)
		if in(c.Judged) != want || c.By != by {
			t.Errorf("%s: %s, want %s", by, in(c.Judged), want)
		}
		if in(c.Tightest) != "0.0029" || in(c.Mean) != "0.0034" || in(c.Loosest) != "0.0039" {
			t.Errorf("%s: %s, %s, %s", by, in(c.Tightest), in(c.Mean), in(c.Loosest))
		}
	}
	// Exactly on a limit of 0.0035, not a hair above it.
	if c := Between(bearing, journal, SmallestSmallest); c.Judged.Cmp(at(t, "0.0035")) != 0 {
		t.Errorf("smallest - smallest %v", c.Judged)
	}
	if c := Between(bearing, journal, "largest - largest"); c.Judged.Measured() || c.Level != -1 || !c.Tightest.Measured() {
		t.Errorf("an unknown definition judges %+v", c)
	}
}

func TestLevelByLevel(t *testing.T) {
	bearing := levels(t, []string{"2.0020", "2.0022"}, []string{"2.0030", ""}, []string{"2.0026", "2.0028"})
	journal := levels(t, []string{"1.9990", "1.9991"}, []string{"2.0005", "2.0003"}, []string{"1.9989", "1.9990"})
	c := Between(bearing, journal, SmallestLargest)
	if c.Bound || len(c.ByLevel) != 3 || c.Level != 1 {
		t.Fatalf("%+v", c)
	}
	if in(c.Tightest) != "0.0025" || in(c.Judged) != "0.0025" || in(c.Loosest) != "0.0039" {
		t.Errorf("%s, judged %s, %s", in(c.Tightest), in(c.Judged), in(c.Loosest))
	}
	if in(c.ByLevel[0].Tightest) != "0.0029" || in(c.ByLevel[2].Loosest) != "0.0039" || in(c.ByLevel[1].Mean) != "0.0026" {
		t.Errorf("%+v", c.ByLevel)
	}
	if got := c.JudgedLevels(); len(got) != 3 || in(got[0]) != "0.0029" || in(got[1]) != "0.0025" || in(got[2]) != "0.0036" {
		t.Errorf("judged by level %v", got)
	}
}

// What is read in one part alone makes no clearance there.
func TestHalfMeasured(t *testing.T) {
	none := []string{"", ""}
	hole := levels(t, []string{"2.0020", "2.0022"}, []string{"2.0010", "2.0012"}, none)
	c := Between(hole, levels(t, []string{"1.9990", ""}, none, []string{"1.9980", ""}), SmallestLargest)
	if c.Bound || c.Level != 0 || in(c.Judged) != "0.0030" || c.ByLevel[1].Judged.Measured() || c.ByLevel[2].Mean.Measured() {
		t.Errorf("%+v", c)
	}
	// No level is read in both, so there are only bounds.
	c = Between(hole, levels(t, none, none, []string{"1.9980", "1.9982"}), SmallestLargest)
	if !c.Bound || c.Level != -1 || c.ByLevel != nil || in(c.Tightest) != "0.0028" || in(c.Loosest) != "0.0042" {
		t.Errorf("%+v", c)
	}
	if got := c.JudgedLevels(); len(got) != 1 || got[0] != c.Judged {
		t.Errorf("a bound judges %v", got)
	}
}

func TestNotMeasured(t *testing.T) {
	hole := levels(t, []string{"2.0020"}, []string{"2.0010"})
	for name, c := range map[string]Clearance{
		"no shaft readings": Between(hole, levels(t, []string{""}, []string{""}), ""),
		"no shaft":          Between(hole, nil, ""),
		"no skirt reading":  Between(hole, levels(t, []string{""}), ""),
		"no hole":           Between(nil, levels(t, []string{"2.0"}), ""),
		"neither":           Between(nil, nil, ""),
	} {
		if c.Tightest.Measured() || c.Mean.Measured() || c.Loosest.Measured() || c.Judged.Measured() || c.Bound || c.Level != -1 {
			t.Errorf("%s: %+v", name, c)
		}
		if len(c.JudgedLevels()) != 0 {
			t.Errorf("%s: judges %v", name, c.JudgedLevels())
		}
	}
}

// A piston's skirt, read at one height, passes every level of its bore.
func TestSkirt(t *testing.T) {
	bore := levels(t, []string{"4.2511", "4.2509"}, []string{"4.2500", "4.2501"}, []string{"4.2503", "4.2504"})
	c := Between(bore, levels(t, []string{"4.2445"}), "")
	if c.Bound || c.Level != 1 || in(c.Judged) != "0.0055" || in(c.Tightest) != "0.0055" || in(c.Loosest) != "0.0066" {
		t.Errorf("%+v", c)
	}
	if in(c.ByLevel[0].Judged) != "0.0064" || len(c.ByLevel) != 3 {
		t.Errorf("%+v", c.ByLevel)
	}
}

func TestTightestOfEqualLevels(t *testing.T) {
	c := Between(levels(t, []string{"2.0012"}, []string{"2.0010"}, []string{"2.0010"}), levels(t, []string{"1.9990"}), "")
	if c.Level != 1 {
		t.Errorf("level %d, want the first of equals", c.Level)
	}
}

// Different numbers of levels say nothing of which meets which.
func TestBound(t *testing.T) {
	for name, shaft := range map[string][][]length.Exact{
		"two of three levels": levels(t, []string{"1.9990"}, []string{"1.9980"}),
		"more levels":         levels(t, []string{"1.9990"}, []string{"1.9980"}, []string{"1.9985"}, []string{"1.9981"}),
	} {
		c := Between(levels(t, []string{"2.0010"}, []string{"2.0014"}, []string{"2.0020"}), shaft, SmallestSmallest)
		if !c.Bound || c.Level != -1 || in(c.Tightest) != "0.0020" || in(c.Loosest) != "0.0040" || in(c.Judged) != "0.0030" {
			t.Errorf("%s: %+v", name, c)
		}
	}
	if c := Between(levels(t, []string{"2.0010"}), levels(t, []string{"1.9990"}, []string{"1.9980"}), ""); !c.Bound {
		t.Errorf("a hole of one level: %+v", c)
	}
}

// TM 5-6115-593-34: adjacent mains differ by at most 0.001 in clearance;
// clearances ours.
func TestNeighbours(t *testing.T) {
	for _, c := range []struct {
		name string
		text []string
		most string
		at   int
	}{
		{"each way", []string{"0.0020", "0.0030", "0.0019", "0.0024"}, "0.0011", 1},
		{"the first of equals", []string{"0.0020", "0.0030", "0.0020"}, "0.0010", 0},
		{"across a gap", []string{"0.0020", "", "0.0050", "0.0052"}, "0.0002", 2},
		{"none", []string{"0.0020", "", "0.0050"}, "", -1},
		{"alone", []string{"0.0020"}, "", -1},
	} {
		most, i := MostBetweenNeighbours(levels(t, c.text)[0])
		if in(most) != c.most || i != c.at {
			t.Errorf("%s: %s at %d, want %s at %d", c.name, in(most), i, c.most, c.at)
		}
	}
}
