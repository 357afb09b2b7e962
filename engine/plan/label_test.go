package plan_test

import (
	"testing"

	"borewright/engine/plan"
)

func TestLabelsAndNames(t *testing.T) {
	l := plan.Default(plan.Vee, 4, true)
	l.Labels = map[string][]string{"cylinders": {"L1", "L2", "R1", "R2"}, "rod journals": {"A", "B"}}
	for _, c := range []struct {
		f           plan.Feature
		label, name string
	}{
		{plan.Feature{Family: plan.Bore, At: 3}, "R1", "bore R1"},
		{plan.Feature{Family: plan.Piston, At: 1}, "L1", "piston L1"},
		{plan.Feature{Family: plan.MainJournal, At: 2}, "2", "main journal 2"},
		{plan.Feature{Family: plan.RodJournal, At: 2}, "B", "rod journal B"},
		{plan.Feature{Family: plan.ShellMain, At: 2, Part: plan.Upper}, "2", "upper main shell 2"},
		{plan.Feature{Family: plan.RingGap, At: 4, Part: plan.Oil}, "R2", "oil ring gap R2"},
		{plan.Feature{Family: plan.EndPlay, At: 1}, "1", "end play"},
		{plan.Feature{Family: plan.Flatness, At: 2}, "2", "deck flatness of bank 2"},
		{plan.Feature{Family: plan.Bore, At: 5}, "5", "bore 5"},
		{plan.Feature{Family: plan.Bore, At: 0}, "0", "bore 0"},
		{plan.Feature{Family: "valve", At: 2}, "2", "valve/2"},
	} {
		if got := l.Label(c.f); got != c.label {
			t.Errorf("%s is labelled %q, want %q", c.f, got, c.label)
		}
		if got := l.Name(c.f); got != c.name {
			t.Errorf("%s is called %q, want %q", c.f, got, c.name)
		}
	}
}

func TestByLabel(t *testing.T) {
	l := plan.Default(plan.Inline, 3, false)
	l.Labels = map[string][]string{"cylinders": {"3", "2", "1"}}
	for _, c := range []struct {
		family plan.Family
		label  string
		want   string // "" when no feature bears it
	}{
		{plan.Bore, "3", "bore/1"},
		{plan.Bore, "1", "bore/3"},
		{plan.MainBearing, "4", "main-bearing/4"},
		{plan.MainBearing, "5", ""},
		{plan.ShellMain, "2", "shell-main/2/upper"},
		{plan.Bore, "", ""},
		{"valve", "1", ""},
	} {
		f, ok := l.ByLabel(c.family, c.label)
		if ok != (c.want != "") || ok && f.String() != c.want {
			t.Errorf("%s %q leads to %s, %v; want %q", c.family, c.label, f, ok, c.want)
		}
	}
}

// A label leads back to the feature that bears it, whatever the layout.
func TestByLabelFindsEveryLabel(t *testing.T) {
	for _, l := range []plan.Layout{plan.Default(plan.Inline, 6, false), plan.Default(plan.Vee, 8, true), plan.Default(plan.Flat, 4, false)} {
		l.Labels = everyLabel(l)
		for _, row := range plan.Families() {
			for at := 1; at <= row.Count(l); at++ {
				f := plan.Feature{Family: row.Family, At: at}
				if got, ok := l.ByLabel(row.Family, l.Label(f)); !ok || got.At != at {
					t.Errorf("%s %d: the label of %s leads to %s", l.Form, l.Cylinders, f, got)
				}
			}
		}
	}
}
