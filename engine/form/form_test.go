package form_test

import (
	"reflect"
	"testing"

	"pgregory.net/rapid"

	. "borewright/engine/form"
	"borewright/engine/length"
)

type fataler interface{ Fatal(...any) }

// at reads a length; "" is not measured.
func at(t fataler, text string) length.Exact {
	if text == "" {
		return length.Exact{}
	}
	w, err := length.Parse(text, length.NoUnit)
	if err != nil {
		t.Fatal(err)
	}
	return w.Exact()
}

// rows reads a grid of values in one unit, "" being not measured.
func rows(t fataler, unit string, text ...[]string) [][]length.Exact {
	out := make([][]length.Exact, len(text))
	for i, row := range text {
		for _, v := range row {
			if v != "" {
				v += " " + unit
			}
			out[i] = append(out[i], at(t, v))
		}
	}
	return out
}

// across and along are the directions of a bore read in two.
var acrossAlong = []int{90, 0}

// oneBore is a bore read 10, 45 and 90 mm deep along and across, with the rule
// of TM 9-6115-670-14&P p. 6-76; the readings are ours.
func oneBore(t fataler) Grid {
	return Grid{
		Depths: []length.Exact{at(t, "10 mm"), at(t, "45 mm"), at(t, "90 mm")},
		Angles: acrossAlong, Names: []string{"across", "along"}, LevelNames: []string{"top", "middle", "bottom"},
		Values: rows(t, "mm",
			[]string{"67.118", "67.075"},
			[]string{"67.060", "67.048"},
			[]string{"67.021", "67.015"}),
		TwoContact: true,
	}
}

// What was measured before moves no figure, and what comes after moves none that are
// out already.
func TestOneMeterForManyFeatures(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var m Meter
		var grids []Grid
		var got []Figures
		for range rapid.IntRange(2, 6).Draw(t, "features") {
			g := aGrid(t)
			grids, got = append(grids, g), append(got, m.Measure(g, length.Micrometre))
		}
		for i, g := range grids {
			if want := Measure(g, length.Micrometre); !reflect.DeepEqual(got[i], want) {
				t.Fatalf("feature %d of %d, %+v\ngave %+v\nand alone %+v", i+1, len(grids), g, got[i], want)
			}
		}
	})
}

// aGrid draws a grid of which some places were not read.
func aGrid(t *rapid.T) Grid {
	g := Grid{
		Angles:     rapid.SliceOfN(rapid.SampledFrom([]int{0, 45, 60, 90, 120, 135}), 1, 5).Draw(t, "angles"),
		TwoContact: rapid.Bool().Draw(t, "two contacts"),
	}
	for level := range rapid.IntRange(1, 4).Draw(t, "levels") {
		g.Depths = append(g.Depths, length.Of(length.Length(10+level*30)*length.Millimetre))
		row := make([]length.Exact, len(g.Angles))
		for i := range row {
			if rapid.IntRange(0, 4).Draw(t, "read") > 0 {
				row[i] = length.Of(67*length.Millimetre + length.Length(rapid.IntRange(0, 100).Draw(t, "over"))*length.Micrometre)
			}
		}
		g.Values = append(g.Values, row)
	}
	return g
}

// Four figures from one bore.
func TestOneBore(t *testing.T) {
	f := Measure(oneBore(t), length.Micrometre)
	for _, c := range []struct {
		name, want string
		got        length.Exact
	}{
		{"overall spread", "0.103 mm", f.Overall},
		{"out-of-round", "0.043 mm", f.OutOfRound},
		{"out-of-round, middle", "0.012 mm", f.Levels[1].OutOfRound},
		{"out-of-round, bottom", "0.006 mm", f.Levels[2].OutOfRound},
		{"taper, end to end", "0.097 mm", f.EndToEnd},
		{"taper across", "0.097 mm", f.Directions[0].EndToEnd},
		{"taper along", "0.060 mm", f.Directions[1].EndToEnd},
		{"taper, spread", "0.097 mm", f.Spread},
		{"spread along", "0.060 mm", f.Directions[1].Spread},
		{"smallest", "67.015 mm", f.Smallest},
		{"largest", "67.118 mm", f.Largest},
		{"across less along", "0.043 mm", f.Levels[0].AcrossLessAlong},
		{"smallest at the top", "67.075 mm", f.Levels[0].Smallest},
		{"largest at the top", "67.118 mm", f.Levels[0].Largest},
		{"mean at the top", "67.0965 mm", f.Levels[0].Mean},
	} {
		if c.got.Cmp(at(t, c.want)) != 0 {
			t.Errorf("%s %s mm, want %s", c.name, c.got.Format(length.MM, 6), c.want)
		}
	}
	if got := f.Mean.Format(length.MM, 6); got != "67.056167" {
		t.Errorf("mean %s", got)
	}
	if f.OutOfRoundLevel != 0 || f.EndToEndDir != 0 || f.SpreadDir != 0 || f.SlopeDir != 0 {
		t.Errorf("worst at level %d, directions %d %d %d", f.OutOfRoundLevel, f.EndToEndDir, f.SpreadDir, f.SlopeDir)
	}
	if f.Planned != 6 || f.Measured != 6 || f.Levels[0].Planned != 2 || f.Directions[0].Measured != 3 {
		t.Errorf("counted %d of %d", f.Measured, f.Planned)
	}
	if f.Shape.String() != "tapered, wider at top" {
		t.Error(f.Shape)
	}
}

// TM 9-6115-670-14&P p. 6-76: the spread of six readings may be 0.15 mm, which
// it prints as 0.0059 in; the bore is 67.000-67.019 mm (2.63779-2.63854 in).
func TestOverallSpread(t *testing.T) {
	g := oneBore(t)
	g.Values = rows(t, "mm", []string{"67.169", "67.100"}, []string{"67.060", "67.050"}, []string{"67.030", "67.019"})
	f := Measure(g, 0)
	if f.Overall != at(t, "0.15 mm") || f.Overall.Format(length.In, 4) != "0.0059" {
		t.Errorf("overall spread %s mm", f.Overall.Format(length.MM, 3))
	}
	if f.Smallest.Format(length.In, 5) != "2.63854" {
		t.Errorf("smallest %s in", f.Smallest.Format(length.In, 5))
	}
}

// What is missing takes with it only what rests on it.
func TestMissingReadings(t *testing.T) {
	top, middle, bottom := []string{"67.118", "67.075"}, []string{"67.060", "67.048"}, []string{"67.021", "67.015"}
	none := []string{"", ""}
	for _, c := range []struct {
		name                         string
		values                       [][]string
		round, end, spread, all      string
		roundLevel, endDir, measured int
		shape                        Profile
	}{
		{"nothing", [][]string{none, none, none}, "", "", "", "", -1, -1, 0, NoProfile},
		{"one reading", [][]string{{"67.1", ""}, none, none}, "", "", "", "", -1, -1, 1, NoProfile},
		{"one level", [][]string{none, middle, none}, "0.012", "", "", "0.012", 1, -1, 2, NoProfile},
		{"no last level", [][]string{top, middle, none}, "0.043", "", "0.058", "0.070", 0, -1, 4, NoProfile},
		{"no first level", [][]string{none, middle, bottom}, "0.012", "", "0.039", "0.045", 1, -1, 4, NoProfile},
		{"no middle", [][]string{top, none, bottom}, "0.043", "0.097", "0.097", "0.103", 0, 0, 4, Tapered},
		{"one end missing in a direction", [][]string{top, middle, {"", "67.015"}}, "0.043", "0.060", "0.060", "0.103", 0, 1, 5, Tapered},
		{"one direction", [][]string{{"67.118", ""}, {"67.060", ""}, {"67.021", ""}}, "", "0.097", "0.097", "0.097", -1, 0, 3, Tapered},
		{"a short row", [][]string{{"67.118"}, middle, bottom}, "0.012", "0.097", "0.097", "0.103", 1, 0, 5, Tapered},
		{"no common direction", [][]string{{"67.118", ""}, {"", "67.048"}, bottom}, "0.006", "0.097", "0.097", "0.103", 2, 0, 4, NoProfile},
	} {
		g := oneBore(t)
		g.Values = rows(t, "mm", c.values...)
		f := Measure(g, length.Micrometre)
		for name, pair := range map[string][2]string{
			"out-of-round": {f.OutOfRound.Format(length.MM, 3), c.round},
			"end to end":   {f.EndToEnd.Format(length.MM, 3), c.end},
			"spread":       {f.Spread.Format(length.MM, 3), c.spread},
			"overall":      {f.Overall.Format(length.MM, 3), c.all},
		} {
			if pair[0] != pair[1] {
				t.Errorf("%s: %s %q, want %q", c.name, name, pair[0], pair[1])
			}
		}
		if f.OutOfRoundLevel != c.roundLevel || f.EndToEndDir != c.endDir || f.Measured != c.measured || f.Planned != 6 {
			t.Errorf("%s: level %d, direction %d, measured %d of %d", c.name, f.OutOfRoundLevel, f.EndToEndDir, f.Measured, f.Planned)
		}
		if f.Shape.Profile != c.shape {
			t.Errorf("%s: %v", c.name, f.Shape)
		}
	}
}

func TestWorstDirectionKeepsItsSign(t *testing.T) {
	g := oneBore(t)
	g.Values = rows(t, "mm", []string{"67.010", "67.010"}, []string{"67.010", "67.010"}, []string{"67.000", "67.030"})
	f := Measure(g, 0)
	if f.EndToEndDir != 1 || f.EndToEnd.FormatSigned(length.MM, 3) != "-0.020" {
		t.Errorf("end to end %s in direction %d", f.EndToEnd.FormatSigned(length.MM, 3), f.EndToEndDir)
	}
	if f.SlopeDir != 1 || f.Slope <= 0 || f.SlopeTaper.Sign() >= 0 {
		t.Errorf("slope %v in direction %d is a taper of %v", f.Slope, f.SlopeDir, f.SlopeTaper)
	}
	if got := f.Levels[2].AcrossLessAlong.FormatSigned(length.MM, 3); got != "-0.030" {
		t.Errorf("across less along %s", got)
	}
}

func TestFirstOfEquals(t *testing.T) {
	g := oneBore(t)
	g.Values = rows(t, "mm", []string{"67.000", "67.020"}, []string{"67.020", "67.000"}, []string{"67.020", "67.000"})
	f := Measure(g, 0)
	if f.OutOfRoundLevel != 0 || f.EndToEndDir != 0 || f.SpreadDir != 0 || f.SlopeDir != 0 {
		t.Errorf("level %d, directions %d %d %d", f.OutOfRoundLevel, f.EndToEndDir, f.SpreadDir, f.SlopeDir)
	}
	if f.EndToEnd.Sign() > 0 || f.Slope < 0 {
		t.Errorf("end to end %v, slope %v", f.EndToEnd, f.Slope)
	}
}

// A three-contact head sees tapers and no ovals.
func TestThreeContacts(t *testing.T) {
	g := oneBore(t)
	g.TwoContact = false
	f := Measure(g, 0)
	if f.OutOfRound.Measured() || f.OutOfRoundLevel != -1 || f.Levels[0].AcrossLessAlong.Measured() {
		t.Errorf("out-of-round %v at level %d", f.OutOfRound, f.OutOfRoundLevel)
	}
	if fit := f.Levels[0].Fit; fit.Possible || fit.Why != "a three-contact head cannot see an oval" {
		t.Errorf("fit %+v", fit)
	}
	if f.EndToEnd != at(t, "0.097 mm") || f.Overall != at(t, "0.103 mm") {
		t.Errorf("end to end %v, overall %v", f.EndToEnd, f.Overall)
	}
}

func TestSameDirectionTwice(t *testing.T) {
	g := Grid{Angles: []int{0, 180}, Values: rows(t, "mm", []string{"67.1", "67.2"}), TwoContact: true}
	if f := Measure(g, 0); f.OutOfRound.Measured() {
		t.Errorf("0 and 180 give an out-of-round of %v", f.OutOfRound)
	}
}

func TestSlope(t *testing.T) {
	g := oneBore(t)
	g.Values = rows(t, "mm", []string{"67.100", ""}, []string{"67.065", ""}, []string{"67.020", "67.000"})
	f := Measure(g, 0)
	d := f.Directions[0]
	if !d.HasSlope || d.Slope < -0.001-1e-15 || d.Slope > -0.001+1e-15 {
		t.Errorf("slope %v, want -0.001", d.Slope)
	}
	if d.SlopeTaper != at(t, "0.080 mm") || f.SlopeTaper != d.SlopeTaper || f.SlopeDir != 0 {
		t.Errorf("slope taper %s mm", d.SlopeTaper.Format(length.MM, 9))
	}
	if one := f.Directions[1]; one.HasSlope || one.SlopeTaper.Measured() {
		t.Errorf("one reading has a slope: %+v", one)
	}
}

func TestSlopeWithoutDepths(t *testing.T) {
	for name, depths := range map[string][]length.Exact{
		"none":       nil,
		"only one":   {at(t, "10 mm")},
		"the same":   {at(t, "10 mm"), at(t, "10 mm"), at(t, "10 mm")},
		"unmeasured": {{}, {}, at(t, "90 mm")},
	} {
		g := oneBore(t)
		g.Depths = depths
		if f := Measure(g, 0); f.SlopeDir != -1 || f.Directions[0].HasSlope || f.SlopeTaper.Measured() {
			t.Errorf("%s: slope %v", name, f.Slope)
		}
	}
	g := oneBore(t)
	g.Depths[2] = length.Exact{}
	if f := Measure(g, 0); f.SlopeDir != 0 || f.SlopeTaper.Measured() {
		t.Errorf("without the last depth: direction %d, taper %v", f.SlopeDir, f.SlopeTaper)
	}
	steep := Grid{
		Depths: []length.Exact{length.Of(0), length.Of(1), length.Of(100 * length.Metre)}, Angles: []int{0},
		Values: [][]length.Exact{{length.Of(0)}, {length.Of(100 * length.Metre)}, {}},
	}
	if f := Measure(steep, 0); f.SlopeTaper.Measured() || !f.Directions[0].HasSlope {
		t.Errorf("a taper beyond every length: %v", f.SlopeTaper)
	}
}

func TestEmptyGrid(t *testing.T) {
	f := Measure(Grid{}, 0)
	if f.Planned != 0 || f.Measured != 0 || f.OutOfRoundLevel != -1 || f.EndToEndDir != -1 || f.SpreadDir != -1 || f.SlopeDir != -1 {
		t.Errorf("%+v", f)
	}
	if f.Smallest.Measured() || f.Mean.Measured() || f.Overall.Measured() || f.Shape.Profile != NoProfile {
		t.Errorf("%+v", f)
	}
}

// grids draws grids of up to 6 levels and 4 directions with some readings
// missing.
func grids() *rapid.Generator[Grid] {
	return rapid.Custom(func(t *rapid.T) Grid {
		g := Grid{TwoContact: true}
		g.Angles = [][]int{{90}, {90, 0}, {90, 30, 150}, {90, 45, 0, 135}}[rapid.IntRange(0, 3).Draw(t, "directions")]
		for i := range rapid.IntRange(1, 6).Draw(t, "levels") {
			g.Depths = append(g.Depths, length.Of(length.Length(20*i+10)*length.Millimetre))
			g.LevelNames = append(g.LevelNames, string(rune('a'+i)))
			row := make([]length.Exact, len(g.Angles))
			for k := range row {
				if rapid.IntRange(0, 9).Draw(t, "there") > 0 {
					n := rapid.IntRange(0, 40).Draw(t, "µm")
					row[k] = length.Of(67*length.Millimetre + length.Length(n)*length.Micrometre)
				}
			}
			g.Values = append(g.Values, row)
		}
		return g
	})
}

// A feature read bottom-up has its taper with the other sign, and the same
// figures otherwise.
func TestBottomUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := grids().Draw(t, "grid")
		down, up := Measure(g, 5*length.Micrometre), Measure(bottomUp(g), 5*length.Micrometre)
		for i, d := range down.Directions {
			u := up.Directions[i]
			if u.EndToEnd != d.EndToEnd.Neg() && d.EndToEnd.Measured() || u.EndToEnd.Measured() != d.EndToEnd.Measured() {
				t.Fatalf("end to end %v, bottom-up %v", d.EndToEnd, u.EndToEnd)
			}
			u.EndToEnd, u.Slope, u.SlopeTaper = d.EndToEnd, d.Slope, d.SlopeTaper
			if u != d {
				t.Fatalf("direction %+v, bottom-up %+v", d, u)
			}
		}
		last := len(g.Values) - 1
		for i, l := range down.Levels {
			if up.Levels[last-i] != l {
				t.Fatalf("level %+v, bottom-up %+v", l, up.Levels[last-i])
			}
		}
		if down.OutOfRound != up.OutOfRound || down.Spread != up.Spread || down.Overall != up.Overall || down.Mean != up.Mean {
			t.Fatalf("%+v, bottom-up %+v", down, up)
		}
		if down.EndToEnd.Abs() != up.EndToEnd.Abs() || down.EndToEndDir != up.EndToEndDir || down.Shape.String() != up.Shape.String() {
			t.Fatalf("%v, bottom-up %v", down.Shape, up.Shape)
		}
	})
}

func bottomUp(g Grid) Grid {
	out := Grid{Angles: g.Angles, TwoContact: g.TwoContact}
	for i := len(g.Values) - 1; i >= 0; i-- {
		out.Depths = append(out.Depths, g.Depths[i])
		out.LevelNames = append(out.LevelNames, g.LevelNames[i])
		out.Values = append(out.Values, g.Values[i])
	}
	return out
}

// Every figure lies where its definition puts it.
func TestFiguresBracket(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := Measure(grids().Draw(t, "grid"), 0)
		if f.Measured > 0 && (f.Smallest.Cmp(f.Mean) > 0 || f.Mean.Cmp(f.Largest) > 0) {
			t.Fatalf("mean %v of %v to %v", f.Mean, f.Smallest, f.Largest)
		}
		for _, d := range []length.Exact{f.OutOfRound, f.EndToEnd.Abs(), f.Spread} {
			if d.Cmp(f.Overall) > 0 {
				t.Fatalf("%v is more than the overall spread %v", d, f.Overall)
			}
		}
		if f.EndToEnd.Abs().Cmp(f.Spread) > 0 {
			t.Fatalf("end to end %v, spread %v", f.EndToEnd, f.Spread)
		}
		n := 0
		for _, l := range f.Levels {
			n += l.Measured
		}
		if n != f.Measured {
			t.Fatalf("%d measured, %d by level", f.Measured, n)
		}
	})
}
