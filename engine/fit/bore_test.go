package fit_test

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	. "borewright/engine/fit"
	"borewright/engine/length"
)

func stocks(h Hone) string {
	var out []string
	for _, s := range h.Stock {
		out = append(out, in(s))
	}
	return strings.Join(out, " ")
}

// Stock is to the smallest place of each level, whichever direction it lies in.
func TestHoneByLevel(t *testing.T) {
	bore := levels(t, []string{"3.7504", "3.7501"}, []string{"3.7509", "3.7500"}, []string{"3.7505", "3.7502"})
	h := HoneTo(bore, at(t, "3.7512"), at(t, "0.0002"))
	if got := stocks(h); got != "0.0011 0.0012 0.0010" || in(h.Least) != "3.7511" || !h.Possible {
		t.Errorf("stock %s, least %s, possible %v", got, in(h.Least), h.Possible)
	}
	if !slices.Equal(h.Dwell, []int{1, 0}) || in(h.Extra(1)) != "0.0002" || in(h.Extra(2)) != "0.0000" {
		t.Errorf("dwell at %v, %s more at the middle", h.Dwell, in(h.Extra(1)))
	}
}

func TestHonePossibleFromTheLargestAndTheAllowance(t *testing.T) {
	bore := levels(t, []string{"3.7504", "3.7501"})
	for target, want := range map[string]bool{"3.7505": false, "3.7506": true, "3.7507": true, "": false} {
		if got := HoneTo(bore, at(t, target), at(t, "0.0002")).Possible; got != want {
			t.Errorf("to %q possible: %v", target, got)
		}
	}
	none := HoneTo(levels(t, []string{"", ""}, []string{"3.7501"}), at(t, "3.7510"), at(t, "0"))
	if none.Stock[0].Measured() || len(none.Dwell) != 0 || !none.Possible {
		t.Errorf("%+v", none)
	}
	if HoneTo(levels(t, []string{""}), at(t, "3.7510"), at(t, "0")).Possible {
		t.Error("a bore that was not read can be honed")
	}
}

func TestRoundUp(t *testing.T) {
	tenth := length.Inch / 10000
	for text, want := range map[string]string{
		"3.7511": "3.75110", "3.75111": "3.75120", "3.75119": "3.75120", "-0.00015": "-0.00010", "0": "0.00000", "": "",
	} {
		if got := RoundUp(at(t, text), tenth).Format(length.In, 5); got != want {
			t.Errorf("%s up to 0.0001 is %s, want %s", text, got, want)
		}
	}
	half := at(t, "0.0001").Half()
	if RoundUp(half, 0) != half {
		t.Error("without a step it is changed")
	}
}

func TestRoundUpIsTheNextWholeStep(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := length.Exact{Sum: length.Length(rapid.Int64Range(-1e12, 1e12).Draw(t, "sum")), Count: rapid.Int64Range(1, 9).Draw(t, "count")}
		step := length.Length(rapid.Int64Range(1, 1e8).Draw(t, "step"))
		up := RoundUp(e, step)
		if up.Cmp(e) < 0 || up.Sub(length.Of(step)).Cmp(e) >= 0 || up.Round()%step != 0 {
			t.Fatalf("%v up to steps of %d is %v", e, step, up)
		}
	})
}

func pass(t fataler, strokes int, size string, warmer float64) Pass {
	return Pass{Strokes: strokes, Size: at(t, size), Warmer: warmer}
}

// 30 strokes took 0.0006, so 5 to each 0.0001 and 20 to the 0.0004 left.
func TestCountdown(t *testing.T) {
	tenth := length.Inch / 10000
	c := Count([]Pass{pass(t, 0, "3.7501", 0), pass(t, 10, "3.7503", 0), pass(t, 20, "3.7507", 0)}, at(t, "3.7511"), tenth, 11.4)
	if in(c.Left) != "0.0004" || in(c.Taken) != "0.0006" || c.Strokes != 30 || c.PerStep != 5 || c.ToGo != 20 || c.Wait {
		t.Errorf("%+v", c)
	}
}

// A cast-iron bore (11.4e-6 per °C: Callister, Table B.6) of 3.75 in that is
// 6 °C warm reads 0.00026 large, and what is left is more than it seems.
func TestCountdownOfAWarmBore(t *testing.T) {
	tenth := length.Inch / 10000
	c := Count([]Pass{pass(t, 0, "3.7501", 0), pass(t, 20, "3.7507", 6)}, at(t, "3.7511"), tenth, 11.4)
	if got := c.Left.Format(length.In, 5); got != "0.00066" || c.ReadsLarge.Format(length.In, 5) != "0.00026" || !c.Wait || c.Warmer != 6 {
		t.Errorf("left %s: %+v", got, c)
	}
	if c.ToGo != 39 {
		t.Errorf("%d strokes to go at %g to the step", c.ToGo, c.PerStep)
	}
	if c = Count([]Pass{pass(t, 0, "3.7501", 0.5)}, at(t, "3.7511"), tenth, 11.4); c.Wait {
		t.Errorf("half a degree matters: %+v", c)
	}
}

func TestCountdownWithoutARate(t *testing.T) {
	tenth := length.Inch / 10000
	for name, passes := range map[string][]Pass{
		"begun":         {pass(t, 0, "3.7501", 0)},
		"nothing taken": {pass(t, 0, "3.7501", 0), pass(t, 10, "3.7501", 0)},
		"no strokes":    {pass(t, 0, "3.7501", 0), pass(t, 0, "3.7503", 0)},
		"not measured":  {pass(t, 0, "3.7501", 0), pass(t, 10, "", 0)},
		"smaller":       {pass(t, 0, "3.7501", 0), pass(t, 10, "3.7500", 0)},
	} {
		if c := Count(passes, at(t, "3.7511"), tenth, 11.4); c.ToGo != 0 || c.PerStep != 0 {
			t.Errorf("%s: %+v", name, c)
		}
	}
	if c := Count(nil, at(t, "3.7511"), tenth, 11.4); c.Left.Measured() {
		t.Errorf("no pass: %+v", c)
	}
	past := Count([]Pass{pass(t, 0, "3.7501", 0), pass(t, 10, "3.7512", 0)}, at(t, "3.7511"), tenth, 11.4)
	if in(past.Left) != "-0.0001" || past.ToGo != 0 || past.PerStep == 0 {
		t.Errorf("past the target: %+v", past)
	}
}
