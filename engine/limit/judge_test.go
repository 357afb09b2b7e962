package limit_test

import (
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/length"
	. "borewright/engine/limit"
	"borewright/engine/plan"
)

// Published limits, and whether a figure keeps to them. "Exceeds" and "must
// not exceed" put a figure exactly on a limit inside.
func TestPublishedLimits(t *testing.T) {
	liner := Limits{On: OutOfRound, Wear: between(t, "", "0.0025 in")}
	linerTaper := Limits{On: Taper, Wear: between(t, "", "0.002 in")}
	average := Limits{On: Size, By: Average, New: between(t, "4.6260 in", "4.6275 in"), Wear: between(t, "", "4.6285 in")}
	reject := Limits{On: OutOfRound, Wear: between(t, "", "0.002 in")}
	spread := Limits{On: OverallSpread, Wear: between(t, "", "0.15 mm")}
	journalTaper := Limits{On: Taper, Wear: between(t, "", "0.0006 in")}
	journalRound := Limits{On: OutOfRound, Wear: between(t, "", "0.0005 in")}
	bearing := Limits{On: Clearance, Wear: between(t, "", "0.0035 in")}
	skirt := Limits{On: Clearance, New: between(t, "0.0045 in", "0.0083 in")}
	for _, c := range []struct {
		source, value string
		l             Limits
		judge         string
		want          Verdict
	}{
		{"TM 9-2815-202-34 p. 4-147", "0.0025 in", liner, "", InsideWear},
		{"TM 9-2815-202-34 p. 4-147", "0.0026 in", liner, "", Outside},
		{"TM 9-2815-202-34 p. 4-147", "0.002 in", linerTaper, "", InsideWear},
		{"TM 9-2815-202-34 p. 4-147", "-0.0021 in", linerTaper, "", Outside},
		{"TM 5-3810-303-24", "0.002 in", reject, "", InsideWear},
		{"TM 5-3810-303-24", "0.0021 in", reject, "", Outside},
		{"TM 5-3810-303-24", "4.6285 in", average, Wear, InsideWear},
		{"TM 5-3810-303-24", "4.6286 in", average, Wear, Outside},
		{"TM 5-3810-303-24", "4.6275 in", average, Wear, InsideNew},
		{"TM 5-3810-303-24", "4.6276 in", average, "", Outside},
		{"TM 9-6115-670-14&P p. 6-76", "0.15 mm", spread, "", InsideWear},
		{"TM 9-6115-670-14&P p. 6-76", "0.103 mm", spread, "", InsideWear},
		{"TM 9-6115-670-14&P p. 6-76", "0.151 mm", spread, "", Outside},
		{"TM 9-2815-202-34 p. 4-158", "0.00055 in", journalTaper, "", InsideWear},
		{"TM 9-2815-202-34 p. 4-158", "0.00055 in", journalRound, "", Outside},
		{"TM 5-3895-370-14&P p. 5-272", "0.0035 in", bearing, "", InsideWear},
		{"TM 9-2815-202-34 p. 6-35", "0.0083 in", skirt, "", InsideNew},
		{"TM 9-2815-202-34 p. 6-35", "0.0045 in", skirt, "", InsideNew},
		{"TM 9-2815-202-34 p. 6-35", "0.0044 in", skirt, "", Outside},
	} {
		got := c.l.Judge(at(t, c.value), Subject{Judge: c.judge})
		if got.Verdict != c.want {
			t.Errorf("%s: %s %s is %v, want %v", c.source, c.l.On, c.value, got.Verdict, c.want)
		}
	}
}

// 4.2511 - 4.2428 is more than 0.0083 in binary floating point. A part at the
// printed maximum is inside (TM 9-2815-202-34 p. 6-35).
func TestExactlyOnALimit(t *testing.T) {
	clearance := at(t, "4.2511 in").Sub(at(t, "4.2428 in"))
	l := Limits{On: Clearance, New: between(t, "0.0045 in", "0.0083 in")}
	got := l.Judge(clearance, Subject{})
	if got.Verdict != InsideNew || got.Margin != 1 || got.LowSide || got.Nearest != at(t, "0.0083 in") {
		t.Errorf("%+v", got)
	}
}

func TestVerdictWords(t *testing.T) {
	for v, want := range map[Verdict]string{
		NotMeasured: "not measured", InsideNew: "inside", InsideWear: "inside, wear only",
		Outside: "outside", TooClose: "too close to call", NoLimits: "no limits",
	} {
		if v.String() != want {
			t.Errorf("%d is %q, want %q", v, v, want)
		}
		if v.Inside() != (v == InsideNew || v == InsideWear) {
			t.Errorf("%v inside: %v", v, v.Inside())
		}
	}
}

func TestNothingToJudge(t *testing.T) {
	l := Limits{On: OutOfRound, New: between(t, "", "0.0005 in")}
	if got := l.Judge(length.Exact{}, Subject{}); got.Verdict != NotMeasured || got.By != New || got.Ranked {
		t.Errorf("not measured: %+v", got)
	}
	if got := (Limits{On: OutOfRound}).Judge(at(t, "0.001 in"), Subject{}); got.Verdict != NoLimits || got.Ranked {
		t.Errorf("no limits: %+v", got)
	}
}

// ISO 14253-1 rule, own vectors: limits 50.000 to 50.025, U 0.004.
func TestGuardBands(t *testing.T) {
	l := Limits{On: Size, New: between(t, "50.000 mm", "50.025 mm")}
	doubt := 4 * length.Micrometre
	for value, want := range map[string]Verdict{
		"49.9959 mm": Outside, "49.996 mm": TooClose, "50.003 mm": TooClose, "50.004 mm": InsideNew,
		"50.021 mm": InsideNew, "50.0211 mm": TooClose, "50.029 mm": TooClose, "50.0291 mm": Outside,
	} {
		guarded := l.Judge(at(t, value), Subject{Doubt: doubt, Guard: true})
		if guarded.Verdict != want {
			t.Errorf("%s: %v, want %v", value, guarded.Verdict, want)
		}
		simple := l.Judge(at(t, value), Subject{Doubt: doubt})
		if simple.Verdict == TooClose || simple.Doubtful != (want == TooClose) {
			t.Errorf("%s without guard: %v, doubtful %v", value, simple.Verdict, simple.Doubtful)
		}
	}
}

func TestGuardOfNew(t *testing.T) {
	l := Limits{On: Size, New: between(t, "", "50.020 mm"), Wear: between(t, "", "50.050 mm"), JudgeBy: Wear}
	s := Subject{Doubt: 4 * length.Micrometre, Guard: true}
	for value, want := range map[string]Verdict{"50.016 mm": InsideNew, "50.018 mm": InsideWear, "50.048 mm": TooClose} {
		if got := l.Judge(at(t, value), s); got.Verdict != want {
			t.Errorf("%s: %v, want %v", value, got.Verdict, want)
		}
	}
}

func TestTaperSign(t *testing.T) {
	choked := Limits{On: Taper, New: between(t, "-0.0010 in", "-0.0002 in")}
	plain := Limits{On: Taper, New: between(t, "", "0.0005 in")}
	for _, c := range []struct {
		l           Limits
		value, kept string
		want        Verdict
	}{
		{choked, "-0.0006 in", "-0.0006 in", InsideNew},
		{choked, "0.0006 in", "0.0006 in", Outside},
		{plain, "-0.0005 in", "0.0005 in", InsideNew},
		{plain, "-0.0006 in", "0.0006 in", Outside},
	} {
		got := c.l.Judge(at(t, c.value), Subject{})
		if got.Verdict != c.want || got.Value != at(t, c.kept) {
			t.Errorf("%s: %v on %v", c.value, got.Verdict, got.Value)
		}
	}
}

func TestJudgeEach(t *testing.T) {
	l := Limits{On: Size, New: between(t, "3.7500 in", "3.7510 in")}
	none := length.Exact{}
	for _, c := range []struct {
		name string
		ys   []length.Exact
		want int
	}{
		{"the one outside", []length.Exact{at(t, "3.7510 in"), at(t, "3.7511 in"), none}, 1},
		{"the one nearer its limit", []length.Exact{none, at(t, "3.7505 in"), at(t, "3.7501 in")}, 2},
		{"the first of equals", []length.Exact{at(t, "3.7502 in"), at(t, "3.7508 in")}, 0},
		{"none measured", []length.Exact{none, none}, -1},
	} {
		got, i := l.JudgeEach(c.ys, Subject{})
		if i != c.want {
			t.Errorf("%s: %d, want %d", c.name, i, c.want)
		}
		if i < 0 && got.Verdict != NotMeasured || i >= 0 && got.Value != c.ys[i] {
			t.Errorf("%s: %+v", c.name, got)
		}
	}
}

func TestBounds(t *testing.T) {
	l := Limits{On: Size, New: between(t, "209 mm", "210 mm")}
	got := l.Judge(at(t, "210.1 mm"), Subject{})
	// IS 2:1960 Amd 1 (1997) cl. 3.4: what is shown stays above 210.
	if text := got.Value.FormatBeside(length.MM, 0, got.Bounds()...); text != "210.1" {
		t.Errorf("shown as %s beside %v", text, got.Bounds())
	}
	if len(got.Bounds()) != 2 || got.Bounds()[0].High || !got.Bounds()[1].High {
		t.Errorf("bounds %v", got.Bounds())
	}
}

// A limit says the same whichever unit it was written in.
func TestUnitIrrelevant(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		low := written(37_000, 37_500).Draw(t, "low")
		high := written(37_500, 38_000).Draw(t, "high")
		y := written(36_000, 39_000).Draw(t, "y").Exact()
		l := Limits{On: Size, New: Range{Low: low, High: high}}
		metric := l
		for _, b := range []*length.Written{&metric.New.Low, &metric.New.High} {
			b.Unit, b.Places = length.MM, 5
		}
		s := Subject{Shape: plan.Hole}
		if a, b := l.Judge(y, s), metric.Judge(y, s); a != b {
			t.Fatalf("in inches %+v, in millimetres %+v", a, b)
		}
	})
}
