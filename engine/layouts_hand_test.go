package engine_test

import (
	"math"
	"testing"

	"borewright/engine"
)

// TestLayoutsByHand has findings of the sessions of every layout that were
// worked out by hand: y is what is judged; the margin is |y - middle| / half the
// span of two limits, y / high of one.
func TestLayoutsByHand(t *testing.T) {
	for _, c := range []struct {
		file, of, on, value, verdict string
		margin                       float64
	}{
		// 80.003 - 79.950, of piston 2, which sits at 1: (0.055 - 0.053) / 0.015.
		{"inline-four", "bore/1", "clearance", "0.053 mm", "inside", 2.0 / 15},
		// 80.008 - 79.962, of piston 1: (0.055 - 0.046) / 0.015.
		{"inline-four", "bore/2", "clearance", "0.046 mm", "inside", 9.0 / 15},
		{"inline-four", "bore/2", "taper", "0.016 mm", "outside", 16.0 / 10},
		// At least 0.25, of 0.22 at its depth: see TestRingGapAtItsDepth.
		{"inline-four", "ring-gap/1/top", "end gap", "0.20675 mm", "outside", 0.25 / (0.22 - math.Pi*(0.0035-20.0/45*0.0035+50.0/55*0.0025))},
		// Target 0.10: (0.10 + 0.12) / (0.10 + 0.10).
		{"inline-four", "deck/1", "deck clearance", "-0.120 mm", "outside", 22.0 / 20},
		// Pin 1 is at 1, and so is piston 2: 20.005 - 20.000, (0.008 - 0.005) / 0.004.
		{"inline-four", "piston-pin-bore/2", "clearance", "0.005 mm", "inside", 3.0 / 4},

		// 0.0030 + 0.0020 over a turn, of 0.0040.
		{"inline-six", "runout/4", "runout", "0.0050 in", "outside", 50.0 / 40},
		// By its own limits: (0.0020 - 0.0011) / 0.0008.
		{"inline-six", "main-bearing/4", "clearance", "0.0011 in", "outside", 9.0 / 8},
		{"inline-six", "main-journal/4", "out-of-round", "0.0006 in", "outside", 6.0 / 5},
		{"inline-six", "cam-bearing/1", "clearance", "0.0025 in", "inside", 0},
		// The bottom is tighter: 0.8434 - 0.8420, the middle of 0.0008 and 0.0020.
		{"inline-six", "lifter-bore/1", "clearance", "0.0014 in", "inside", 0},

		// The right bank leads, so rod 4 (B3) stands on journal 1 and rod 1 (A3) on
		// journal 2: 50.048 - 49.986 and 50.045 - 50.000.
		{"vee-six-split", "rod-bearing/4", "clearance", "0.062 mm", "outside", 17.0 / 15},
		{"vee-six-split", "rod-bearing/1", "clearance", "0.045 mm", "inside", 0},
		{"vee-six-split", "main-housing/2", "out-of-round", "0.006 mm", "inside", 6.0 / 10},
		{"vee-six-split", "flatness/2", "flatness", "0.070 mm", "outside", 7.0 / 5},

		// Rods 1 and 5 share journal 1, which is tapered: the front half holds
		// 2.1000 and 2.0998, the rear half 2.0990 and 2.0988, in holes of 2.1020.
		{"vee-eight-shared", "rod-bearing/1", "clearance", "0.0020 in", "inside", 25.0 / 75},
		{"vee-eight-shared", "rod-bearing/5", "clearance", "0.0032 in", "outside", 95.0 / 75},
		{"vee-eight-shared", "rod-journal/1", "taper", "0.0012 in", "outside", 12.0 / 5},
		{"vee-eight-shared", "rod-side/1", "side clearance", "0.0220 in", "outside", 7.0 / 5},
		{"vee-eight-shared", "end-play/1", "end play", "0.0060 in", "inside", 1.0 / 3},

		// Of parts: 53.012 - 1.490 - 1.491 - 49.990, on journal 2.
		{"flat-four", "rod-bearing/3", "clearance", "0.041 mm", "inside", 1.0 / 20},
		{"flat-four", "rod-bearing/1", "clearance", "0.045 mm", "inside", 5.0 / 20},
		// After work; as found it was 0.011.
		{"flat-four", "rod-housing/3", "out-of-round", "0.002 mm", "inside", 2.0 / 8},
		{"flat-four", "ring-side/1/top", "side clearance", "0.090 mm", "outside", 35.0 / 25},
	} {
		s := plainSession(t, "../testdata/layouts/"+c.file+".json")
		found := false
		for _, f := range engine.Assess(s).Report(s).Findings {
			if f.Of != c.of || f.On != c.on {
				continue
			}
			found = true
			if f.Value != c.value || f.Verdict != c.verdict || f.Margin == nil || math.Abs(*f.Margin-c.margin) > 1e-6 {
				t.Errorf("%s: %s of %s is %s, %s, not %s, %s, %.3f", c.file, c.on, c.of, f.Value, f.Verdict, c.value, c.verdict, c.margin)
			}
		}
		if !found {
			t.Errorf("%s: %s of %s is not judged", c.file, c.on, c.of)
		}
	}
}

// TestRingGapAtItsDepth: the depth of a ring gap stands in the plan. At 30 mm
// bore 1 is 80.0095 - 20/45 x 0.0035 mm and at 105 mm, the least of the travel,
// 80.0060 - 50/55 x 0.0025 mm: the gap is pi times the difference less there.
func TestRingGapAtItsDepth(t *testing.T) {
	s := plainSession(t, "../testdata/layouts/inline-four.json")
	ring := s.Ring(engine.Assess(s), feature(t, "ring-gap/1/top"))
	want := 0.22 - math.Pi*((80.0095-20.0/45*0.0035)-(80.0060-50.0/55*0.0025))
	if got := ring.Gap.Metres() * 1000; !ring.Corrected || math.Abs(got-want) > 1e-6 || len(ring.Missing) > 0 {
		t.Errorf("the gap is %.6f mm, not %.6f; missing %q", got, want, ring.Missing)
	}
}
