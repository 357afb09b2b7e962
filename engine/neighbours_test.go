package engine_test

import (
	"math"
	"strings"
	"testing"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// TM 5-6115-593-34: the clearances of adjacent mains differ by at most 0.001;
// clearances ours.
func TestNeighbouringMains(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		clearances []int
		text       string
		verdict    limit.Verdict
		at         int
	}{
		{[]int{20, 30, 24}, "main bearings 1 and 2: step to the next 0.0010 of 0.0010 in allowed", limit.InsideNew, 1},
		{[]int{20, 24, 13}, "main bearings 2 and 3: step to the next 0.0011 of 0.0010 in allowed", limit.Outside, 2},
	} {
		a := engine.Assess(mains(t, c.clearances, nil, step(t, "0.0010")))
		found := false
		for _, f := range a.Findings {
			if f.On != limit.Step {
				continue
			}
			found = true
			if f.Text != c.text || f.Judgement.Verdict != c.verdict || f.Of.At != c.at || f.With.At != c.at+1 {
				t.Errorf("%v: %s, %v", c.clearances, f.Text, f.Judgement.Verdict)
			}
		}
		if !found {
			t.Errorf("%v: the step is not judged", c.clearances)
		}
	}
	// Both of the two have it in their line, the third has not.
	a := engine.Assess(mains(t, []int{20, 32, 24}, nil, step(t, "0.0010")))
	for _, r := range a.Mains {
		has := false
		for _, f := range r.Findings {
			has = has || f.On == limit.Step
		}
		if has != (r.At < 3) {
			t.Errorf("main %s has the step: %v", r.Label, has)
		}
	}
}

func TestNothingToCompare(t *testing.T) {
	t.Parallel()
	a := engine.Assess(mains(t, []int{20}, nil, step(t, "0.0010")))
	want(t, texts(a), "not measured: main bearings: step to the next not measured")
	bad := limit.Limits{On: limit.Step, Of: "bore", New: limit.Range{High: inch(t, "0.0010")}}
	if err := bad.Validate(); err == nil || !strings.Contains(err.Error(), "neighbours are compared of main bearings") {
		t.Errorf("bores are compared: %v", err)
	}
}

// Shells bring neighbours nearer where their limit says so.
func TestARemedyForNeighbours(t *testing.T) {
	t.Parallel()
	s := mains(t, []int{20, 30, 20}, [][2]string{{"0.001", "2"}}, step(t, "0.0008"))
	got := remedies(s)
	if !strings.Contains(got, "fit shells, upper/lower: main bearing 2 0.001/0.001, clearance 0.0030 to 0.0020 in") {
		t.Errorf("%s", got)
	}
	if got := remedies(mains(t, []int{20, 29}, nil, step(t, "0.0008"))); !strings.Contains(got, "bring main bearing 1 and main bearing 2 nearer by 0.0001 in; no shells on hand") {
		t.Errorf("%s", got)
	}
}

// A low-only gap of 0.014 against 0.016 is outside, its margin over 1.
func TestALowOnlyGapRanks(t *testing.T) {
	t.Parallel()
	s := one(t, 1, []string{"ring-gap end_gap 0.0160 -"}, []plan.Group{group(plan.RingGap, 1, plan.Once)}, map[string]string{"ring-gap/1/top": "a/once=0.0140"})
	f := engine.Assess(s).Findings[0]
	if f.Judgement.Verdict != limit.Outside || math.Abs(f.Judgement.Margin-16.0/14) > 1e-12 {
		t.Errorf("%v, margin %g", f.Judgement.Verdict, f.Judgement.Margin)
	}
}

// With a target off the middle the margin is 0 there and 1 on either limit, and
// a remedy goes to it.
func TestAnOffCentreTargetRanks(t *testing.T) {
	t.Parallel()
	at := func(gap string) engine.Finding {
		l := limit.Limits{On: limit.Protrusion, Of: "liner", New: limit.Range{Low: inch(t, "0.0020"), High: inch(t, "0.0060")}, Target: inch(t, "0.0050")}
		s := one(t, 1, nil, []plan.Group{group(plan.Liner, 1, plan.Once)}, map[string]string{"liner/1": "a/once=" + gap}, record.Limit{Limits: l})
		return *engine.Assess(s).Findings[0]
	}
	for gap, want := range map[string]float64{"0.0050": 0, "0.0060": 1, "0.0020": 1, "0.0035": 0.5, "0.0055": 0.5, "0.0065": 1.5} {
		if got := at(gap).Judgement.Margin; math.Abs(got-want) > 1e-12 {
			t.Errorf("%s uses %g, want %g", gap, got, want)
		}
	}
}

// A gap's depth: 0.0200 measured where the bore is 0.001 larger than at its
// smallest is π·0.001 less there.
func TestARingsGapAtItsSmallest(t *testing.T) {
	t.Parallel()
	bore := group(plan.Bore, 3, "across")
	for i, d := range []string{"0.5", "2.5", "4.5"} {
		bore.Levels[i].Depth = inch(t, d)
	}
	reads := map[string]string{"bore/1": "a/across=4.0010 b/across=4.0000 c/across=4.0020", "ring-gap/1/top": "a/once=0.0200"}
	groups := []plan.Group{bore, group(plan.RingGap, 1, plan.Once)}
	gap := feature(t, "ring-gap/1/top")
	for name, c := range map[string]struct {
		more      []record.Body
		gap       string
		corrected bool
		target    string
	}{
		"at the top":          {[]record.Body{given(engine.GivenGapDepth, "", "0.5 in")}, "0.01686", true, ""},
		"at the smallest":     {[]record.Body{given(engine.GivenGapDepth, "", "2.5 in")}, "0.02000", false, ""},
		"below the travel":    {[]record.Body{given(engine.GivenGapDepth, "", "4.5 in"), given(engine.GivenTravelBottom, "", "1.5 in")}, "0.01529", true, ""},
		"no depth":            {nil, "0.02000", false, ""},
		"a factor":            {[]record.Body{given(engine.GivenGapFactor, "", "0.0035")}, "0.02000", false, "0.01400"},
		"a factor of the top": {[]record.Body{given(engine.GivenGapFactor, "", "0.0035"), given("top "+engine.GivenGapFactor, "", "0.0045 in/in")}, "0.02000", false, "0.01800"},
	} {
		s := one(t, 1, nil, groups, reads, c.more...)
		r := s.Ring(engine.Assess(s), gap)
		if r.Gap.Format(length.In, 5) != c.gap || r.Corrected != c.corrected || r.Target.Format(length.In, 5) != c.target {
			t.Errorf("%s: gap %s, corrected %v, target %s", name, r.Gap.Format(length.In, 5), r.Corrected, r.Target.Format(length.In, 5))
		}
	}
}
