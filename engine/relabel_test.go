package engine_test

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine"
	"borewright/engine/enginetest"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
	"borewright/engine/setup"
)

// Relabelling moves no reading and changes no verdict.
func TestRelabellingMovesNoReading(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := replay(t, acts(t, small(length.MM, plan.ByLevel)))
		figures := map[plan.Place]length.Exact{}
		for _, p := range s.Places() {
			figures[p] = s.Figure(p, s.Stage(p.Of))
		}
		want := judgements(engine.Assess(s))
		d := setup.Of(s)
		for _, list := range []string{setup.Cylinders, setup.Mains} {
			for at, label := range rapid.Permutation([]string{"1", "2", "3", "A", "back"}).Draw(t, list)[:3] {
				d.SetLabel(list, at+1, label)
			}
		}
		if slices.ContainsFunc(d.Check(), func(p setup.Problem) bool { return strings.HasPrefix(p.Field, "layout") }) {
			return // a main kept a number that another one was given
		}
		enginetest.Apply(t, s, record.Layout{Layout: d.Layout})
		for _, p := range s.Places() {
			if got := s.Figure(p, s.Stage(p.Of)); got != figures[p] {
				t.Fatalf("%s reads %v, and read %v before", s.PlaceName(p), got, figures[p])
			}
		}
		if got := judgements(engine.Assess(s)); !slices.Equal(got, want) {
			t.Fatalf("verdicts changed:\n%v\n%v", got, want)
		}
	})
}
