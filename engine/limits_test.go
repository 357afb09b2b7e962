package engine_test

import (
	"errors"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine"
	"borewright/engine/enginetest"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
	"borewright/engine/setup"
)

// taper is a limit on taper in millimetres.
func taper(t rapid.TB, of string, by limit.Definition, high string) limit.Limits {
	t.Helper()
	w, err := length.Parse(high, length.MM)
	if err != nil {
		t.Fatal(err)
	}
	return limit.Limits{On: limit.Taper, Of: of, By: by, New: limit.Range{High: w}}
}

// relimited applies what changes a limit and returns the kinds of the events.
func relimited(t *testing.T, s *engine.Session, was, now limit.Limits) string {
	t.Helper()
	bodies, err := s.ChangeLimit(was, now)
	if err != nil {
		t.Fatal(err)
	}
	enginetest.Apply(t, s, bodies...)
	return enginetest.Kinds(bodies)
}

func TestALimitIsGivenChangedMovedAndTakenAway(t *testing.T) {
	s := replay(t, small(length.MM, plan.ByLevel))
	none := limit.Limits{}
	was, _ := limit.Find(s.Limits(), limit.Taper, feature(t, "bore/1"))
	tighter := taper(t, "bore", "", "0.008")
	alone := taper(t, "bore/2", "", "0.012")
	spread := taper(t, "bore/2", limit.Spread, "0.012")
	for _, c := range []struct {
		name     string
		was, now limit.Limits
		want     string
	}{
		{"the same", was, was, ""},
		{"changed", was, tighter, "limit"},
		{"given to one bore", none, alone, "limit"},
		{"by another definition", alone, spread, "withdrawn, limit"},
		{"taken away", spread, none, "withdrawn"},
		{"taken away with what it was before", tighter, none, "withdrawn, withdrawn"},
		{"taken away twice", tighter, none, ""},
	} {
		if got := relimited(t, s, c.was, c.now); got != c.want {
			t.Errorf("%s: recorded %q, want %q", c.name, got, c.want)
		}
		if has := slices.Contains(s.Limits(), c.now); has != (c.now != none) {
			t.Errorf("%s: the session's limits are %v", c.name, s.Limits())
		}
	}
	if _, have := limit.Find(s.Limits(), limit.Taper, feature(t, "bore/2")); have {
		t.Error("a taper of bores is still limited")
	}
}

func TestALimitIsRefused(t *testing.T) {
	s := replay(t, small(length.MM, plan.ByLevel))
	was, _ := limit.Find(s.Limits(), limit.Taper, feature(t, "bore/1"))
	var taken *engine.TakenError
	if _, err := s.ChangeLimit(limit.Limits{}, taper(t, "bore", "", "0.020")); !errors.As(err, &taken) || taken.Of != "bores" {
		t.Errorf("a second limit of the same name: %v", err)
	}
	enginetest.Apply(t, s, record.Limit{Limits: taper(t, "bore", limit.Spread, "0.020")})
	if _, err := s.ChangeLimit(was, taper(t, "bore", limit.Spread, "0.010")); !errors.As(err, &taken) {
		t.Errorf("moved onto another: %v", err)
	}
	var invalid *limit.InvalidError
	if _, err := s.ChangeLimit(was, taper(t, "bore", "", "-0.010")); !errors.As(err, &invalid) {
		t.Errorf("below zero: %v", err)
	}
	if _, err := s.ChangeLimit(limit.Limits{}, taper(t, "bore/4", "", "0.010")); err == nil {
		t.Error("a fourth bore of three has a limit")
	}
}

// Giving a limit and taking it away leaves every verdict as it was.
func TestTakingALimitAwayUndoesGivingIt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := replay(t, acts(t, small(length.MM, plan.ByLevel)))
		before := judgements(engine.Assess(s))
		l := taper(t, rapid.SampledFrom([]string{"bore/1", "bore/3", "main-bearing", "piston"}).Draw(t, "of"),
			rapid.SampledFrom(append(limit.Definitions(limit.Taper), "")).Draw(t, "by"),
			rapid.SampledFrom([]string{"0.001", "0.020"}).Draw(t, "high"))
		for _, change := range [][2]limit.Limits{{{}, l}, {l, {}}} {
			bodies, err := s.ChangeLimit(change[0], change[1])
			if err != nil {
				t.Fatal(err)
			}
			enginetest.Apply(t, s, bodies...)
		}
		if got := judgements(engine.Assess(s)); !slices.Equal(got, before) {
			t.Fatalf("verdicts changed:\n%v\n%v", got, before)
		}
	})
}

func TestAClassGivesTheLimitsOfASize(t *testing.T) {
	for _, c := range []struct {
		text    string
		family  plan.Family
		nominal string
		low     string
		high    string
		source  string
	}{
		// ISO 286-2, sizes over 50 up to and including 80 mm.
		{"60 H6", plan.RodHousing, "", "60.000 mm", "60.019 mm", "ISO 286-1:2010, 60 mm H6"},
		{"57 h5", plan.RodJournal, "", "56.987 mm", "57.000 mm", "ISO 286-1:2010, 57 mm h5"},
		{"h6", plan.MainJournal, "55.0 mm", "54.981 mm", "55.000 mm", "ISO 286-1:2010, 55.0 mm h6"},
	} {
		nominal := length.Written{}
		if c.nominal != "" {
			nominal = enginetest.Written(t, c.nominal)
		}
		r, source, err := setup.ByClass(c.text, c.family, nominal)
		if err != nil || r.Low.String() != c.low || r.High.String() != c.high || source != c.source {
			t.Errorf("%s is %s to %s (%s), %v", c.text, r.Low, r.High, source, err)
		}
		if !setup.IsFilledIn(source) {
			t.Errorf("%q is not known as filled in", source)
		}
	}
	for _, c := range []struct {
		text   string
		family plan.Family
	}{
		{"60 H6", plan.RodJournal},
		{"57 h5", plan.RodHousing},
		{"H6", plan.Bore},
		{"sixty", plan.Bore},
		{"600 H6", plan.Bore},
	} {
		var refused *limit.ClassError
		if _, _, err := setup.ByClass(c.text, c.family, length.Written{}); !errors.As(err, &refused) {
			t.Errorf("%s for %s: %v", c.text, c.family, err)
		}
	}
}
