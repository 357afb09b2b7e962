package engine_test

import (
	"slices"
	"strings"
	"testing"

	"borewright/engine"
	"borewright/engine/enginetest"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
)

func feature(t *testing.T, text string) plan.Feature {
	t.Helper()
	f, err := plan.ParseFeature(text)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func inch(t *testing.T, text string) length.Written {
	t.Helper()
	w, err := length.Parse(text, length.In)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// read makes readings of a feature: "a/vertical=2.1000 b/vertical=2.0998".
func read(t *testing.T, of, values string) []record.Body {
	t.Helper()
	var out []record.Body
	for _, v := range strings.Fields(values) {
		place, size, _ := strings.Cut(v, "=")
		level, dir, _ := strings.Cut(place, "/")
		out = append(out, record.Reading{
			Of: feature(t, of), Level: level, Dir: dir, Keyed: size, Via: record.ViaFile,
			Size: inch(t, size), As: record.First,
		})
	}
	return out
}

func group(f plan.Family, levels int, dirs ...string) plan.Group {
	return plan.Group{Family: f, Levels: plan.Grid(f, levels), Directions: dirs}
}

// bareSession is a session of a layout with a plan and limits on clearance.
func bareSession(t *testing.T, l plan.Layout, limits []string, groups ...plan.Group) []record.Body {
	t.Helper()
	out := []record.Body{
		record.Details{UID: "x", Title: "x", Unit: length.In},
		record.Layout{Layout: l},
		record.Plan{Plan: plan.Plan{Families: groups}},
	}
	for _, text := range limits {
		f := strings.Fields(text)
		x := limit.Limits{On: limit.Characteristic(strings.ReplaceAll(f[1], "_", " ")), Of: f[0]}
		if f[2] != "-" {
			x.New.Low = inch(t, f[2])
		}
		if f[3] != "-" {
			x.New.High = inch(t, f[3])
		}
		out = append(out, record.Limit{Limits: x})
	}
	return out
}

func texts(a *engine.Assessment) string {
	var out []string
	for _, f := range a.Findings {
		out = append(out, f.Judgement.Verdict.String()+": "+f.Text)
	}
	return strings.Join(out, "\n")
}

func want(t *testing.T, got string, lines ...string) {
	t.Helper()
	for _, line := range lines {
		if !strings.Contains(got, line) {
			t.Errorf("missing %q in\n%s", line, got)
		}
	}
}

func TestTwoRodsOnATaperedSharedJournal(t *testing.T) {
	layout := plan.Default(plan.Vee, 8, true)
	journal := group(plan.RodJournal, 4, "vertical")
	for i, half := range []string{plan.FrontHalf, plan.FrontHalf, plan.RearHalf, plan.RearHalf} {
		journal.Levels[i].Half = half
	}
	bodies := bareSession(t, layout, []string{"rod-bearing clearance 0.0015 0.0030"}, group(plan.RodBearing, 2, "vertical"), journal)
	bodies = append(bodies, read(t, "rod-bearing/1", "a/vertical=2.1020 b/vertical=2.1020")...)
	bodies = append(bodies, read(t, "rod-bearing/5", "a/vertical=2.1020 b/vertical=2.1020")...)
	bodies = append(bodies, read(t, "rod-journal/1", "a/vertical=2.1000 b/vertical=2.0998 c/vertical=2.0990 d/vertical=2.0988")...)
	a := engine.Assess(replay(t, bodies))
	want(t, texts(a),
		"outside: rod bearing 5, rear: clearance 0.0032, too loose: at most 0.0030 in",
		"inside: rod bearing 1, front: clearance 0.0020, 0.0015 to 0.0030 in")
	if a.Cylinders[0].At != 5 {
		t.Errorf("the worst cylinder is %d, want 5", a.Cylinders[0].At)
	}
}

func TestAMiddleLevelCountsForBothHalves(t *testing.T) {
	journal := group(plan.RodJournal, 3, "vertical")
	journal.Levels[0].Half, journal.Levels[2].Half = plan.FrontHalf, plan.RearHalf
	bodies := bareSession(t, plan.Default(plan.Vee, 8, true), nil, group(plan.RodBearing, 2, "vertical"), journal)
	for _, rod := range []string{"rod-bearing/1", "rod-bearing/5"} {
		bodies = append(bodies, read(t, rod, "a/vertical=2.1020 b/vertical=2.1020")...)
	}
	bodies = append(bodies, read(t, "rod-journal/1", "a/vertical=2.1000 b/vertical=2.0996 c/vertical=2.0990")...)
	a := engine.Assess(replay(t, bodies))
	for rod, tightest := range map[string]string{"rod-bearing/1": "0.0020", "rod-bearing/5": "0.0024"} {
		c := a.ClearancesOf(feature(t, rod))
		if len(c) != 1 || c[0].Clearance.Tightest.Format(length.In, 4) != tightest {
			t.Errorf("%s: %+v, want tightest %s", rod, c, tightest)
		}
	}
}

func TestASharedJournalCountsForBothCylinders(t *testing.T) {
	bodies := bareSession(t, plan.Default(plan.Vee, 8, true), []string{"rod-journal taper - 0.0003"}, group(plan.RodJournal, 2, "vertical"))
	bodies = append(bodies, read(t, "rod-journal/2", "a/vertical=2.1000 b/vertical=2.0990")...)
	a := engine.Assess(replay(t, bodies))
	var worst []int
	for _, r := range a.Cylinders[:2] {
		if f, ok := r.Worst(); ok && f.Judgement.Verdict == limit.Outside {
			worst = append(worst, r.At)
		}
	}
	slices.Sort(worst)
	if !slices.Equal(worst, []int{2, 6}) {
		t.Errorf("journal 2 makes cylinders %v worst, want 2 and 6", worst)
	}
}

func TestClearanceFromPartsAndItsDifference(t *testing.T) {
	bodies := bareSession(t, plan.Default(plan.Inline, 1, false), []string{"main-bearing clearance 0.0010 0.0030"},
		group(plan.MainHousing, 1, "vertical", "horizontal"), group(plan.ShellMain, 1, plan.Once),
		group(plan.MainJournal, 1, "vertical"), group(plan.MainBearing, 1, "vertical"))
	bodies = append(bodies, read(t, "main-housing/1", "a/vertical=2.2500 a/horizontal=2.2490")...)
	bodies = append(bodies, read(t, "shell-main/1/upper", "a/once=0.1240")...)
	bodies = append(bodies, read(t, "shell-main/1/lower", "a/once=0.1240")...)
	bodies = append(bodies, read(t, "main-journal/1", "a/vertical=2.0000")...)
	want(t, texts(engine.Assess(replay(t, bodies))), "inside: main bearing 1, middle: clearance 0.0020, 0.0010 to 0.0030 in")

	bodies = append(bodies, read(t, "main-bearing/1", "a/vertical=2.0009")...)
	a := engine.Assess(replay(t, bodies))
	want(t, texts(a), "outside: main bearing 1, middle: clearance 0.0009, too tight: at least 0.0010 in")
	fits := a.ClearancesOf(feature(t, "main-journal/1"))
	if len(fits) != 2 || !fits[1].FromParts || fits[1].Difference.FormatSigned(length.In, 4) != "-0.0011" {
		t.Errorf("clearances %+v, want the second from parts and a difference of -0.0011", fits)
	}
}

// Whether a bearing is read assembled, from its parts, in both ways or in none,
// its clearance is one finding, kept up as each reading comes.
func TestABearingsClearanceIsFoundOnce(t *testing.T) {
	t.Parallel()
	s := replay(t, bareSession(t, plan.Default(plan.Inline, 1, false), []string{"main-bearing clearance 0.0010 0.0030"},
		group(plan.MainHousing, 1, "vertical", "horizontal"), group(plan.ShellMain, 1, plan.Once),
		group(plan.MainJournal, 1, "vertical"), group(plan.MainBearing, 1, "vertical")))
	a := engine.Assess(s)
	for _, step := range []struct{ of, values, says string }{
		{"main-housing/1", "a/vertical=2.2500 a/horizontal=2.2490", "clearance not measured"},
		{"shell-main/1/upper", "a/once=0.1240", "clearance not measured"},
		{"main-journal/1", "a/vertical=2.0000", "clearance not measured"},
		{"shell-main/1/lower", "a/once=0.1240", "clearance 0.0020, 0.0010 to 0.0030 in"},
		{"main-bearing/1", "a/vertical=2.0009", "clearance 0.0009, too tight"},
	} {
		all := enginetest.Seal(t, s.Events(), "ek", read(t, step.of, step.values))
		for _, e := range all[len(s.Events()):] {
			touched, err := s.Apply(e)
			if err != nil {
				t.Fatal(err)
			}
			a = a.Again(s, touched)
			sameFindings(t, a, engine.Assess(s))
		}
		n, text := 0, ""
		for _, f := range a.Findings {
			if f.On == limit.Clearance && f.Of == feature(t, "main-bearing/1") {
				n, text = n+1, f.Text
			}
		}
		if n != 1 || !strings.Contains(text, step.says) {
			t.Errorf("with %s there are %d findings, the last is %q, want %q", step.of, n, text, step.says)
		}
	}
}

func TestReadingsFollowTheLoosePart(t *testing.T) {
	bodies := bareSession(t, plan.Default(plan.Inline, 2, false), []string{"bore clearance 0.0020 0.0040"},
		group(plan.Bore, 1, "across"), group(plan.Piston, 1, "across"))
	for of, v := range map[string]string{"bore/1": "3.7500", "bore/2": "3.7510", "piston/1": "3.7485", "piston/2": "3.7475"} {
		bodies = append(bodies, read(t, of, "a/across="+v)...)
	}
	want(t, texts(engine.Assess(replay(t, bodies))),
		"outside: bore 1, middle: clearance 0.0015", "inside: bore 2, middle: clearance 0.0035")
	fit := func(part, at string) record.Body {
		return record.Fitted{Part: feature(t, part), At: feature(t, at)}
	}
	bodies = append(bodies, fit("piston/2", "bore/1"), fit("piston/1", "bore/2"))
	s := replay(t, bodies)
	want(t, texts(engine.Assess(s)), "inside: bore 1, middle: clearance 0.0025", "inside: bore 2, middle: clearance 0.0025")
	if s.Seat(feature(t, "piston/1")) != 2 {
		t.Error("piston 1 does not sit in bore 2")
	}
}

func TestAPartPutAsideSitsNowhere(t *testing.T) {
	bodies := bareSession(t, plan.Default(plan.Inline, 2, false), nil, group(plan.Bore, 1, "across"), group(plan.Piston, 1, "across"))
	s := replay(t, append(bodies, record.Fitted{Part: feature(t, "piston/2"), At: feature(t, "bore/1")}))
	if got := s.Seat(feature(t, "piston/1")); got != 0 {
		t.Errorf("piston 1 sits at %d, want nowhere", got)
	}
	if got := s.FeatureAt(plan.Piston, "", 2); !got.IsZero() {
		t.Errorf("bore 2 has %s, want none", got)
	}
}

func TestWhatIsReadAsOneFigure(t *testing.T) {
	bodies := bareSession(t, plan.Default(plan.Inline, 2, false),
		[]string{"end-play end_play 0.0040 0.0150", "ring-gap end_gap 0.0160 -", "deck deck_clearance -0.0050 0.0200", "runout runout - 0.0080"},
		group(plan.EndPlay, 1, plan.Once), group(plan.RingGap, 1, plan.Once), group(plan.Deck, 2, plan.Once), group(plan.Runout, 4, plan.Once))
	bodies = append(bodies, read(t, "end-play/1", "a/once=0.0220")...)
	bodies = append(bodies, read(t, "ring-gap/2/top", "a/once=0.0140")...)
	bodies = append(bodies, read(t, "deck/1", "a/once=-0.0060 b/once=0.0100")...)
	bodies = append(bodies, read(t, "runout/2", "a/once=0.0000 b/once=0.0030 c/once=-0.0020 d/once=0.0030")...)
	a := engine.Assess(replay(t, bodies))
	want(t, texts(a),
		"outside: end play: 0.0220, too loose: at most 0.0150 in",
		"outside: top ring gap 2: end gap 0.0140, too tight: at least 0.0160 in",
		"outside: deck clearance of cylinder 1, front: -0.0060, too small: at least -0.0050 in",
		"inside: crank runout at main 2: 0.0050 of 0.0080 in allowed")
	if a.Mains[0].Label != "thrust" {
		t.Errorf("the worst of the crank line is %q, want the thrust", a.Mains[0].Label)
	}
}

func TestShellsAreEccentricAndNotJudgedRound(t *testing.T) {
	bodies := bareSession(t, plan.Default(plan.Inline, 1, false), []string{"main-bearing out-of-round - 0.0005"},
		group(plan.MainBearing, 1, "vertical", "horizontal"))
	bodies = append(bodies, read(t, "main-bearing/1", "a/vertical=2.0000 a/horizontal=2.0010")...)
	a := engine.Assess(replay(t, bodies))
	if len(a.Findings) != 0 {
		t.Errorf("judged: %s", texts(a))
	}
	m, _ := a.Feature(feature(t, "main-bearing/1"))
	if got := m.Eccentricity().FormatSigned(length.In, 4); got != "+0.0010" {
		t.Errorf("eccentricity %s, want +0.0010", got)
	}
}
