package engine_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

func labelProblems(d engine.Draft) string {
	var out []string
	for _, p := range d.Check() {
		if strings.HasPrefix(p.Field, "layout") {
			out = append(out, p.Field+": "+p.Text)
		}
	}
	return strings.Join(out, "\n")
}

func TestPositionsAreLabelledFreely(t *testing.T) {
	d := engine.Presets()[0].Draft()
	before := d.Layout
	d.SetLabel(engine.Cylinders, 1, " A ")
	d.SetLabel(engine.Mains, 7, "thrust")
	d.SetLabel(engine.Mains, 8, "none")
	if got := strings.Join(d.Labels(engine.Cylinders), " "); got != "A 2 3 4 5 6" {
		t.Errorf("cylinders are %s", got)
	}
	if got := strings.Join(d.Labels(engine.Mains), " "); got != "1 2 3 4 5 6 thrust" {
		t.Errorf("mains are %s", got)
	}
	if before.Labels != nil || labelProblems(d) != "" {
		t.Errorf("the layout before is %v; wrong is %s", before.Labels, labelProblems(d))
	}
	d.SetLabel(engine.Cylinders, 1, "")
	if _, have := d.Layout.Labels[engine.Cylinders]; have {
		t.Errorf("counting up they are labelled %v", d.Layout.Labels)
	}
	d.CountUp(engine.Mains)
	if !reflect.DeepEqual(d.Layout, before) {
		t.Errorf("without labels the layout is %+v", d.Layout)
	}
	if got := d.Labels("lifters"); got != nil {
		t.Errorf("lifters are %v", got)
	}
}

func TestBadLabelsAreFoundOneByOne(t *testing.T) {
	d := engine.Presets()[0].Draft()
	d.SetLabel(engine.Cylinders, 3, "1")
	d.SetLabel(engine.Cylinders, 5, "far too long")
	d.SetLabel(engine.Mains, 2, "7")
	want := `layout.labels.cylinders.3: cylinder 3 from the front is labelled "1", and so is number 1
layout.labels.cylinders.5: the label "far too long" of cylinder 5 has more than 8 characters
layout.labels.mains.7: main 7 from the front is labelled "7", and so is number 2`
	if got := labelProblems(d); got != want {
		t.Errorf("wrong is\n%s\nwant\n%s", got, want)
	}
	d.SetLabel(engine.Cylinders, 1, "3")
	d.SetLabel(engine.Cylinders, 5, "five")
	d.SetLabel(engine.Mains, 7, "2")
	if got := labelProblems(d); got != "" {
		t.Errorf("exchanged, wrong is %s", got)
	}
}

// Relabelling moves no reading and changes no verdict.
func TestRelabellingMovesNoReading(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := replay(t, acts(t, small(length.MM, plan.ByLevel)))
		figures := map[plan.Place]length.Exact{}
		for _, p := range s.Places() {
			figures[p] = s.Figure(p, s.Stage(p.Of))
		}
		want := judgements(engine.Assess(s))
		d := engine.DraftOf(s)
		for _, list := range []string{engine.Cylinders, engine.Mains} {
			for at, label := range rapid.Permutation([]string{"1", "2", "3", "A", "back"}).Draw(t, list)[:3] {
				d.SetLabel(list, at+1, label)
			}
		}
		if slices.ContainsFunc(d.Check(), func(p engine.Problem) bool { return strings.HasPrefix(p.Field, "layout") }) {
			return // a main kept a number that another one was given
		}
		apply(t, s, record.Layout{Layout: d.Layout})
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
