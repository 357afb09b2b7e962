package engine_test

import (
	"strings"
	"testing"

	"borewright/engine"
	"borewright/engine/fit"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// workedOut writes what is worked out of a session, one a line.
func workedOut(s *engine.Session) string {
	var out []string
	for _, x := range s.WorkedOut(engine.Assess(s)) {
		text := x.Name + ": " + x.Value + x.Missing
		if x.Outside {
			text += " OUTSIDE"
		}
		out = append(out, text)
	}
	return strings.Join(out, "\n")
}

// An aluminium housing (23.1e-6) round a steel journal (11.5e-6: Swyt, J. Res.
// NIST 99 (1994) 31) of 2 in, both at 100 °C, opens by 2·11.6·80e-6 = 0.00186.
func TestRunningClearances(t *testing.T) {
	t.Parallel()
	groups := []plan.Group{group(plan.MainBearing, 1, "vertical"), group(plan.MainJournal, 1, "vertical")}
	reads := map[string]string{"main-bearing/1": "a/vertical=2.0020", "main-journal/1": "a/vertical=2.0000"}
	housing := []record.Body{given(engine.GivenExpansion, "main-bearing", "23.1"), given(engine.GivenRunning, "main-bearing", "100 °C")}
	journal := []record.Body{given(engine.GivenExpansion, "main-journal", "11.5"), given(engine.GivenRunning, "main-journal", "100")}
	s := one(t, 1, nil, groups, reads, append(housing, journal...)...)
	want(t, workedOut(s), "main bearing 1, running clearance: 0.00386 in at 100 and 100 °C, 0.0020 in cold")
	want(t, strings.Join(engine.Assess(s).Whole(s), "\n"), "Worked out:\n  main bearing 1, running clearance: 0.00386 in")
	want(t, workedOut(one(t, 1, nil, groups, reads, housing...)), "main bearing 1, running clearance: the expansion or the running temperature of main journals is not given")
	if got := workedOut(one(t, 1, nil, groups, reads)); got != "" {
		t.Errorf("nothing is given and there is %q", got)
	}
}

// A piston that grows more than its bore closes: 4 in, iron 11.4e-6 at 90 °C
// (Callister, Table B.6) and aluminium 23.1e-6 at 200 °C.
func TestAHotPistonCloses(t *testing.T) {
	t.Parallel()
	s := one(t, 1, nil, []plan.Group{group(plan.Bore, 1, "across"), group(plan.Piston, 1, "across")},
		map[string]string{"bore/1": "a/across=4.0000", "piston/1": "a/across=3.9950"},
		given(engine.GivenExpansion, "bore", "11.4"), given(engine.GivenRunning, "bore", "90"), given(engine.GivenExpansion, "piston", "23.1"), given(engine.GivenRunning, "piston", "200"))
	want(t, workedOut(s), "bore 1, running clearance: -0.00842 in at 90 and 200 °C, 0.0050 in cold")
}

func TestHotGapsAndWhereTheyTouch(t *testing.T) {
	t.Parallel()
	bore := group(plan.Bore, 1, "across")
	bore.Levels[0].Depth = inch(t, "1.0")
	s := one(t, 1, nil, []plan.Group{bore, group(plan.RingGap, 1, plan.Once)},
		map[string]string{"bore/1": "a/across=4.0000", "ring-gap/1/top": "a/once=0.0140"},
		given(engine.GivenExpansion, "bore", "11.4"), given(engine.GivenRunning, "bore", "120"), given(engine.GivenExpansion, "ring-gap", "11.5"), given(engine.GivenRunning, "ring-gap", "170"),
		given(engine.GivenGapDepth, "ring-gap", "1.0 in"))
	want(t, workedOut(s), "top ring gap 1: 0.00665 in hot, its ends touch at 216 °C")
}

// Bore and stroke of 100 mm: 785.4 cm³; by hand as in the fits' own test.
func TestCompressionOfEachCylinder(t *testing.T) {
	t.Parallel()
	mm := func(more ...record.Body) *engine.Session {
		all := append([]record.Body{
			given(engine.GivenStroke, "", "100 mm"), given(engine.GivenGasket, "", "1 mm"), given(engine.GivenGasketBore, "", "100 mm"),
			given(engine.GivenDish, "", "5 cm3"), given(engine.GivenChamber, "bore/2", "60 cm³"),
		}, more...)
		return one(t, 2, nil, []plan.Group{group(plan.Bore, 1, "across"), group(plan.Deck, 1, plan.Once)},
			map[string]string{"bore/2": "a/across=100mm", "deck/2": "a/once=0.5mm"}, all...)
	}
	want(t, workedOut(mm()), "cylinder 2, compression ratio: 11.23 to 1: 785.4 cm³ swept, 76.8 cm³ left")
	if strings.Contains(workedOut(mm()), "cylinder 1") {
		t.Error("a cylinder of which no chamber is given has a ratio")
	}
	want(t, workedOut(mm(given(engine.GivenChamber, "bore/1", "60 cm3"))), "cylinder 1, compression ratio: not known: the bore, the deck clearance")
	want(t, workedOut(mm(given(engine.GivenDish, "", "-90 cm3"))), "what is given leaves no room for the charge")
}

func TestFastenersAgainstTheirLimits(t *testing.T) {
	t.Parallel()
	s := one(t, 1, nil, []plan.Group{group(plan.Bore, 1, "across")}, nil,
		given(engine.GivenFree, "rod/1", "1.6000 in"), given(engine.GivenTight, "rod/1", "1.6055 in"), given(engine.GivenLeastStretch, "rod", "0.0050 in"), given(engine.GivenMostStretch, "rod", "0.0054 in"),
		given(engine.GivenTight, "main-journal", "3.2 in"),
		given(engine.GivenTorque, "rod/1", "50 lb ft"), given(engine.GivenLeastTorque, "rod", "60 N m"), given(engine.GivenMostTorque, "rod", "70 N m"),
		given(engine.GivenTorque, "main-bearing/1", "80 hands"), given(engine.GivenTorque, "main-bearing/2", "59 N·m"), given(engine.GivenLeastTorque, "main-bearing/2", "60 N m"))
	want(t, workedOut(s),
		"fastener of rod 1, stretch: 0.0055 in, 0.0050 in to 0.0054 in OUTSIDE",
		"fastener of main journals, stretch: its free length is not given",
		"fastener of rod 1, torque: 50 lb ft, 60 N m to 70 N m",
		"fastener of main bearing 1, torque: it is in no unit of torque known here",
		"fastener of main bearing 2, torque: 59 N·m, at least 60 N m OUTSIDE")
}

func TestHoneCountOfASession(t *testing.T) {
	t.Parallel()
	bodies := []record.Body{given(engine.GivenHoneTarget, "bore", "3.7511 in"), given(engine.GivenExpansion, "bore", "11.4")}
	s := one(t, 1, nil, []plan.Group{group(plan.Bore, 1, "across")}, nil, bodies...)
	bore := feature(t, "bore/1")
	pass := func(strokes int, size string, warmer float64) fit.Pass {
		return fit.Pass{Strokes: strokes, Size: inch(t, size).Exact(), Warmer: warmer}
	}
	for _, c := range []struct {
		passes []fit.Pass
		target string
		want   string
	}{
		{[]fit.Pass{pass(0, "3.7501", 0), pass(24, "3.7507", 0)}, "", "0.0004 in left, about 16 strokes (4.0 to each 0.0001 in)"},
		{[]fit.Pass{pass(0, "3.7501", 0), pass(24, "3.7507", 0)}, "3.7509", "0.0002 in left, about 8 strokes (4.0 to each 0.0001 in)"},
		{[]fit.Pass{pass(0, "3.7501", 0)}, "", "0.0010 in left"},
		{[]fit.Pass{pass(0, "3.7501", 0), pass(24, "3.7509", 6)}, "", "0.00046 in left, about 21 strokes (4.4 to each 0.0001 in); the bore is 6 °C warm and reads 0.00026 in large: wait before the last"},
		{[]fit.Pass{pass(0, "3.7501", 0), pass(24, "3.7509", -6)}, "", "past the target"},
		{[]fit.Pass{pass(0, "3.7501", 0), pass(40, "3.7511", 0)}, "", "at the target (4.0 to each 0.0001 in)"},
		{nil, "", "no target is given for this bore, or no size was keyed"},
	} {
		var target length.Exact
		if c.target != "" {
			target = inch(t, c.target).Exact()
		}
		if got := s.CountText(s.HoneCount(bore, target, c.passes)); !strings.Contains(got, c.want) {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	bare := one(t, 1, nil, []plan.Group{group(plan.Bore, 1, "across")}, nil, bodies[0])
	if got := bare.CountText(bare.HoneCount(bore, length.Exact{}, []fit.Pass{pass(0, "3.7501", 0), pass(24, "3.7509", 6)})); !strings.Contains(got, "no expansion of bores is given to correct for it: wait before the last") {
		t.Errorf("warm without an expansion: %q", got)
	}
	if s.HoneTarget(bore).Format(length.In, 4) != "3.7511" {
		t.Error("the hone target is not the given one")
	}
}
