package plan_test

import (
	"reflect"
	"testing"

	"borewright/engine/plan"
)

// The usual layouts. Counts are common practice, no source: a crank runs in a
// main at each end and one between neighbouring throws.
func TestUsualLayouts(t *testing.T) {
	for _, c := range []struct {
		form                           string
		cylinders                      int
		shared                         bool
		mains, rodJournals, rods, cams int
	}{
		{plan.Inline, 1, false, 2, 1, 1, 2},
		{plan.Inline, 2, false, 3, 2, 1, 3},
		{plan.Inline, 3, false, 4, 3, 1, 4},
		{plan.Inline, 4, false, 5, 4, 1, 5},
		{plan.Inline, 5, false, 6, 5, 1, 6},
		{plan.Inline, 6, false, 7, 6, 1, 7},
		{plan.Inline, 7, false, 8, 7, 1, 8},
		{plan.Inline, 8, false, 9, 8, 1, 9},
		{plan.Vee, 2, true, 2, 1, 2, 2},
		{plan.Vee, 4, true, 3, 2, 2, 3},
		{plan.Vee, 6, true, 4, 3, 2, 4},
		{plan.Vee, 8, true, 5, 4, 2, 5},
		{plan.Vee, 10, true, 6, 5, 2, 6},
		{plan.Vee, 12, true, 7, 6, 2, 7},
		{plan.Vee, 14, true, 8, 7, 2, 8},
		{plan.Vee, 16, true, 9, 8, 2, 9},
		{plan.Vee, 2, false, 2, 2, 1, 2},
		{plan.Vee, 4, false, 3, 4, 1, 3},
		{plan.Vee, 6, false, 4, 6, 1, 4},
		{plan.Vee, 8, false, 5, 8, 1, 5},
		{plan.Vee, 10, false, 6, 10, 1, 6},
		{plan.Vee, 12, false, 7, 12, 1, 7},
		{plan.Vee, 14, false, 8, 14, 1, 8},
		{plan.Vee, 16, false, 9, 16, 1, 9},
		{plan.Flat, 2, false, 2, 2, 1, 2},
		{plan.Flat, 4, false, 5, 4, 1, 5},
		{plan.Flat, 6, false, 7, 6, 1, 7},
		{plan.Flat, 8, false, 9, 8, 1, 9},
		{plan.Flat, 10, false, 11, 10, 1, 11},
		{plan.Flat, 12, false, 13, 12, 1, 13},
	} {
		want := plan.Layout{
			Form: c.form, Cylinders: c.cylinders, Shared: c.shared,
			Mains: c.mains, RodJournals: c.rodJournals, RodsPerJournal: c.rods, CamBearings: c.cams,
		}
		got := plan.Default(c.form, c.cylinders, c.shared)
		if !reflect.DeepEqual(got, want) {
			t.Errorf("%s %d, shared %v:\n got %+v\nwant %+v", c.form, c.cylinders, c.shared, got, want)
		}
		if err := got.Validate(); err != nil {
			t.Errorf("%s %d, shared %v: %v", c.form, c.cylinders, c.shared, err)
		}
		if again := (plan.Layout{Form: c.form, Cylinders: c.cylinders, Shared: c.shared}).Filled(); !reflect.DeepEqual(again, want) {
			t.Errorf("%s %d, filled: %+v", c.form, c.cylinders, again)
		}
	}
}

// Only vee layouts have two rods on a journal by default.
func TestSharedIsOfVees(t *testing.T) {
	for _, form := range []string{plan.Inline, plan.Flat} {
		if l := plan.Default(form, 4, true); l.Shared || l.RodsPerJournal != 1 || l.Validate() != nil {
			t.Errorf("%s: %+v", form, l)
		}
	}
}

func TestFilledKeepsWhatIsGiven(t *testing.T) {
	given := plan.Layout{Form: plan.Inline, Cylinders: 6, Mains: 4, RodJournals: 3, RodsPerJournal: 2, CamBearings: 1, Shared: true}
	if got := given.Filled(); !reflect.DeepEqual(got, given) {
		t.Errorf("%+v became %+v", given, got)
	}
	given.Mains = 0
	if got := given.Filled(); got.Mains != 7 || got.CamBearings != 1 {
		t.Errorf("%+v became %+v", given, got)
	}
}

func TestBanks(t *testing.T) {
	for form, want := range map[string]int{plan.Inline: 1, plan.Vee: 2, plan.Flat: 2} {
		if got := plan.Default(form, 2, false).Banks(); got != want {
			t.Errorf("%s: %d banks, want %d", form, got, want)
		}
	}
}

func TestLayoutTakes(t *testing.T) {
	for name, change := range map[string]func(*plan.Layout){
		"few mains":             func(l *plan.Layout) { l.Mains = 1 },
		"many mains":            func(l *plan.Layout) { l.Mains = 17 },
		"no cam bearings":       func(l *plan.Layout) { l.CamBearings = 0 },
		"many cam bearings":     func(l *plan.Layout) { l.CamBearings = 20 },
		"a bank that leads":     func(l *plan.Layout) { l.Lead = plan.RightBank },
		"the left bank":         func(l *plan.Layout) { l.Lead = plan.LeftBank },
		"labels of 8 letters":   func(l *plan.Layout) { l.Labels = map[string][]string{"mains": {"éééééééé", "2", "3"}} },
		"labels of every count": func(l *plan.Layout) { l.Labels = everyLabel(*l) },
	} {
		l := plan.Default(plan.Vee, 4, true)
		change(&l)
		if err := l.Validate(); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// everyLabel labels whatever the families' rows say that a layout labels.
func everyLabel(l plan.Layout) map[string][]string {
	labels := map[string][]string{}
	for _, t := range plan.Families() {
		if t.Labels == "" {
			continue
		}
		list := make([]string, t.Count(l))
		for i := range list {
			list[i] = "x" + string(rune('a'+i))
		}
		labels[t.Labels] = list
	}
	return labels
}

func TestLayoutRefuses(t *testing.T) {
	vee := func(change func(*plan.Layout)) plan.Layout {
		l := plan.Default(plan.Vee, 4, true)
		change(&l)
		return l
	}
	labels := func(key string, names ...string) plan.Layout {
		return vee(func(l *plan.Layout) { l.Labels = map[string][]string{key: names} })
	}
	long := "radial, as far as a form can be written down"
	for want, l := range map[string]plan.Layout{
		`layout: form "" is neither inline, vee nor flat`:                                                           {},
		`layout: form "radial" is neither inline, vee nor flat`:                                                     plan.Default("radial", 9, false),
		`layout: form "` + long[:40] + `…" is neither inline, vee nor flat`:                                         plan.Default(long, 9, false),
		"layout: inline has 1 to 8 cylinders, not 0":                                                                plan.Default(plan.Inline, 0, false),
		"layout: inline has 1 to 8 cylinders, not 9":                                                                plan.Default(plan.Inline, 9, false),
		"layout: vee has 2 to 16 cylinders, not 1":                                                                  plan.Default(plan.Vee, 1, false),
		"layout: vee has 2 to 16 cylinders, not 18":                                                                 plan.Default(plan.Vee, 18, true),
		"layout: vee has an even number of cylinders, not 5":                                                        plan.Default(plan.Vee, 5, false),
		"layout: flat has 2 to 12 cylinders, not 14":                                                                plan.Default(plan.Flat, 14, false),
		"layout: flat has an even number of cylinders, not 3":                                                       plan.Default(plan.Flat, 3, false),
		"layout: mains 0 is not from 1 to 17":                                                                       vee(func(l *plan.Layout) { l.Mains = 0 }),
		"layout: mains 18 is not from 1 to 17":                                                                      vee(func(l *plan.Layout) { l.Mains = 18 }),
		"layout: rod journals 17 is not from 1 to 16":                                                               vee(func(l *plan.Layout) { l.RodJournals = 17 }),
		"layout: rods per journal 3 is not from 1 to 2":                                                             vee(func(l *plan.Layout) { l.RodsPerJournal = 3 }),
		"layout: cam bearings -1 is not from 0 to 20":                                                               vee(func(l *plan.Layout) { l.CamBearings = -1 }),
		"layout: cam bearings 21 is not from 0 to 20":                                                               vee(func(l *plan.Layout) { l.CamBearings = 21 }),
		"layout: 3 rod journals with 2 rods each do not carry 4 cylinders":                                          vee(func(l *plan.Layout) { l.RodJournals = 3 }),
		"layout: rods per journal is 2, but shared is false":                                                        vee(func(l *plan.Layout) { l.Shared = false }),
		"layout: rods per journal is 1, but shared is true":                                                         vee(func(l *plan.Layout) { l.RodJournals, l.RodsPerJournal = 4, 1 }),
		`layout: lead "front" is neither left nor right of two banks`:                                               vee(func(l *plan.Layout) { l.Lead = "front" }),
		`layout: lead "right" is neither left nor right of two banks`:                                               {Form: plan.Inline, Cylinders: 1, Mains: 2, RodJournals: 1, RodsPerJournal: 1, Lead: plan.RightBank},
		"layout: 2 labels for 4 cylinders":                                                                          labels("cylinders", "1", "2"),
		"layout: 4 labels for 3 mains":                                                                              labels("mains", "1", "2", "3", "4"),
		`layout: label "" of mains is not 1 to 8 characters`:                                                        labels("mains", "1", "", "3"),
		`layout: label "  " of mains is not 1 to 8 characters`:                                                      labels("mains", "1", "  ", "3"),
		`layout: label "ééééééééé" of mains is not 1 to 8 characters`:                                               labels("mains", "ééééééééé", "2", "3"),
		`layout: label "2" of mains is given twice`:                                                                 labels("mains", "2", "1", "2"),
		"layout: labels are for cylinders, mains, rod journals, cam bearings, lifters or banks, not for \"valves\"": labels("valves", "1"),
	} {
		refused[*plan.InvalidError](t, want, l.Validate(), want)
	}
}
