package engine_test

import (
	"strings"
	"testing"

	"borewright/engine"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// remedies writes every remedy of a session, one a line.
func remedies(s *engine.Session) string {
	var out []string
	for _, r := range engine.Assess(s).Remedies(s) {
		out = append(out, r.Text)
	}
	return strings.Join(out, "\n")
}

func given(name, of, value string) record.Body {
	return record.Given{Name: name, Of: of, Value: value}
}

func ladder(of string, steps ...string) record.Body {
	t := record.Table{Name: record.Ladder, Of: of}
	for _, step := range steps {
		t.Rows = append(t.Rows, map[string]string{"name": strings.TrimLeft(step, "-"), "step": step + " in"})
	}
	return t
}

// one is a session of an inline engine of so many cylinders with readings.
func one(t *testing.T, cylinders int, limits []string, groups []plan.Group, reads map[string]string, more ...record.Body) *engine.Session {
	t.Helper()
	bodies := append(bareSession(t, plan.Default(plan.Inline, cylinders, false), limits, groups...), more...)
	for of, values := range reads {
		bodies = append(bodies, read(t, of, values)...)
	}
	return replay(t, bodies)
}

func TestBoresAreHonedOrBored(t *testing.T) {
	t.Parallel()
	limits := []string{"bore size 3.7500 3.7515", "bore out-of-round - 0.0005"}
	groups := []plan.Group{group(plan.Bore, 2, "across", "along")}
	oval := map[string]string{"bore/1": "a/across=3.7509 a/along=3.7501 b/across=3.7503 b/along=3.7502"}
	for name, c := range map[string]struct {
		reads map[string]string
		more  []record.Body
		want  string
	}{
		"to the target": {
			oval,
			[]record.Body{given(engine.GivenHoneTarget, "bore", "3.7513 in"), given(engine.GivenFinish, "bore", "0.0002 in")},
			"hone bore 1 to 3.7513 in: 0.0012 top, 0.0011 bottom to take, dwell at the top for 0.0001 in more than the least",
		},
		"past the target": {
			oval,
			[]record.Body{given(engine.GivenHoneTarget, "bore", "3.7508 in"), given(engine.GivenFinish, "bore", "0.0002 in")},
			"hone bore 1 to 3.7511 in: 0.0010 top, 0.0009 bottom to take, dwell at the top for 0.0001 in more than the least; 3.7508 in is no more to be reached",
		},
		"no target, no allowance": {oval, nil, "hone bore 1 to 3.7509 in: 0.0008 top, 0.0007 bottom to take, dwell at the top for 0.0001 in more than the least; no hone target is given; no finish allowance is given: none is taken"},
		"half read":               {map[string]string{"bore/1": "a/across=3.7509 a/along=3.7501"}, nil, "2 of its 4 places are not read"},
		"lost, no ladder": {
			map[string]string{"bore/2": "a/across=3.7532 a/along=3.7520"},
			nil,
			"bore oversize: bore 2 is 3.7532 in at its largest; no ladder is given for bores; no rebore stock is given: what it takes to clean up is not counted",
		},
		"lost": {
			map[string]string{"bore/1": "a/across=3.7502", "bore/2": "a/across=3.7532 a/along=3.7520"},
			[]record.Body{ladder("bore", "0.0400", "0.0200"), given(engine.GivenReboreStock, "", "0.0050 in")},
			"bore all 2 bores to the 0.0200 oversize, 3.7700 to 3.7715 in: bore 2 is 3.7532 in at its largest and takes 0.0050 in to clean up; pistons and rings follow",
		},
		"lost for the first step": {
			map[string]string{"bore/2": "a/across=3.7672 a/along=3.7520"},
			[]record.Body{ladder("bore", "0.0400", "0.0200"), given(engine.GivenReboreStock, "", "0.0050 in")},
			"to the 0.0400 oversize, 3.7900 to 3.7915 in",
		},
		"lost for good": {
			map[string]string{"bore/2": "a/across=3.7972 a/along=3.7520"},
			[]record.Body{ladder("bore", "0.0400")},
			"fit liners or another block: bore 2 is 3.7972 in at its largest, more than any oversize of the ladder",
		},
	} {
		if got := remedies(one(t, 2, limits, groups, c.reads, c.more...)); !strings.Contains(got, c.want) {
			t.Errorf("%s:\n%s\nwant\n%s", name, got, c.want)
		}
	}
	only := []string{"bore out-of-round - 0.0005"}
	if got := remedies(one(t, 2, only, groups, oval)); !strings.Contains(got, "hone bore 1 to 3.7509 in") {
		t.Errorf("without limits of the size:\n%s", got)
	}
}

// TM 5-3805-262-34 p. 4-23: mains of 2.998-2.999, ground to 2.988-2.989 and so
// on, all if one; stock and journals ours.
func TestJournalsAreGroundAlike(t *testing.T) {
	t.Parallel()
	limits := []string{"main-journal size 2.9980 2.9990", "main-journal taper - 0.0005"}
	groups := []plan.Group{group(plan.MainJournal, 2, "vertical")}
	under := ladder("main-journal", "-0.0100", "-0.0200", "-0.0300")
	halves := record.Table{Name: record.Shells, Of: "shell-main", Rows: []map[string]string{{"undersize": "0.0100 in", "count": "4"}, {"undersize": "0.0200 in", "count": "1"}}}
	for name, c := range map[string]struct {
		reads map[string]string
		more  []record.Body
		want  string
	}{
		"worn": {
			map[string]string{"main-journal/1": "a/vertical=2.9975 b/vertical=2.9976", "main-journal/2": "a/vertical=2.9985"},
			[]record.Body{under, halves, given(engine.GivenGrindStock, "main-journal", "0.0020 in")},
			"grind all 2 main journals to the 0.0100 undersize, 2.9880 to 2.9890 in: main journal 1 is 2.9975 in at its smallest and takes 0.0020 in to clean up; 4 halves of that undersize follow, 4 are on hand",
		},
		"deeply": {
			map[string]string{"main-journal/2": "a/vertical=2.9885 b/vertical=2.9880"},
			[]record.Body{under, halves},
			"grind all 2 main journals to the 0.0200 undersize, 2.9780 to 2.9790 in: main journal 2 is 2.9880 in at its smallest; 4 halves of that undersize follow, 1 is on hand; no grinding stock is given: what it takes to clean up is not counted",
		},
		"no ladder": {map[string]string{"main-journal/2": "a/vertical=2.9971"}, nil, "grind undersize: main journal 2 is 2.9971 in at its smallest"},
		"too far":   {map[string]string{"main-journal/2": "a/vertical=2.9600"}, []record.Body{under}, "another crank: main journal 2 is 2.9600 in at its smallest"},
		"too large": {
			map[string]string{"main-journal/2": "a/vertical=2.9992 b/vertical=2.9989"},
			nil,
			"polish or grind main journal 2 to 2.9990 in, 0.0002 in off where it is largest",
		},
		"tapered": {map[string]string{"main-journal/2": "a/vertical=2.9990 b/vertical=2.9981"}, []record.Body{under}, "grind all 2 main journals to the 0.0100 undersize"},
	} {
		if got := remedies(one(t, 1, limits, groups, c.reads, c.more...)); !strings.Contains(got, c.want) {
			t.Errorf("%s:\n%s\nwant\n%s", name, got, c.want)
		}
	}
	if got := remedies(one(t, 1, limits[1:], groups, map[string]string{"main-journal/2": "a/vertical=2.9990 b/vertical=2.9981"}, under)); !strings.Contains(got, "no new limits of the size of main journals are given") {
		t.Errorf("without limits of the size:\n%s", got)
	}
}

func TestPistonsAreMovedOrNeeded(t *testing.T) {
	t.Parallel()
	limits := clearanceLimit(t)
	for name, c := range map[string]struct {
		s    *engine.Session
		want string
	}{
		"moved":     {pistons(t, []int{0, 20}, []int{20, 0}, limits), "move piston 2 to bore 1, piston 1 to bore 2: outside 2 to 0, worst margin used 2.00 to 0.00"},
		"too loose": {pistons(t, []int{30}, []int{10}, limits), "no piston here fits bore 1: it takes one that is 0.0010 to 0.0030 in larger"},
		"missing":   {pistons(t, []int{30, 0}, []int{10, -1}, limits), "no piston here fits bore 1: it takes one that is 0.0010 to 0.0030 in larger; piston 2 is not measured"},
	} {
		if got := remedies(c.s); !strings.Contains(got, c.want) {
			t.Errorf("%s:\n%s\nwant\n%s", name, got, c.want)
		}
	}
	// A tight bore can be honed as well as given a smaller piston.
	if got := remedies(pistons(t, []int{0}, []int{20}, limits)); !strings.Contains(got, "no piston here fits bore 1: it takes one that is 0.0010 to 0.0030 in smaller") {
		t.Errorf("too tight:\n%s", got)
	}
	if got := remedies(pistons(t, []int{0}, []int{20}, limits, given(engine.GivenHoneTarget, "bore", "3.7015 in"))); !strings.Contains(got, "hone bore 1 to 3.7015 in: 0.0015 middle to take") {
		t.Errorf("too tight, with a target:\n%s", got)
	}
}

func TestTheRemediesOfWhatStandsAlone(t *testing.T) {
	t.Parallel()
	point := func(f plan.Family, levels int) []plan.Group { return []plan.Group{group(f, levels, plan.Once)} }
	for name, c := range map[string]struct {
		limits []string
		groups []plan.Group
		reads  map[string]string
		more   []record.Body
		want   string
	}{
		"low gap":         {[]string{"ring-gap end_gap 0.0160 -"}, point(plan.RingGap, 1), map[string]string{"ring-gap/1/top": "a/once=0.0140"}, nil, "file top ring 1 to a gap of 0.0160 in: 0.0020 in to take; the bore of top ring gap 1 is not measured: its gap is as read"},
		"wide gap":        {[]string{"ring-gap end_gap 0.0160 0.0300"}, point(plan.RingGap, 1), map[string]string{"ring-gap/1/top": "a/once=0.0320"}, nil, "replace top ring 1: its gap is 0.0020 in over, and a gap is not closed"},
		"both sides":      {[]string{"ring-gap end_gap 0.0160 0.0200"}, point(plan.RingGap, 1), map[string]string{"ring-gap/1/top": "a/once=0.0140"}, nil, "file top ring 1 to a gap of 0.0180 in: 0.0040 in to take"},
		"end play":        {[]string{"end-play end_play 0.0040 0.0150"}, point(plan.EndPlay, 1), map[string]string{"end-play/1": "a/once=0.0220"}, []record.Body{ladder("end-play", "0.0025", "0.0050")}, "fit thrust washers 0.0050 and 0.0050, 0.0100 in thicker in all: end play 0.0220 to 0.0120 in"},
		"no washers":      {[]string{"end-play end_play 0.0040 0.0150"}, point(plan.EndPlay, 1), map[string]string{"end-play/1": "a/once=0.0220"}, nil, "thicker thrust washers: the end play needs 0.0070 to 0.0180 in less; no ladder is given for end play"},
		"washers no use":  {[]string{"end-play end_play 0.0040 0.0150"}, point(plan.EndPlay, 1), map[string]string{"end-play/1": "a/once=0.0420"}, []record.Body{ladder("end-play", "0.0025")}, "thicker thrust washers: the end play needs 0.0270 to 0.0380 in less"},
		"little play":     {[]string{"end-play end_play 0.0040 0.0150"}, point(plan.EndPlay, 1), map[string]string{"end-play/1": "a/once=0.0020"}, nil, "thinner thrust washers, or the flange faced: the end play needs 0.0020 to 0.0130 in more"},
		"rod side":        {[]string{"rod-side side_clearance 0.0060 0.0140"}, point(plan.RodSide, 1), map[string]string{"rod-side/1": "a/once=0.0040"}, nil, "take 0.0020 to 0.0100 in off the sides of the rod at journal 1"},
		"rod side wide":   {[]string{"rod-side side_clearance 0.0060 0.0140"}, point(plan.RodSide, 1), map[string]string{"rod-side/1": "a/once=0.0150"}, nil, "wider rods or another crank: rod side clearance at journal 1 needs 0.0010 to 0.0090 in less"},
		"ring side":       {[]string{"ring-side side_clearance 0.0015 0.0040"}, point(plan.RingSide, 1), map[string]string{"ring-side/1/top": "a/once=0.0060"}, nil, "another piston or a thicker ring: top ring side clearance 1 needs 0.0020 to 0.0045 in less"},
		"ring side tight": {[]string{"ring-side side_clearance 0.0015 -"}, point(plan.RingSide, 1), map[string]string{"ring-side/1/top": "a/once=0.0010"}, nil, "another ring or a wider groove: top ring side clearance 1 needs 0.0005 in more at least"},
		"deck":            {[]string{"deck deck_clearance -0.0050 0.0200"}, point(plan.Deck, 1), map[string]string{"deck/1": "a/once=0.0230"}, nil, "deck the block: 0.0030 to 0.0280 in less over cylinder 1"},
		"proud":           {[]string{"deck deck_clearance -0.0050 0.0200"}, point(plan.Deck, 1), map[string]string{"deck/1": "a/once=-0.0060"}, nil, "deck clearance of cylinder 1 needs 0.0010 to 0.0260 in more: a thicker gasket"},
		"liner":           {[]string{"liner protrusion 0.0020 0.0060"}, point(plan.Liner, 1), map[string]string{"liner/1": "a/once=0.0010"}, nil, "bring liner protrusion of cylinder 1 to 0.0040 in with shims or a deeper seat: +0.0030 in"},
		"bent":            {[]string{"runout runout - 0.0030"}, point(plan.Runout, 2), map[string]string{"runout/2": "a/once=0.0000 b/once=0.0050"}, nil, "the crank is bent 0.0025 in at main journal 2, half the total reading: straighten or grind it"},
		"flat":            {[]string{"flatness flatness - 0.0030"}, point(plan.Flatness, 1), map[string]string{"flatness/1": "a/once=0.0040"}, nil, "surface the deck flatness of bank 1: at least 0.0040 in comes off"},
		"wall":            {[]string{"shell-main wall 0.1240 0.1245"}, point(plan.ShellMain, 1), map[string]string{"shell-main/1/upper": "a/once=0.1238"}, nil, "another shell for the upper main shell 1: its wall needs 0.0002 to 0.0007 in more"},
		"cam": {
			[]string{"cam-bearing clearance 0.0010 0.0030"},
			[]plan.Group{group(plan.CamBearing, 1, "vertical"), group(plan.CamJournal, 1, "vertical")},
			map[string]string{"cam-bearing/1": "a/vertical=2.0005", "cam-journal/1": "a/vertical=2.0000"},
			nil, "cam bearing 1 needs 0.0005 to 0.0025 in more clearance",
		},
		"pin":        {[]string{"piston-pin size 0.9000 0.9002"}, []plan.Group{group(plan.PistonPin, 1, "vertical")}, map[string]string{"piston-pin/1": "a/vertical=0.8998"}, nil, "piston pin 1 needs to be 0.0002 to 0.0004 in more"},
		"lifter":     {[]string{"lifter out-of-round - 0.0003"}, []plan.Group{group(plan.Lifter, 1, "vertical", "horizontal")}, map[string]string{"lifter/1": "a/vertical=0.8998 a/horizontal=0.8994"}, nil, "lifter 1: true it up or replace it, 0.0001 in less"},
		"liner step": {[]string{"liner step_to_the_next - 0.0010"}, point(plan.Liner, 1), map[string]string{"liner/1": "a/once=0.0010", "liner/2": "a/once=0.0030"}, nil, "bring liner protrusion of cylinder 1 and liner protrusion of cylinder 2 nearer by 0.0010 in"},
	} {
		if got := remedies(one(t, 2, c.limits, c.groups, c.reads, c.more...)); !strings.Contains(got, c.want) {
			t.Errorf("%s:\n%s\nwant\n%s", name, got, c.want)
		}
	}
}

// Two rods on one journal share its side clearance.
func TestRodsSideBySideShareTheirClearance(t *testing.T) {
	t.Parallel()
	bodies := bareSession(t, plan.Default(plan.Vee, 8, true), []string{"rod-side side_clearance 0.0060 0.0140"}, group(plan.RodSide, 1, plan.Once))
	s := replay(t, append(bodies, read(t, "rod-side/2", "a/once=0.0040")...))
	if got := remedies(s); got != "take 0.0020 to 0.0100 in off the sides of the 2 rods at journal 2 together" {
		t.Errorf("%s", got)
	}
}

// What rests on a zero that is not believed is measured again before any metal
// is taken off.
func TestDoubtfulReadingsAreTakenAgainFirst(t *testing.T) {
	t.Parallel()
	s, a := complete(t)
	if !strings.Contains(remedies(s), "hone bore 2") {
		t.Fatal(remedies(s))
	}
	s = after(t, s, record.Zero{Set: "t-large", Keyed: "+3", Deviation: inch(t, "0.0003")})
	got := remedies(s)
	if strings.Contains(got, "hone") || !strings.Contains(got, "measure again first, 36 places: the gauge's zero could not be believed") {
		t.Errorf("after a bad zero check:\n%s", got)
	}
	if len(a.Remedies(s)) == 0 {
		t.Error("nothing is asked for")
	}
}

func TestSelectionLadder(t *testing.T) {
	t.Parallel()
	sizes := record.Table{Name: record.Ladder, Of: "piston", Rows: []map[string]string{
		{"name": "A", "low": "4.6260 in", "high": "4.6275 in"}, {"name": "B", "low": "4.6270 in", "high": "4.6285 in"}, {"name": "broken", "low": "x", "high": "y"},
	}}
	s := one(t, 1, nil, []plan.Group{group(plan.Bore, 1, "across")}, nil, sizes)
	for y, want := range map[string]string{"4.6265": "A fits", "4.6272": "A and B both fit", "4.6290": "not covered by the table"} {
		if fits, ok := s.Sizes(plan.Piston, inch(t, y).Exact()); !ok || fits.String() != want {
			t.Errorf("%s: %s, want %s", y, fits, want)
		}
	}
	if _, ok := s.Sizes(plan.Bore, inch(t, "4.6265").Exact()); ok {
		t.Error("bores select from no ladder")
	}
}
