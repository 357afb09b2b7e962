package engine_test

import (
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// drifting is four bores read one after another in a set whose zero came back
// 0.0001 in larger, each event later after the one before.
func drifting(t *testing.T, rules record.Rules) *engine.Session {
	t.Helper()
	s := &engine.Session{}
	head := record.Head{}
	for i, b := range append(gauged(t), rules,
		deviation(t, "bore/1", "ta", "0.0003"), deviation(t, "bore/2", "ta", "0.0003"),
		zero(t, "ta", "0.0001"), deviation(t, "bore/3", "ta", "0.0003")) {
		at := time.Date(2026, 3, 2, 8, i*i, 0, 0, time.UTC)
		e, err := record.Seal(record.Event{At: at, By: "ek", Body: b}, head)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := s.Apply(e); err != nil {
			t.Fatal(err)
		}
		head = e.Head
	}
	return s
}

func TestDriftIsSpreadOverTheSetByTime(t *testing.T) {
	s := drifting(t, record.Rules{DriftSpread: true})
	made, check := s.Events()[6].At, s.Events()[len(s.Events())-2].At // the setting of gauge a, and its check
	tenth := length.Inch / 10_000
	for n, p := range s.Places()[:3] {
		took := s.Now(p)[0]
		want := tenth // behind the last check it is out by what that said
		if took.At.Before(check) {
			want = length.Length(int64(tenth) * int64(took.At.Sub(made)/time.Second) / int64(check.Sub(made)/time.Second))
		}
		if got := s.Drift(took); got-want > 1 || want-got > 1 || got <= 0 {
			t.Errorf("bore %d: drift %d pm, want %d", n+1, got, want)
		}
		size := length.Of(3_7503 * tenth).Sub(length.Of(s.Drift(took)))
		if got := s.Figure(p, 0); got.Cmp(size) != 0 {
			t.Errorf("bore %d is %s in, want %s", n+1, got.Format(length.In, 7), size.Format(length.In, 7))
		}
		if !strings.Contains(s.DriftNote(p), "corrected by -0.000") {
			t.Errorf("bore %d: says %q", n+1, s.DriftNote(p))
		}
	}
	if got := s.Log()[14].Text; !strings.Contains(got, "drift spread over the set by time") {
		t.Errorf("the log says %q", got)
	}
}

// Drift is spread, or it is doubt: never both, and a bad zero is neither.
func TestDriftIsEitherSpreadOrDoubt(t *testing.T) {
	one := plan.Feature{Family: plan.Bore, At: 1}
	inBudget := func(s *engine.Session) bool {
		for _, f := range engine.Assess(s).Findings {
			if f.Of == one {
				for _, l := range f.Doubt.Budget.Lines {
					if strings.Contains(l.Name, "drift") {
						return true
					}
				}
			}
		}
		return false
	}
	spread, doubt := drifting(t, record.Rules{DriftSpread: true}), drifting(t, record.Rules{})
	if inBudget(spread) || !inBudget(doubt) {
		t.Errorf("in the budget when spread: %v, when not: %v", inBudget(spread), inBudget(doubt))
	}
	if d := doubt.Drift(doubt.Now(doubt.Places()[0])[0]); d != 0 || doubt.DriftNote(doubt.Places()[0]) != "" {
		t.Errorf("not chosen, and yet %d pm are taken off", d)
	}
	bad := replay(t, append(gauged(t), record.Rules{DriftSpread: true}, deviation(t, "bore/1", "ta", "0.0003"), zero(t, "ta", "0.0004")))
	if d := bad.Drift(bad.Now(bad.Places()[0])[0]); d != 0 {
		t.Errorf("%d pm of a zero that cannot be believed are spread", d)
	}
}

// What is assessed again after each event equals assessing everything.
func TestSpreadDriftIsAssessedAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bodies := append(gauged(t), record.Rules{DriftSpread: true})
		for range rapid.IntRange(1, 8).Draw(t, "events") {
			set := rapid.SampledFrom([]string{"ta", "tb"}).Draw(t, "set")
			if rapid.Bool().Draw(t, "check") {
				bodies = append(bodies, zero(t, set, rapid.SampledFrom([]string{"0.0001", "-0.0001", "0.00005", "0.0004"}).Draw(t, "drift")))
				continue
			}
			bodies = append(bodies, deviation(t, rapid.SampledFrom([]string{"bore/1", "bore/2"}).Draw(t, "bore"), set, "0.0003"))
		}
		var s engine.Session
		var a *engine.Assessment
		for _, e := range seal(t, bodies) {
			touched, err := s.Apply(e)
			if err != nil {
				t.Fatal(err)
			}
			if a == nil {
				a = engine.Assess(&s)
			}
			a = a.Again(&s, touched)
			same(t, a, engine.Assess(&s))
		}
	})
}
