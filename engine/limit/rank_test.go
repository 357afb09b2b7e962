package limit_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/length"
	. "borewright/engine/limit"
)

// Worst first: outside, too close, suspect, not measured, inside, no limits;
// within each the larger margin, then what has no rank.
func TestCompareOrder(t *testing.T) {
	order := []Judgement{
		{Verdict: Outside, Ranked: true, Margin: 3},
		{Verdict: Outside, Ranked: true, Margin: 1.5, Suspect: true},
		{Verdict: Outside},
		{Verdict: TooClose, Ranked: true, Margin: 1.02},
		{Verdict: TooClose, Ranked: true, Margin: 0.98},
		{Verdict: InsideNew, Ranked: true, Margin: 0.9, Suspect: true},
		{Verdict: InsideWear, Ranked: true, Margin: 0.2, Suspect: true},
		{Verdict: NotMeasured},
		{Verdict: InsideWear, Ranked: true, Margin: 0.99},
		{Verdict: InsideNew, Ranked: true, Margin: 0.5},
		{Verdict: InsideNew, Ranked: true},
		{Verdict: InsideNew},
		{Verdict: NoLimits, Suspect: true},
	}
	for i := range order {
		for k := range order {
			if got := Compare(order[i], order[k]); got != cmpInt(i, k) || Less(order[i], order[k]) != (i < k) {
				t.Errorf("%+v against %+v: %d", order[i], order[k], got)
			}
		}
	}
}

func cmpInt(a, b int) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

func TestCompareKeepsTheOrderOfEquals(t *testing.T) {
	js := []Judgement{
		{Verdict: InsideNew, Ranked: true, Margin: 0.5, By: "first"},
		{Verdict: Outside, By: "worst"},
		{Verdict: InsideWear, Ranked: true, Margin: 0.5, By: "second"},
	}
	slices.SortStableFunc(js, Compare)
	if js[0].By != "worst" || js[1].By != "first" || js[2].By != "second" {
		t.Errorf("%+v", js)
	}
}

// JCGM 106:2012 (from memory): lower limit 5.40, measured 5.47, u 0.05 is
// p 0.92; one-sided z for 0.80 to 0.999.
func TestChance(t *testing.T) {
	low, high := between(t, "5.40 mm", ""), between(t, "", "5.40 mm")
	u := 0.05e9
	if p := low.Chance(at(t, "5.47 mm"), u); math.Round(p*100) != 92 {
		t.Errorf("p %v", p)
	}
	for z, want := range map[float64]float64{0.84: 0.80, 1.28: 0.90, 1.64: 0.95, 2.33: 0.99, 3.09: 0.999} {
		if p := high.Chance(at(t, "5.30 mm"), 0.1e9/z); math.Abs(p-want) > 0.0006 {
			t.Errorf("z %v: %v, want %v", z, p, want)
		}
	}
	if p := between(t, "5.3 mm", "5.5 mm").Chance(at(t, "5.4 mm"), u); math.Abs(p-0.9545) > 0.0001 {
		t.Errorf("two standard uncertainties on both sides: %v", p)
	}
}

func TestChanceWithoutDoubt(t *testing.T) {
	high := between(t, "", "5.40 mm")
	if p := high.Chance(at(t, "5.40 mm"), 0); p != 1 {
		t.Errorf("on the limit without doubt: %v", p)
	}
	if p := high.Chance(at(t, "5.41 mm"), 0); p != 0 {
		t.Errorf("outside without doubt: %v", p)
	}
	if p := high.Chance(length.Exact{}, 1); p != 0 {
		t.Errorf("not measured: %v", p)
	}
}

// On the limit the chance is a half whatever the doubt.
func TestChanceOnTheLimit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := written(1, 90_000).Draw(t, "limit")
		u := rapid.Float64Range(1, 1e10).Draw(t, "u")
		for _, r := range []Range{{Low: at}, {High: at}} {
			if p := r.Chance(at.Exact(), u); math.Abs(p-0.5) > 1e-12 {
				t.Fatalf("%v: %v", r, p)
			}
		}
	})
}
