package engine_test

import (
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// blindly is a blind repeat of a bore.
func blindly(t rapid.TB, of, set, dev string) record.Reading {
	r := deviation(t, of, set, dev)
	r.As, r.Blind = record.Repeat, true
	return r
}

func bore(n int) plan.Place {
	return plan.Place{Of: plan.Feature{Family: plan.Bore, At: n}, Level: "a", Dir: "across"}
}

func TestABlindRepeatChangesNoFigureAndTellsRepeatability(t *testing.T) {
	bodies := append(gauged(t), deviation(t, "bore/1", "ta", "0.0003"), deviation(t, "bore/2", "ta", "0.0004"))
	before := replay(t, bodies)
	s := replay(t, append(bodies, blindly(t, "bore/1", "ta", "0.0005")))
	if a, b := before.Figure(bore(1), 0), s.Figure(bore(1), 0); a.Cmp(b) != 0 {
		t.Errorf("bore 1 went from %s to %s", a.Format(length.In, 5), b.Format(length.In, 5))
	}
	if len(s.Now(bore(1))) != 1 || len(s.Blind(bore(1), 0)) != 1 || len(s.Blind(bore(2), 0)) != 0 {
		t.Errorf("now %d, blind %d", len(s.Now(bore(1))), len(s.Blind(bore(1), 0)))
	}
	// s of two readings 0.0002 apart is 0.0002/√2
	if e := s.Repeatability("a"); e.DF != 1 || length.Of(length.Length(e.S)).Format(length.In, 6) != "0.000141" {
		t.Errorf("repeatability %+v", e)
	}
	if before.Repeatability("a").Known() || s.Repeatability("b").Known() {
		t.Error("what was not repeated is known")
	}
	if s.Resume() != before.Resume() {
		t.Errorf("the hand goes on at %v, not %v", s.Resume(), before.Resume())
	}
}

func TestABlindRepeatIsOfWhatStoodThen(t *testing.T) {
	again := deviation(t, "bore/1", "ta", "0.0010")
	again.As = record.Replace
	s := replay(t, append(gauged(t), deviation(t, "bore/1", "ta", "0.0003"), blindly(t, "bore/1", "ta", "0.0005"), again))
	if len(s.Blind(bore(1), 0)) != 0 || s.Repeatability("a").Known() {
		t.Error("a blind repeat of what was replaced still counts")
	}
	s = replay(t, append(gauged(t), deviation(t, "bore/1", "ta", "0.0003"), blindly(t, "bore/1", "tb", "0.0005")))
	if s.Repeatability("a").Known() || s.Repeatability("b").Known() {
		t.Error("readings of two gauges tell how well one repeats")
	}
}

// asks counts how often an earlier place is asked for, in n readings.
func asks(t *testing.T, rate string, n int) (asked int) {
	t.Helper()
	bodies := append(gauged(t), record.Rules{BlindRate: rate})
	for k := range n {
		r := deviation(t, "bore/"+strconv.Itoa(1+k%4), "ta", "0.0003")
		if k >= 4 {
			r.As = record.Replace
		}
		bodies = append(bodies, r)
		s := replay(t, bodies)
		p, ok := s.BlindPlace(r.Place())
		if q, again := s.BlindPlace(r.Place()); q != p || again != ok {
			t.Fatal("asked twice it answers otherwise")
		}
		if !ok {
			continue
		}
		asked++
		if p.Of.At >= r.Of.At || len(s.Now(p)) == 0 {
			t.Errorf("after %s it asks for %s", r.Of, p.Of)
		}
	}
	return asked
}

func TestBlindRepeatsComeAtTheirRate(t *testing.T) {
	for _, rate := range []string{"", "0"} {
		if n := asks(t, rate, 40); n != 0 {
			t.Errorf("rate %q asks %d times", rate, n)
		}
	}
	// three of four readings have an earlier place in the set
	if n := asks(t, "1", 40); n != 30 {
		t.Errorf("rate 1 asks %d times of 30", n)
	}
	if n := asks(t, "0.3", 100); n < 10 || n > 38 {
		t.Errorf("rate 0.3 asks %d times of 75", n)
	}
}

func TestOnlyPlacesOfTheSameSetAreAskedForAgain(t *testing.T) {
	s := replay(t, append(gauged(t), record.Rules{BlindRate: "1"},
		deviation(t, "bore/1", "tb", "0.0003"), deviation(t, "bore/2", "ta", "0.0003"), deviation(t, "bore/3", "ta", "0.0003")))
	if p, ok := s.BlindPlace(bore(3)); !ok || p != bore(2) {
		t.Errorf("asks for %v, %v", p, ok)
	}
	if _, ok := s.BlindPlace(bore(4)); ok {
		t.Error("a place that was not read has a set")
	}
}

// No blind repeat moves any finding's value.
func TestBlindRepeatsMoveNoFinding(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bodies := append(gauged(t), deviation(t, "bore/1", "ta", "0.0003"), deviation(t, "bore/2", "ta", "0.0004"), deviation(t, "piston/1", "tm", "-0.0035"))
		before := engine.Assess(replay(t, bodies)).Findings
		for range rapid.IntRange(1, 4).Draw(t, "n") {
			of := rapid.SampledFrom([]string{"bore/1", "bore/2", "piston/1"}).Draw(t, "of")
			dev := rapid.SampledFrom([]string{"0.0001", "0.0009", "-0.0020"}).Draw(t, "dev")
			bodies = append(bodies, blindly(t, of, map[bool]string{true: "tm", false: "ta"}[of == "piston/1"], dev))
		}
		after := engine.Assess(replay(t, bodies)).Findings
		for i, f := range before {
			if g := after[i]; f.Of != g.Of || f.On != g.On || f.Value.Measured() != g.Value.Measured() || f.Value.Measured() && f.Value.Cmp(g.Value) != 0 {
				t.Fatalf("%s %s moved to %s %s", f.Of, f.Text, g.Of, g.Text)
			}
		}
	})
}

func TestTheLogSaysThatARepeatWasBlind(t *testing.T) {
	s := replay(t, append(gauged(t), deviation(t, "bore/1", "ta", "0.0003"), blindly(t, "bore/1", "ta", "0.0005")))
	log := s.Log()
	if text := log[len(log)-1].Text; !strings.Contains(text, "(repeat), unseen") {
		t.Errorf("the log says %q", text)
	}
}
