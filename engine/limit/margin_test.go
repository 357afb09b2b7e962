package limit_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/length"
	. "borewright/engine/limit"
	"borewright/engine/plan"
)

func TestMargin(t *testing.T) {
	bore := Limits{On: Size, New: between(t, "5.7510 in", "5.7530 in"), Wear: between(t, "", "5.7600 in")}
	aimed := Limits{On: Size, New: between(t, "3.7500 in", "3.7510 in"), Target: w(t, "3.7502 in")}
	form := Limits{On: OutOfRound, New: between(t, "", "0.0005 in")}
	gap := Limits{On: Clearance, New: between(t, "0.0020 in", "")}
	loose := Limits{On: Clearance, Wear: between(t, "", "0.0040 in")}
	journal := Limits{On: Size, New: between(t, "2.998 in", "2.999 in"), Wear: between(t, "2.996 in", "")}
	for _, c := range []struct {
		name, value string
		l           Limits
		s           Subject
		want        float64
		low         bool
	}{
		{"middle", "5.7520 in", bore, Subject{}, 0, false},
		{"half of the upper half", "5.7525 in", bore, Subject{}, 0.5, false},
		{"half of the lower half", "5.7515 in", bore, Subject{}, 0.5, true},
		{"on the low limit", "5.7510 in", bore, Subject{}, 1, true},
		{"beyond the high limit", "5.7540 in", bore, Subject{}, 2, false},
		{"on the target", "3.7502 in", aimed, Subject{}, 0, false},
		{"below the target", "3.7501 in", aimed, Subject{}, 0.5, true},
		{"above the target", "3.7506 in", aimed, Subject{}, 0.5, false},
		{"form", "0.0002 in", form, Subject{}, 0.4, false},
		{"form outside", "0.0006 in", form, Subject{}, 1.2, false},
		{"play", "0.0010 in", loose, Subject{}, 0.25, false},
		{"worn bore at its new high limit", "5.7530 in", bore, Subject{Shape: plan.Hole, Judge: Wear}, 0, false},
		{"worn bore below it", "5.7500 in", bore, Subject{Shape: plan.Hole, Judge: Wear}, 0, false},
		{"worn bore half-way", "5.7565 in", bore, Subject{Shape: plan.Hole, Judge: Wear}, 0.5, false},
		{"worn journal half-way", "2.997 in", journal, Subject{Shape: plan.Shaft, Judge: Wear}, 0.5, true},
		{"worn journal outside", "2.995 in", journal, Subject{Shape: plan.Shaft, Judge: Wear}, 1.5, true},
		{"gap twice its limit", "0.0040 in", gap, Subject{}, 0.5, true},
		{"gap half its limit", "0.0010 in", gap, Subject{}, 2, true},
		{"gap on its limit", "0.0020 in", gap, Subject{}, 1, true},
	} {
		got := c.l.Judge(at(t, c.value), c.s)
		if !got.Ranked || math.Abs(got.Margin-c.want) > 1e-12 || got.LowSide != c.low {
			t.Errorf("%s: %v (ranked %v, low %v), want %v (low %v)", c.name, got.Margin, got.Ranked, got.LowSide, c.want, c.low)
		}
	}
}

func TestNoReference(t *testing.T) {
	hole, shaft := Subject{Shape: plan.Hole}, Subject{Shape: plan.Shaft}
	worn := Limits{On: Size, Wear: between(t, "", "5.76 in")}
	for _, c := range []struct {
		name  string
		l     Limits
		s     Subject
		value string
	}{
		{"a size without a new limit", worn, hole, "5.75 in"},
		{"a size without a shape", Limits{On: Size, New: between(t, "", "5.75 in"), Wear: worn.Wear, JudgeBy: Wear}, Subject{}, "5.75 in"},
		{"a high limit on a shaft", Limits{On: Size, New: between(t, "", "5.75 in")}, shaft, "5.7 in"},
		{"a low limit on a hole", Limits{On: Size, New: between(t, "5.75 in", "")}, hole, "5.8 in"},
		{"a wear limit inside the new one", Limits{On: Size, New: between(t, "", "5.77 in"), Wear: worn.Wear, JudgeBy: Wear}, hole, "5.78 in"},
		{"a taper with a low limit alone", Limits{On: Taper, New: between(t, "-0.001 in", "")}, hole, "0 in"},
		{"a taper with a low limit above zero", Limits{On: Taper, New: between(t, "0.0002 in", "")}, hole, "0.0005 in"},
		{"no gap where there may be none", Limits{On: Clearance, New: between(t, "0 in", "")}, hole, "0 in"},
		{"a gap that may be nothing", Limits{On: Clearance, New: between(t, "0 in", "")}, hole, "0.001 in"},
	} {
		got := c.l.Judge(at(t, c.value), c.s)
		if got.Ranked || got.Verdict == NotMeasured || got.Verdict == NoLimits {
			t.Errorf("%s: %+v", c.name, got)
		}
	}
}

func TestTargetIsAReference(t *testing.T) {
	l := Limits{On: Size, Wear: between(t, "", "5.76 in"), Target: w(t, "5.75 in")}
	got := l.Judge(at(t, "5.755 in"), Subject{Shape: plan.Hole})
	if !got.Ranked || math.Abs(got.Margin-0.5) > 1e-12 {
		t.Errorf("%+v", got)
	}
}

// No way from the target to the limit: 0 inside, above 1 outside.
func TestZeroSpan(t *testing.T) {
	exact := Limits{On: Size, New: between(t, "60 mm", "60 mm")}
	aimed := Limits{On: Size, New: between(t, "60 mm", "60.02 mm"), Target: w(t, "60 mm")}
	high := Limits{On: Size, New: between(t, "60 mm", "60.02 mm"), Target: w(t, "60.02 mm")}
	alone := Limits{On: Size, New: between(t, "", "60 mm")}
	none := Limits{On: OutOfRound, New: between(t, "", "0 mm")}
	for _, c := range []struct {
		name, value string
		l           Limits
		want        float64
		low         bool
	}{
		{"on it", "60 mm", exact, 0, false},
		{"above it", "60.5 mm", exact, 1.5, false},
		{"below it", "59.5 mm", exact, 1.5, true},
		{"a target on the limit", "59.75 mm", aimed, 1.25, true},
		{"a target on the high limit", "60.02 mm", high, 0, false},
		{"a target on the high limit, below it", "60.01 mm", high, 0.5, true},
		{"a new limit alone", "59.5 mm", alone, 0, false},
		{"a new limit alone, outside", "61 mm", alone, 2, false},
		{"nothing allowed", "0 mm", none, 0, false},
		{"nothing allowed, outside", "0.5 mm", none, 1.5, false},
		{"by a picometre", "0.000000001 mm", none, 1 + 1e-9, false},
	} {
		got := c.l.Judge(at(t, c.value), Subject{Shape: plan.Hole})
		if !got.Ranked || math.Abs(got.Margin-c.want) > 1e-12 || got.LowSide != c.low {
			t.Errorf("%s: %+v, want %v", c.name, got, c.want)
		}
	}
}

func TestInterference(t *testing.T) {
	l := Limits{On: Clearance, New: between(t, "0.0020 in", "")}
	values := []string{"-0.0010 in", "-0.0001 in", "0 in", "0.000000005 in", "0.0010 in"}
	var last Judgement
	for i, v := range values {
		got := l.Judge(at(t, v), Subject{})
		if got.Verdict != Outside || !got.Ranked || got.Margin <= 1 || math.IsInf(got.Margin, 0) {
			t.Errorf("%s: %+v", v, got)
		}
		if got.Interference != (i < 3) || got.Interference != (got.Margin >= Interfering) {
			t.Errorf("%s: interference %v, margin %v", v, got.Interference, got.Margin)
		}
		if i > 0 && !Less(last, got) {
			t.Errorf("%s ranks before %s", v, values[i-1])
		}
		last = got
	}
	loose := Limits{On: Clearance, New: between(t, "", "0.0040 in")}
	if got := loose.Judge(at(t, "-0.001 in"), Subject{}); !got.Interference || got.Margin != 0 {
		t.Errorf("with a high limit alone: %+v", got)
	}
	touching := Limits{On: Clearance, New: between(t, "0 in", "")}
	if got := touching.Judge(at(t, "-0.001 in"), Subject{}); got.Margin < Interfering {
		t.Errorf("with a low limit of zero: %+v", got)
	}
}

// limits draws valid and odd limits of every kind of margin.
func limits() *rapid.Generator[Limits] {
	return rapid.Custom(func(t *rapid.T) Limits {
		l := Limits{On: rapid.SampledFrom(Characteristics()).Draw(t, "on")}
		base, low := int64(0), int64(-40)
		if l.On == Size {
			base, low = 40_000, 0
		}
		for i, w := range []*length.Written{&l.New.Low, &l.New.High, &l.Wear.Low, &l.Wear.High, &l.Target} {
			if rapid.Bool().Draw(t, "has") {
				*w = written(base+low, base+40).Draw(t, []string{"low", "high", "worn low", "worn high", "target"}[i])
			}
		}
		return l
	})
}

func TestMarginAgreesWithVerdict(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, s := limits().Draw(t, "limits"), subject().Draw(t, "subject")
		y := value(l).Draw(t, "y")
		j := l.Judge(y, s)
		if !j.Ranked {
			return
		}
		if (j.Margin > 1) != (j.Verdict == Outside) {
			t.Fatalf("%+v", j)
		}
		onLimit := j.Value.Cmp(j.Nearest) == 0
		if onLimit && j.Margin != 1 && j.Margin != 0 || j.Margin < 0 || math.IsNaN(j.Margin) || math.IsInf(j.Margin, 0) {
			t.Fatalf("%+v", j)
		}
	})
}

// Further from the target on one side never uses less of the margin.
func TestMarginMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, s := limits().Draw(t, "limits"), subject().Draw(t, "subject")
		a, b := l.Judge(value(l).Draw(t, "a"), s), l.Judge(value(l).Draw(t, "b"), s)
		if !a.Ranked || !b.Ranked || a.LowSide != b.LowSide {
			return
		}
		further := a.Value.Cmp(b.Value)
		if a.LowSide {
			further = -further
		}
		if further > 0 && a.Margin < b.Margin || further < 0 && a.Margin > b.Margin || further == 0 && a.Margin != b.Margin {
			t.Fatalf("%v uses %v, %v uses %v", a.Value, a.Margin, b.Value, b.Margin)
		}
	})
}

func subject() *rapid.Generator[Subject] {
	return rapid.Custom(func(t *rapid.T) Subject {
		return Subject{
			Shape: rapid.SampledFrom([]plan.Shape{plan.NoShape, plan.Hole, plan.Shaft}).Draw(t, "shape"),
			Judge: rapid.SampledFrom([]string{"", New, Wear}).Draw(t, "judge"),
		}
	})
}

// value draws figures on, near and far from the limits.
func value(l Limits) *rapid.Generator[length.Exact] {
	return rapid.Custom(func(t *rapid.T) length.Exact {
		base := int64(0)
		if l.On == Size {
			base = 40_000
		}
		y := written(base-60, base+60).Draw(t, "near").Exact()
		return y.Add(length.Exact{Sum: length.Length(rapid.Int64Range(-2, 2).Draw(t, "thirds")), Count: 3})
	})
}
