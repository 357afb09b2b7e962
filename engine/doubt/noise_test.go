package doubt_test

import (
	"math"
	"testing"

	. "borewright/engine/doubt"
)

// d2, the mean range of n normal readings: ASTM MNL 7.
func TestRangeFactor(t *testing.T) {
	for n, want := range map[int]float64{2: 1.128, 3: 1.693, 4: 2.059, 5: 2.326, 6: 2.534, 10: 3.078, 25: 3.931} {
		got, ok := RangeFactor(n)
		if !ok || math.Round(got*1000)/1000 != want {
			t.Errorf("n %d: %v, want %v", n, got, want)
		}
		if floor, ok := NoiseFloor(n, 2.5); !ok || floor != 2.5*got {
			t.Errorf("n %d: a floor of %v", n, floor)
		}
	}
	if two, _ := RangeFactor(2); math.Abs(two-2/math.Sqrt(math.Pi)) > 1e-12 {
		t.Errorf("n 2: %v, want 2/√π", two)
	}
}

// The factors of the average and range form, AIAG MSA manual; those not in a
// check are from memory. Of two readings the mean square range is 2, exactly.
func TestStudyFactors(t *testing.T) {
	for n, want := range map[int]float64{2: 0.7071, 3: 0.5231, 4: 0.4467, 5: 0.4030, 6: 0.3742, 7: 0.3534, 8: 0.3375, 9: 0.3249, 10: 0.3146} {
		if got, ok := DeviationFactor(n); !ok || math.Round(got*1e4)/1e4 != want {
			t.Errorf("K of one range of %d: %v, want %v", n, got, want)
		}
	}
	for n, want := range map[int]float64{2: 0.8862, 3: 0.5908} {
		if got, ok := MeanRangeFactor(n); !ok || math.Round(got*1e4)/1e4 != want {
			t.Errorf("K1 of %d: %v, want %v", n, got, want)
		}
	}
	if two, _ := DeviationFactor(2); math.Abs(two-math.Sqrt2/2) > 1e-12 {
		t.Errorf("of two: %v, want 1/√2", two)
	}
}

func TestNoiseOfTooFew(t *testing.T) {
	for _, n := range []int{-1, 0, 1} {
		for name, f := range map[string]func(int) (float64, bool){
			"range": RangeFactor, "deviation": DeviationFactor, "mean range": MeanRangeFactor,
			"floor": func(n int) (float64, bool) { return NoiseFloor(n, 1) },
		} {
			if k, ok := f(n); ok || k != 0 {
				t.Errorf("%s of %d: %v", name, n, k)
			}
		}
	}
}
