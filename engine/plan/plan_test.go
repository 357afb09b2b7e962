package plan_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/plan"
)

// say writes places as "of level dir".
func say(places []plan.Place) string {
	var out []string
	for _, p := range places {
		out = append(out, p.Of.String()+" "+p.Level+" "+p.Dir)
	}
	return strings.Join(out, ", ")
}

func TestOrderOfPlaces(t *testing.T) {
	f := plan.Feature{Family: plan.Bore, At: 2}
	for order, want := range map[string]string{
		"":               "bore/2 a across, bore/2 a along, bore/2 b across, bore/2 b along",
		plan.ByLevel:     "bore/2 a across, bore/2 a along, bore/2 b across, bore/2 b along",
		plan.ByDirection: "bore/2 a across, bore/2 b across, bore/2 a along, bore/2 b along",
	} {
		p := bores()
		p.Order = order
		if got := say(p.Places(f)); got != want {
			t.Errorf("order %q:\n got %s\nwant %s", order, got, want)
		}
	}
	if got := bores().Places(plan.Feature{Family: plan.Piston, At: 1}); len(got) != 0 {
		t.Errorf("a piston that is not planned has %s", say(got))
	}
}

// Features come family by family as the plan lists them, by position, and a
// position's parts in the order of its row.
func TestFeaturesAndAll(t *testing.T) {
	l := plan.Default(plan.Inline, 2, false)
	p := plan.Plan{Families: []plan.Group{
		{Family: plan.ShellMain, Levels: []plan.Level{{ID: "a"}}, Directions: []string{plan.Once}},
		{Family: plan.Bore, Levels: []plan.Level{{ID: "a"}, {ID: "b"}}, Directions: []string{"across"}},
		{Family: "valve"},
		{Family: plan.EndPlay, Levels: []plan.Level{{ID: "a"}}, Directions: []string{plan.Once}},
	}}
	var features []string
	for _, f := range p.Features(l) {
		features = append(features, f.String())
	}
	want := "shell-main/1/upper shell-main/1/lower shell-main/2/upper shell-main/2/lower shell-main/3/upper shell-main/3/lower bore/1 bore/2 end-play/1"
	if got := strings.Join(features, " "); got != want {
		t.Errorf("the features are\n%s\nnot\n%s", got, want)
	}
	all := say(p.All(l))
	if !strings.HasSuffix(all, "shell-main/3/lower a once, bore/1 a across, bore/1 b across, bore/2 a across, bore/2 b across, end-play/1 a once") {
		t.Errorf("the places are %s", all)
	}
}

// In either order a feature has each level in each direction once.
func TestPlacesAreEachOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		row := rapid.SampledFrom(plan.Families()).Draw(t, "family")
		dirs := row.Usual[rapid.IntRange(0, 3).Draw(t, "directions")]
		n := rapid.IntRange(1, 6).Draw(t, "levels")
		p := plan.Plan{Families: []plan.Group{{Family: row.Family, Levels: plan.Grid(row.Family, n), Directions: dirs}}}
		p.Order = rapid.SampledFrom([]string{"", plan.ByLevel, plan.ByDirection}).Draw(t, "order")
		if err := p.Validate(); err != nil {
			t.Fatal(err)
		}
		l := plan.Default(plan.Vee, 2*rapid.IntRange(1, 8).Draw(t, "pairs"), rapid.Bool().Draw(t, "shared"))
		seen := map[plan.Place]bool{}
		for _, at := range p.All(l) {
			if seen[at] {
				t.Fatalf("%+v comes twice", at)
			}
			seen[at] = true
		}
		if want := len(p.Features(l)) * n * len(dirs); len(seen) != want || want < n {
			t.Fatalf("%d places, want %d", len(seen), want)
		}
	})
}

func TestGrid(t *testing.T) {
	for _, c := range []struct {
		family plan.Family
		n      int
		want   string
	}{
		{plan.Bore, 1, "a middle"},
		{plan.Bore, 2, "a top, b bottom"},
		{plan.Bore, 3, "a top, b middle, c bottom"},
		{plan.Bore, 5, "a top, b level 2, c level 3, d level 4, e bottom"},
		{plan.Piston, 1, "a skirt"},
		{plan.MainJournal, 2, "a front, b rear"},
		{plan.MainBearing, 3, "a front, b middle, c rear"},
		{plan.ShellMain, 1, "a "},
		{plan.ShellMain, 2, "a front, b rear"},
		{plan.Deck, 4, "a front left, b front right, c rear left, d rear right"},
		{plan.EndPlay, 2, "a point 1, b point 2"},
		{plan.Bore, 0, ""},
	} {
		var got []string
		for _, l := range plan.Grid(c.family, c.n) {
			got = append(got, l.ID+" "+l.Name)
		}
		if s := strings.Join(got, ", "); s != c.want {
			t.Errorf("%d levels of %s are %q, want %q", c.n, c.family, s, c.want)
		}
	}
}

func TestLevelCalled(t *testing.T) {
	for want, l := range map[string]plan.Level{
		"top":        {ID: "a", Name: "top", Depth: written(t, "10 mm")},
		"10 mm deep": {ID: "a", Depth: written(t, "10 mm")},
		"a":          {ID: "a"},
	} {
		if got := l.Called(); got != want {
			t.Errorf("%+v is called %q, want %q", l, got, want)
		}
	}
}

func TestGroupAndLevel(t *testing.T) {
	p := bores()
	g, ok := p.Group(plan.Bore)
	if !ok || g.Family != plan.Bore {
		t.Fatalf("%+v, %v", g, ok)
	}
	if _, ok := p.Group(plan.Piston); ok {
		t.Error("pistons are planned")
	}
	if l, ok := g.Level("b"); !ok || l.ID != "b" {
		t.Errorf("level b is %+v, %v", l, ok)
	}
	if l, ok := g.Level("c"); ok || l != (plan.Level{}) {
		t.Errorf("there is a level c: %+v", l)
	}
}
