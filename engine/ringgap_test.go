package engine_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine"
	"borewright/engine/enginetest"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// ringed is a bore that is 4.0010 in at 1 in deep and 4.0000 at 4 in, with a top
// ring gap keyed at a depth and a limit on it.
func ringed(t *testing.T, gap, limits string, more ...record.Body) *engine.Session {
	t.Helper()
	bore := group(plan.Bore, 2, "across", "along")
	bore.Levels[0].Depth, bore.Levels[1].Depth = inch(t, "1.0"), inch(t, "4.0")
	return one(t, 1, []string{limits}, []plan.Group{bore, group(plan.RingGap, 1, plan.Once)}, map[string]string{
		"bore/1":         "a/across=4.0012 a/along=4.0008 b/across=4.0000 b/along=4.0000",
		"ring-gap/1/top": "a/once=" + gap,
	}, more...)
}

// gapFinding is what is found of the top ring's gap.
func gapFinding(t *testing.T, a *engine.Assessment) engine.Finding {
	t.Helper()
	for _, f := range a.Findings {
		if f.On == limit.EndGap && f.Of.Part == plan.Top {
			return *f
		}
	}
	t.Fatal("the gap is not judged")
	return engine.Finding{}
}

// The verdict on a gap goes by what it is at the smallest place of the ring's
// travel: 0.0170 read where the bore is 0.001 larger is π·0.001 less there (the
// circumference follows the mean diameter; TM 5-6115-593-34 p. 1-9).
func TestAGapIsJudgedWhereTheBoreIsSmallest(t *testing.T) {
	t.Parallel()
	deep := func(in string) record.Body { return given(engine.GivenGapDepth, "ring-gap", in+" in") }
	for name, c := range map[string]struct {
		more    []record.Body
		value   string
		verdict limit.Verdict
		says    string
	}{
		"where the bore is large": {[]record.Body{deep("1.0")}, "0.01386", limit.Outside, "end gap 0.0139, too tight: at least 0.0160 in; 0.0170 as read"},
		"half-way":                {[]record.Body{deep("2.5")}, "0.01543", limit.Outside, "end gap 0.0154, too tight: at least 0.0160 in; 0.0170 as read"},
		"where it is smallest":    {[]record.Body{deep("4.0")}, "0.01700", limit.InsideNew, "end gap 0.0170, at least 0.0160 in"},
		"not down to there":       {[]record.Body{deep("1.0"), given(engine.GivenTravelBottom, "", "1.0 in")}, "0.01700", limit.InsideNew, "end gap 0.0170, at least 0.0160 in"},
		"no depth":                {nil, "0.01700", limit.InsideNew, "end gap 0.0170, at least 0.0160 in"},
	} {
		s := ringed(t, "0.0170", "ring-gap end_gap 0.0160 -", c.more...)
		f := gapFinding(t, engine.Assess(s))
		if got := f.Value.Format(length.In, 5); got != c.value || f.Judgement.Verdict != c.verdict || !strings.HasSuffix(f.Text, c.says) {
			t.Errorf("%s: %s is %v: %s", name, got, f.Judgement.Verdict, f.Text)
		}
		if r := s.Ring(engine.Assess(s), f.Of); r.Gap != f.Value {
			t.Errorf("%s: the ring's gap is %s, judged is %s", name, r.Gap.Format(length.In, 6), f.Value.Format(length.In, 6))
		}
	}
}

// What the verdict says is missing is what filing takes: to the limit, to a
// target by factor, to the middle of two limits.
func TestFilingTakesWhatTheVerdictMisses(t *testing.T) {
	t.Parallel()
	deep := given(engine.GivenGapDepth, "ring-gap", "1.0 in")
	for name, c := range map[string]struct {
		gap, limits string
		more        []record.Body
		want        string
	}{
		"to the limit":  {"0.0170", "ring-gap end_gap 0.0160 -", nil, "file top ring 1 to a gap of 0.0192 in: 0.0022 in to take, its gap being 0.01386 in at the smallest place of its travel"},
		"to the middle": {"0.0170", "ring-gap end_gap 0.0160 0.0200", nil, "file top ring 1 to a gap of 0.0212 in: 0.0042 in to take"},
		"by a factor":   {"0.0170", "ring-gap end_gap 0.0160 -", []record.Body{given(engine.GivenGapFactor, "", "0.0045")}, "file top ring 1 to a gap of 0.0212 in: 0.0042 in to take"},
		"too wide":      {"0.0240", "ring-gap end_gap 0.0160 0.0200", nil, "replace top ring 1: its gap is 0.00086 in over"},
	} {
		s := ringed(t, c.gap, c.limits, append(c.more, deep)...)
		a := engine.Assess(s)
		got := remedies(s)
		if !strings.Contains(got, c.want) {
			t.Errorf("%s: %s, want %s", name, got, c.want)
		}
		checkRemedies(t, s, a)
	}
}

// A gap of 0.014 against at least 0.016 is outside with a margin over 1: 0.016
// over 0.014.
func TestALowGapUsesMoreThanItsMargin(t *testing.T) {
	t.Parallel()
	f := gapFinding(t, engine.Assess(ringed(t, "0.0140", "ring-gap end_gap 0.0160 -")))
	if f.Judgement.Verdict != limit.Outside || !f.Judgement.LowSide || engine.MarginText(f.Judgement.Margin) != "1.14" {
		t.Errorf("%s: %v, margin %g", f.Text, f.Judgement.Verdict, f.Judgement.Margin)
	}
}

// A bore that is read after its rings moves the verdicts on their gaps at once,
// and only what it touches is assessed again.
func TestABoreMovesTheGapsOfItsRings(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(rt *rapid.T) {
		s := ringed(t, "0.0170", "ring-gap end_gap 0.0160 -", given(engine.GivenGapDepth, "", "2.0 in"))
		a := engine.Assess(s)
		for range rapid.IntRange(1, 4).Draw(rt, "readings") {
			p := rapid.SampledFrom(s.Plan().Places(feature(t, "bore/1"))).Draw(rt, "place")
			size := inch(t, fmt.Sprintf("4.00%02d", rapid.IntRange(0, 30).Draw(rt, "size")))
			b := record.Reading{Of: p.Of, Level: p.Level, Dir: p.Dir, Keyed: size.Number(), Via: record.ViaFile, Size: size, As: record.First}
			all := enginetest.Seal(t, s.Events(), "ek", []record.Body{b})
			touched, err := s.Apply(all[len(all)-1])
			if err != nil {
				rt.Fatal(err)
			}
			a = a.Again(s, touched)
			sameFindings(rt, a, engine.Assess(s))
		}
	})
}

// The doubt of a gap brought to another depth holds that of the bore there, π
// times: bore 5 of the demo session is read with a gauge of which past repeats
// are known, its rings with feelers of which nothing is.
func TestTheDoubtOfAGapHoldsTheBores(t *testing.T) {
	t.Parallel()
	_, a := complete(t)
	n := 0
	for _, f := range a.Findings {
		if f.On != limit.EndGap {
			continue
		}
		if f.AsRead.Measured() {
			n++
		}
		holds := strings.Contains(fmt.Sprint(f.Doubt.Budget), "bore gauge with the long head")
		if corrected := f.AsRead.Measured(); holds != corrected {
			t.Errorf("%s: corrected is %v, its doubt holds the bore gauge's: %v", f.Text, corrected, holds)
		}
	}
	if n == 0 {
		t.Error("no gap is corrected")
	}
}
