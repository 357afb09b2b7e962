package engine_test

import (
	"strconv"
	"strings"
	"testing"

	"borewright/engine"
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// decided is a bore and its piston, read with gauges of a step and a pooled
// repeatability, whose clearance of 0.0020 in lies below a limit.
func decided(t *testing.T, decision, step, s, most string, times int) engine.Finding {
	t.Helper()
	bodies := bareSession(t, plan.Default(plan.Inline, 1, false), []string{"bore clearance - " + most},
		group(plan.Bore, 1, "across"), group(plan.Piston, 1, "across"))
	i := gauge.Instrument{ID: "g", Name: "gauge", Kind: gauge.Direct, Unit: length.In, Graduation: inch(t, "0.0001"), Step: inch(t, step)}
	if s != "" {
		i.S, i.DF = inch(t, s), 50
	}
	bodies = append(bodies, record.Rules{Decision: decision}, record.Instrument{Instrument: i},
		record.Setting{Setting: gauge.Setting{ID: "s", Instrument: "g", On: gauge.OnScale}}, record.Set{Set: gauge.Set{ID: "t", Setting: "s"}})
	for of, size := range map[string]string{"bore/1": "3.75000", "piston/1": "3.74800"} {
		for k := range times {
			r := read(t, of, "a/across="+size)[0].(record.Reading)
			r.Set, r.As = "t", record.First
			if k > 0 {
				r.As = record.Repeat
			}
			bodies = append(bodies, r)
		}
	}
	fs := engine.Assess(replay(t, bodies)).Findings
	if len(fs) != 1 {
		t.Fatalf("%d findings, want 1", len(fs))
	}
	return *fs[0]
}

func TestTooCloseNeedsAFinerGauge(t *testing.T) {
	f := decided(t, record.Guarded, "0.0001", "", "0.00205", 1)
	if f.Judgement.Verdict != limit.TooClose || !strings.Contains(f.Doubt.Settles, "finer gauge") {
		t.Errorf("0.00005 in inside: %s, %q", f.Judgement.Verdict, f.Doubt.Settles)
	}
}

func TestTooCloseNamesHowManyReadingsSettleIt(t *testing.T) {
	f := decided(t, record.Guarded, "0.00002", "0.0001", "0.00212", 1)
	if f.Judgement.Verdict != limit.TooClose {
		t.Fatalf("0.00012 in inside with s 0.0001 is %s, U %d pm", f.Judgement.Verdict, f.Doubt.Expanded)
	}
	k, err := strconv.Atoi(strings.Fields(f.Doubt.Settles)[0])
	if err != nil || k < 1 {
		t.Fatalf("%q names no number of readings", f.Doubt.Settles)
	}
	// That many more readings of exactly the same size: repeats that agree make
	// the pooled repeatability smaller too, so it is settled all the more.
	if f := decided(t, record.Guarded, "0.00002", "0.0001", "0.00212", 1+k); f.Judgement.Verdict != limit.InsideNew {
		t.Errorf("after %d more readings it is %s", k, f.Judgement.Verdict)
	}
}

func TestSimpleAcceptanceShowsTheDoubt(t *testing.T) {
	for _, most := range []string{"0.00205", "0.00212"} {
		f := decided(t, record.Simple, "0.0001", "0.0001", most, 1)
		if f.Judgement.Verdict != limit.InsideNew || !f.Judgement.Doubtful || f.Doubt.Chance <= 0.5 || f.Doubt.Chance >= 1 {
			t.Errorf("at most %s: %s, doubtful %v, chance %.3f", most, f.Judgement.Verdict, f.Judgement.Doubtful, f.Doubt.Chance)
		}
	}
}

func TestAWellKnownValueIsNotDoubted(t *testing.T) {
	f := decided(t, record.Simple, "0.0001", "", "0.0030", 1)
	if f.Judgement.Doubtful || f.Doubt.Settles != "" || f.Doubt.Chance < 0.999 {
		t.Errorf("doubtful %v, %q, chance %v", f.Judgement.Doubtful, f.Doubt.Settles, f.Doubt.Chance)
	}
}

// The micrometer's error is in the size and not in the clearance, and the
// budgets say so.
func TestTheChainsBudgetSaysWhatCancels(t *testing.T) {
	s := chain(t, "0.0003")
	mic := s.Settings()[0]
	mic.Doubt = inch(t, "0.0003")
	bodies := make([]record.Body, 0, len(s.Events())+1)
	for _, e := range s.Events() {
		bodies = append(bodies, e.Body)
	}
	a := engine.Assess(replay(t, append(bodies, record.Setting{Setting: mic})))
	for _, f := range a.Findings {
		if !f.Value.Measured() {
			continue // main 2 was not read
		}
		lines := ""
		for _, l := range f.Doubt.Budget.Lines {
			lines += l.Name + "; "
		}
		if f.On == limit.Size && !strings.Contains(lines, "the scale of micrometer") {
			t.Errorf("the size's doubt is %s: the micrometer is not in it", lines)
		}
		if f.On == limit.Clearance && (strings.Contains(lines, "the scale of micrometer") || len(f.Doubt.Budget.Cancelled) == 0) {
			t.Errorf("the clearance's doubt is %s, cancelled %v", lines, f.Doubt.Budget.Cancelled)
		}
	}
}

func TestSizesComeTo20Degrees(t *testing.T) {
	// NPL, FAQ on correcting lengths to 20 °C (2010): steel, 500.035 mm at
	// 23.7 °C, 11.7e-6 per °C, is 500.013 mm at 20 °C. The gauge is taken to be
	// without expansion.
	bodies := bareSession(t, plan.Default(plan.Inline, 1, false), nil, group(plan.Bore, 1, "across"))
	size, _ := length.Parse("500.035 mm", length.MM)
	grad, _ := length.Parse("0.001 mm", length.MM)
	bodies = append(bodies,
		record.Given{Name: engine.GivenExpansion, Of: "bore", Value: "11.7", Source: "steel"},
		record.Instrument{Instrument: gauge.Instrument{ID: "g", Name: "gauge", Kind: gauge.Direct, Unit: length.MM, Graduation: grad, Alpha: "0"}},
		record.Setting{Setting: gauge.Setting{ID: "s", Instrument: "g", On: gauge.OnScale}},
		record.Set{Set: gauge.Set{ID: "t", Setting: "s", At: gauge.Temperatures{Part: "23.7", Gauge: "20"}}},
		record.Reading{Of: feature(t, "bore/1"), Level: "a", Dir: "across", Set: "t", Keyed: "500.035", Via: record.ViaKeypad, Size: size, As: record.First})
	s := replay(t, bodies)
	if got := s.Figure(s.Places()[0], 0).Format(length.MM, 3); got != "500.013" {
		t.Errorf("at 20 °C it is %s mm, want 500.013", got)
	}
}
