package plan_test

import (
	"strings"
	"testing"

	"borewright/engine/plan"
)

func TestPlanTakes(t *testing.T) {
	for name, change := range map[string]func(*plan.Plan){
		"as it is":         func(*plan.Plan) {},
		"by level":         func(p *plan.Plan) { p.Order = plan.ByLevel },
		"by direction":     func(p *plan.Plan) { p.Order = plan.ByDirection },
		"a nominal":        func(p *plan.Plan) { p.Families[0].Nominal = written(t, "3.7500 in") },
		"6 levels":         func(p *plan.Plan) { p.Families[0].Levels = plan.Grid(plan.Bore, 6) },
		"4 directions":     func(p *plan.Plan) { p.Families[0].Directions = []string{"across", "45", "along", "135"} },
		"an id of 16":      func(p *plan.Plan) { p.Families[0].Levels[0].ID = strings.Repeat("x", 16) },
		"a depth of zero":  func(p *plan.Plan) { p.Families[0].Levels[0].Depth = written(t, "0 mm") },
		"a depth left out": func(p *plan.Plan) { p.Families[0].Levels = depths(t, "0.5 in", "", "25 mm") },
		"halves": func(p *plan.Plan) {
			p.Families[0].Levels = []plan.Level{{ID: "a", Half: plan.FrontHalf}, {ID: "b", Half: "both"}, {ID: "c", Half: plan.RearHalf}}
		},
		"a nominal with a sign": func(p *plan.Plan) {
			p.Families[0] = plan.Group{Family: plan.Deck, Nominal: written(t, "-0.002 in"), Levels: plan.Grid(plan.Deck, 4), Directions: []string{plan.Once}}
		},
	} {
		p := bores()
		change(&p)
		if err := p.Validate(); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// depths makes levels a, b, c ... of these depths; "" is none.
func depths(tb testing.TB, texts ...string) []plan.Level {
	tb.Helper()
	levels := plan.Grid(plan.Bore, len(texts))
	for i, text := range texts {
		levels[i].Depth = written(tb, text)
	}
	return levels
}

func TestPlanRefuses(t *testing.T) {
	long := strings.Repeat("x", 50)
	for want, change := range map[string]func(*plan.Group){
		`plan: no family is called "valve"`:                                                 func(g *plan.Group) { g.Family = "valve" },
		"plan: rods are fitted, not measured":                                               func(g *plan.Group) { g.Family = plan.Rod },
		"plan: bore has 0 levels, not 1 to 6":                                               func(g *plan.Group) { g.Levels = nil },
		"plan: bore has 7 levels, not 1 to 6":                                               func(g *plan.Group) { g.Levels = plan.Grid(plan.Bore, 7) },
		"plan: bore has 0 directions, not 1 to 4":                                           func(g *plan.Group) { g.Directions = nil },
		"plan: bore has 5 directions, not 1 to 4":                                           func(g *plan.Group) { g.Directions = []string{"10", "20", "30", "40", "50"} },
		"plan: nominal of bore: 0 in is not above zero":                                     func(g *plan.Group) { g.Nominal = written(t, "0 in") },
		"plan: nominal of bore: -3.75 in is not above zero":                                 func(g *plan.Group) { g.Nominal = written(t, "-3.75 in") },
		"plan: level 2 of bore: the id is missing":                                          func(g *plan.Group) { g.Levels[1].ID = "" },
		"plan: level 1 of bore: the id is missing":                                          func(g *plan.Group) { g.Levels[0].ID = " " },
		`plan: level 2 of bore: the id "` + long[:17] + `" is longer than 16 bytes`:         func(g *plan.Group) { g.Levels[1].ID = long[:17] },
		`plan: level 2 of bore: the id "a" is used twice`:                                   func(g *plan.Group) { g.Levels[1].ID = "a" },
		`plan: level "b" of bore: half "left" is neither front, rear nor both`:              func(g *plan.Group) { g.Levels[1].Half = "left" },
		`plan: level "a" of bore: depth -1 mm is below zero`:                                func(g *plan.Group) { g.Levels = depths(t, "-1 mm") },
		`plan: level "b" of bore: depth 10 mm does not lie below the level before it`:       func(g *plan.Group) { g.Levels = depths(t, "10 mm", "10 mm") },
		`plan: level "c" of bore: depth 1 in does not lie below the level before it`:        func(g *plan.Group) { g.Levels = depths(t, "26 mm", "", "1 in") },
		`plan: direction "up" of bores is neither across, along nor an angle from 0 to 360`: func(g *plan.Group) { g.Directions[1] = "up" },
		`plan: direction "90" of bores is written "across"`:                                 func(g *plan.Group) { g.Directions[0] = "90" },
		`plan: direction "across" of bores is given twice`:                                  func(g *plan.Group) { g.Directions[1] = "across" },
	} {
		p := bores()
		change(&p.Families[0])
		refused[*plan.InvalidError](t, want, p.Validate(), want)
	}
	p := bores()
	p.Order = "down"
	refused[*plan.InvalidError](t, "order", p.Validate(), `plan: order "down" is neither level nor direction`)
	p = plan.Plan{}
	refused[*plan.InvalidError](t, "nothing", p.Validate(), "plan: no family is to be measured")
	p.Families = append(bores().Families, bores().Families...)
	refused[*plan.InvalidError](t, "twice", p.Validate(), "plan: bore is given twice")
}

func TestCheckLevel(t *testing.T) {
	if err := plan.CheckLevel("a"); err != nil {
		t.Error(err)
	}
	refused[*plan.NameError](t, "none", plan.CheckLevel(""), "the id is missing")
	refused[*plan.NameError](t, "long", plan.CheckLevel("a level too long!"), `the id "a level too long!" is longer than 16 bytes`)
}

func TestQuote(t *testing.T) {
	for text, want := range map[string]string{
		"":                      `""`,
		"bore \"3\"\n":          `"bore \"3\"\n"`,
		"\x1b[2J\xff":           `"\x1b[2J\xff"`,
		strings.Repeat("é", 40): `"` + strings.Repeat("é", 40) + `"`,
		strings.Repeat("é", 41): `"` + strings.Repeat("é", 40) + `…"`,
	} {
		if got := plan.Quote(text); got != want {
			t.Errorf("%q is quoted as %s, want %s", text, got, want)
		}
	}
}
