package record

import (
	"strings"
	"testing"

	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/prep"
)

// good returns the golden body of a kind, changed by a test.
func good[B Body](tb testing.TB, change func(*B)) Body {
	tb.Helper()
	for _, g := range golden {
		if b, ok := g.body.(B); ok {
			change(&b)
			return b
		}
	}
	tb.Fatal("no golden event of that kind")
	return nil
}

// badBody is a body with the sentence that it is refused with.
type badBody struct {
	body Body
	want string
}

// badBodies are golden bodies that were spoilt.
func badBodies(t *testing.T) []badBody {
	t.Helper()
	long := strings.Repeat("x", 65)
	cut := `"` + strings.Repeat("x", 40) + `…": `
	bore := featureOf("bore/1")
	inexact := length.Written{Length: length.Inch + 1, Unit: length.In, Places: 4}
	return []badBody{
		{good(t, func(d *Details) { d.UID = "" }), "details uid: an identity is 1 to 64 letters, digits, - and _"},
		{good(t, func(d *Details) { d.UID = "../x" }), `details uid: "../x": an identity is 1 to 64 letters, digits, - and _`},
		{good(t, func(d *Details) { d.UID = ShopUID }), `details uid: "shop": this name belongs to the shop`},
		{good(t, func(d *Details) { d.Title = "a\nb" }), `details title: "a\nb": one line without control characters`},
		{good(t, func(d *Details) { d.Customer = strings.Repeat("x", 201) }), "details customer: " + cut + "at most 200 bytes long"},
		{good(t, func(d *Details) { d.Engine = "\xff" }), `details engine: "\xff": not text in UTF-8`},
		{good(t, func(d *Details) { d.Unit = length.UM }), `details unit: "µm": a unit here is in or mm`},
		{good(t, func(d *Details) { d.Earlier = "a b" }), `details earlier: "a b": an identity is 1 to 64 letters, digits, - and _`},
		{good(t, func(l *Layout) { l.Cylinders = 5 }), "layout: vee has an even number of cylinders, not 5"},
		{good(t, func(l *Layout) { l.Labels = map[string][]string{long: nil} }), "layout labels: " + cut + "at most 64 bytes long"},
		{good(t, func(p *Plan) { p.Order = "down" }), `plan: order "down" is neither level nor direction`},
		{good(t, func(p *Plan) { p.Families = nil }), "plan: no family is to be measured"},
		{Plan{plan.Plan{Families: []plan.Group{{Family: plan.Bore, Nominal: inexact}}}}, `plan families[0].nominal: "1.0000 in": a length cannot be written exactly with so few decimals in its unit`},
		{Plan{plan.Plan{Families: []plan.Group{{Family: plan.Bore, Levels: []plan.Level{{ID: "a", Half: "left"}}, Directions: []string{"across"}}}}}, `plan: level "a" of bore: half "left" is neither front, rear nor both`},
		{good(t, func(l *Limit) { l.New, l.Wear = limit.Range{}, limit.Range{} }), `limits of "taper" for "bore": there is neither a low nor a high limit`},
		{good(t, func(l *Limit) { l.Target = inexact }), `limit target: "1.0000 in": a length cannot be written exactly with so few decimals in its unit`},
		{Plan{plan.Plan{Families: []plan.Group{{Family: plan.Bore, Levels: []plan.Level{{ID: "a"}, {ID: "b", Depth: inexact}}}}}}, `plan families[0].levels[1].depth: "1.0000 in": a length cannot be written exactly with so few decimals in its unit`},
		{good(t, func(l *Limit) { l.Wear.High = inexact }), `limit wear.high: "1.0000 in": a length cannot be written exactly with so few decimals in its unit`},
		{good(t, func(l *Limit) { l.By = limit.Definition(long) }), "limit definition: " + cut + "at most 64 bytes long"},
		{good(t, func(l *Limit) { l.Source = "\x07" }), `limit source: "\a": a text holds no control characters`},
		{good(t, func(r *Rules) { r.Unit = length.UIn }), `rules unit: "µin": a unit here is in or mm`},
		{good(t, func(r *Rules) { r.Definitions = map[string]string{"taper": "wedge"} }), `rules definitions.taper: "wedge": no definition of what is judged`},
		{good(t, func(r *Rules) { r.Clearance = limit.Spread }), `rules clearance: "spread": none of smallest - largest, smallest - mean, smallest - smallest, mean - mean`},
		{good(t, func(r *Rules) { r.Judge = "old" }), `rules judge: "old": none of new, wear`},
		{good(t, func(r *Rules) { r.Decision = "coin" }), `rules decision: "coin": none of simple, guarded`},
		{good(t, func(r *Rules) { r.Coverage = "NaN" }), `rules coverage: "NaN": not a decimal number`},
		{good(t, func(r *Rules) { r.Coverage = "10.01" }), `rules coverage: "10.01": not from 0 to 10`},
		{good(t, func(r *Rules) { r.BlindRate = "-0.01" }), `rules blind_rate: "-0.01": not from 0 to 1`},
		{good(t, func(r *Rules) { r.Drift = written("-1 µm") }), `rules drift: "-1 µm": below zero`},
		{good(t, func(r *Rules) { r.StaleHours = -1 }), `rules stale_hours: "-1": at least 0`},
		{good(t, func(g *Given) { g.Name = " " }), `given name: " ": it is missing`},
		{good(t, func(g *Given) { g.Of = "valve" }), `given of: no family is called "valve"`},
		{good(t, func(g *Given) { g.Of = "bore/0" }), `given of: feature "bore/0": position "0" is not a whole number from 1 to 99`},
		{good(t, func(g *Given) { g.Value = "" }), "given value: it is missing"},
		{good(t, func(g *Given) { g.Value = "about 3 in" }), `given value: "about 3 in": not a number with its unit`},
		{good(t, func(g *Given) { g.Value = "11.7e-6 /K" }), `given value: "11.7e-6 /K": a number here has no exponent`},
		{good(t, func(g *Given) { g.Doubt = "1 " + long }), "given doubt: " + cut + "at most 64 bytes long"},
		{good(t, func(g *Table) { g.Name = "bolts" }), `table name: "bolts": none of shells, ladder, costs, locks`},
		{good(t, func(g *Table) { g.Rows = append(g.Rows[:1:1], nil) }), "table rows[1]: an empty row"},
		{good(t, func(g *Table) { g.Rows = []map[string]string{{long: "x"}} }), "table rows[0]: " + cut + "at most 64 bytes long"},
		{good(t, func(g *Table) { g.Rows = []map[string]string{{"a": "1\n2"}} }), `table rows[0].a: "1\n2": one line without control characters`},
		{good(t, func(g *Table) { g.Of = long }), "table of: " + cut + "at most 64 bytes long"},
		{good(t, func(i *Instrument) { i.ID = "" }), "instrument: id is missing"},
		{good(t, func(i *Instrument) { i.Name = long }), `instrument "bg1": name "` + long[:40] + `…" is longer than 64 bytes`},
		{good(t, func(i *Instrument) { i.Kind = "laser" }), `instrument "bg1": kind "laser" is neither comparator, direct nor indicator`},
		{good(t, func(i *Instrument) { i.Contacts = 1 }), `instrument "bg1": contacts "1" are neither 2 nor 3`},
		{good(t, func(i *Instrument) { i.Unit = length.NoUnit }), `instrument "bg1": unit is neither in nor mm`},
		{good(t, func(i *Instrument) { i.Graduation = length.Written{} }), `instrument "bg1": graduation is missing`},
		{good(t, func(i *Instrument) { i.Graduation = written("0 in") }), `instrument "bg1": graduation "0 in" is not above zero`},
		{good(t, func(i *Instrument) { i.Step = written("-0.1 in") }), `instrument "bg1": step "-0.1 in" is not above zero`},
		{good(t, func(i *Instrument) { i.High = written("1 in") }), `instrument "bg1": high "1 in" is not above low`},
		{good(t, func(i *Instrument) { i.Step = written("0.001 in") }), `instrument "bg1": step "0.001 in" is coarser than a graduation`},
		{good(t, func(i *Instrument) { i.Alpha = "" }), `instrument "bg1": alpha doubt "1" is given without an alpha`},
		{good(t, func(i *Instrument) { i.DF = 0 }), `instrument "bg1": degrees of freedom are missing beside a repeatability`},
		{good(t, func(i *Instrument) { i.Low = written("-1 in") }), `instrument "bg1": low "-1 in" is below zero`},
		{good(t, func(i *Instrument) { i.Sense = "left" }), `instrument "bg1": sense "left" is neither clockwise larger nor clockwise smaller`},
		{good(t, func(i *Instrument) { i.Sends = "x" }), `instrument "bg1": sends "x" is neither size, deviation nor graduations`},
		{good(t, func(i *Instrument) { i.Alpha = "1e-5" }), `instrument "bg1": alpha "1e-5" is not a decimal number`},
		{good(t, func(i *Instrument) { i.Due = "31.3.2027" }), `instrument "bg1": due "31.3.2027" is not a day such as 2026-11-25`},
		{good(t, func(i *Instrument) { i.DF = -1 }), `instrument "bg1": degrees of freedom "-1" are below zero`},
		{good(t, func(i *Instrument) { i.S = inexact }), `instrument s: "1.0000 in": a length cannot be written exactly with so few decimals in its unit`},
		{good(t, func(s *Setting) { s.Instrument = "" }), `setting "z1": instrument is missing`},
		{good(t, func(s *Setting) { s.On = "air" }), `setting "z1": on "air" is neither ring, blocks, micrometer, feature nor scale`},
		{good(t, func(s *Setting) { s.Size = length.Written{} }), `setting "z1": size of the master is missing`},
		{good(t, func(s *Setting) { s.Size = written("-1 mm") }), `setting "z1": size "-1 mm" is not above zero`},
		{good(t, func(s *Setting) { s.Feature = "bore/1" }), `setting "z1": feature "bore/1" is given, but it was not zeroed on a feature`},
		{good(t, func(s *Setting) { s.On = gauge.OnFeature }), `setting "z1": feature that it was zeroed on is missing`},
		{good(t, func(s *Setting) { s.On, s.Size, s.Feature = gauge.OnScale, length.Written{}, "bore/1" }), `setting "z1": feature "bore/1" is given, but it was not zeroed on a feature`},
		{good(t, func(s *Setting) { s.On = gauge.OnScale }), `setting "z1": size "3.7500 in" is given, but an instrument on its own scale has no master`},
		{good(t, func(s *Setting) { s.Doubt = written("-1 mm") }), `setting "z1": doubt "-1 mm" is below zero`},
		{good(t, func(s *Setting) { s.At.Master = "300.5" }), `setting "z1": master temperature "300.5" is not from -60 to 300`},
		{good(t, func(s *Setting) { s.At.Gauge = "-60.1" }), `setting "z1": gauge temperature "-60.1" is not from -60 to 300`},
		{good(t, func(s *Set) { s.Lube = strings.Repeat("x", 201) }), `set "s1": lube "` + long[:40] + `…" is longer than 200 bytes`},
		{good(t, func(s *Set) { s.Setting = "" }), `set "s1": setting is missing`},
		{good(t, func(s *Set) { s.At.Part = "warm" }), `set "s1": part temperature "warm" is not a decimal number`},
		{good(t, func(z *Zero) { z.Set = "" }), "zero set: it is missing"},
		{good(t, func(z *Zero) { z.Keyed = "" }), "zero keyed: it is missing"},
		{good(t, func(z *Zero) { z.Deviation = length.Written{} }), "zero deviation: it is missing"},
		{Zero{Set: "s", Skipped: true}, "zero why: a check that was skipped says why"},
		{Zero{Set: "s", Skipped: true, Why: "x", Keyed: "0"}, `zero keyed: "0": a check that was skipped has no reading`},
		{Zero{Set: "s", Skipped: true, Why: "x", Deviation: written("0 mm")}, `zero deviation: "0 mm": a check that was skipped has no deviation`},
		{good(t, func(r *Reading) { r.Of = plan.Feature{Family: plan.Bore, At: 3, Part: "upper"} }), `reading of: feature "bore/3/upper": bores have no part "upper"`},
		{good(t, func(r *Reading) { r.Level = "" }), "reading level: the id is missing"},
		{good(t, func(r *Reading) { r.Level = "a level too long" + "!" }), `reading level: the id "a level too long!" is longer than 16 bytes`},
		{good(t, func(r *Reading) { r.Dir = "90" }), `reading dir: direction "90" of bores is written "across"`},
		{good(t, func(r *Reading) { r.Dir = "vertical" }), `reading dir: direction "vertical" of bores is neither across, along nor an angle from 0 to 360`},
		{good(t, func(r *Reading) { r.Keyed = "" }), "reading keyed: it is missing"},
		{good(t, func(r *Reading) { r.Via = "guess" }), `reading via: "guess": none of keypad, cable, file`},
		{good(t, func(r *Reading) { r.As = "" }), "reading as: none of first, repeat, replace"},
		{good(t, func(r *Reading) { r.Dev = length.Written{} }), "reading size: a reading has a size or a deviation"},
		{good(t, func(r *Reading) { r.Size = written("1 mm") }), `reading dev: "0.0015 in": a reading has not both a size and a deviation`},
		{good(t, func(r *Reading) { r.Size, r.Dev = written("0 mm"), length.Written{} }), "reading size: 0 mm is not above zero"},
		{good(t, func(r *Reading) {
			r.Of, r.Dir, r.Size, r.Dev = featureOf("end-play/1"), plan.Once, written("-0.1 mm"), length.Written{}
		}), "reading size: -0.1 mm is below zero"},
		{good(t, func(r *Reading) { r.Dev = inexact }), `reading dev: "1.0000 in": a length cannot be written exactly with so few decimals in its unit`},
		{good(t, func(r *Reading) { r.Set = "" }), "reading set: a deviation is read in a set"},
		{good(t, func(l *LeftOut) { l.Dir = "Along" }), `left out dir: direction "Along" of bores is written "along"`},
		{good(t, func(m *Moved) { m.Places = m.Places[:1] }), "moved places: 1 places for 2 readings"},
		{Moved{}, "moved places: 0 places for 0 readings"},
		{good(t, func(m *Moved) { m.Readings = []int64{3, 3} }), `moved readings[1]: "3": moved twice`},
		{good(t, func(m *Moved) { m.Readings = []int64{3, 9} }), `moved readings[1]: "9": not an event before this one`},
		{good(t, func(m *Moved) { m.Places = []plan.Place{m.Places[0], {Of: bore, Level: "a", Dir: "x"}} }), `moved places[1].dir: direction "x" of bores is neither across, along nor an angle from 0 to 360`},
		{good(t, func(w *Withdrawn) { w.Event = 0 }), `withdrawn event: "0": at least 1`},
		{good(t, func(w *Withdrawn) { w.Event = 9 }), `withdrawn event: "9": not an event before this one`},
		{good(t, func(w *Work) { w.Did = "" }), "work did: it is missing"},
		{good(t, func(w *Work) { w.To = nil }), "work to: it names no feature"},
		{good(t, func(w *Work) { w.To = []plan.Feature{bore, bore} }), `work to: "bore/1": named twice`},
		{good(t, func(w *Work) { w.Changes = []plan.Feature{{}} }), `work changes: feature "/0": no family is called ""`},
		{good(t, func(w *Work) { w.After = 9 }), `work after: "9": not an event before this one`},
		{good(t, func(w *Work) { w.Amount = "some" }), `work amount: "some": not a number with its unit`},
		{good(t, func(f *Fitted) { f.At = plan.Feature{} }), `fitted to: feature "/0": no family is called ""`},
		{Intended{Actions: []Action{{Did: "hone", To: []plan.Feature{bore}}, {Did: "grind"}}}, "intended actions[1].to: it names no feature"},
		{good(t, func(s *Steps) { s.List = append(s.List[:2:2], s.List[0]) }), `steps list: step "plugs": it stands twice in the list`},
		{oneStep(func(s *prep.Step) { s.NotBefore = []string{"b"} }), `steps list: step "a": not before "b", which is no step of the list`},
		{oneStep(func(s *prep.Step) { s.Name = "" }), "steps list[0].name: it is missing"},
		{oneStep(func(s *prep.Step) { s.ID = " " }), `steps list[0].id: " ": it is missing`},
		{oneStep(func(s *prep.Step) { s.Kind = "tick" }), `steps list: step "a": no kind of step is called "tick"`},
		{oneStep(func(s *prep.Step) { s.Kind, s.Count = prep.Counted, -1 }), `steps list: step "a": -1 is no count`},
		{oneStep(func(s *prep.Step) { s.Choices = []string{""} }), "steps list[0].choices: it is missing"},
		{oneStep(func(s *prep.Step) { s.Places = []string{long} }), "steps list[0].places: " + cut + "at most 64 bytes long"},
		{oneStep(func(s *prep.Step) { s.High = "wide" }), `steps list[0].high: "wide": not a number with its unit`},
		{oneStep(func(s *prep.Step) { s.Note = "a\tb" }), `steps list[0].note: "a\tb": one line without control characters`},
		{oneStep(func(s *prep.Step) { s.Text = "a\x1bb" }), `steps list[0].text: "a\x1bb": a text holds no control characters`},
		{good(t, func(d *Done) { d.Step = "" }), "done step: it is missing"},
		{good(t, func(d *Done) { d.Way = "lost" }), `done way: "lost": none of out, in, accounted`},
		{good(t, func(d *Done) { d.Value = "wide" }), `done value: "wide": not a number with its unit`},
		{good(t, func(s *Study) { s.Rows = nil }), "study rows: a study has values"},
		{good(t, func(s *Study) { s.Method = "" }), "study method: it is missing"},
		{good(t, func(s *Study) { s.Rows = []StudyRow{{Part: "1", Trial: 0, Value: "1"}} }), `study rows[0].trial: "0": at least 1`},
		{good(t, func(s *Study) { s.Rows = []StudyRow{{Part: "1", Trial: 1}} }), "study rows[0].value: it is missing"},
		{good(t, func(n *Note) { n.Text = "" }), "note text: it is missing"},
		{good(t, func(n *Note) { n.Text = strings.Repeat("x", 4097) }), "note text: " + cut + "a text is at most 4096 bytes long"},
		{good(t, func(n *Note) { n.On = "a\tb" }), `note on: "a\tb": one line without control characters`},
		{good(t, func(s *State) { s.State = "lost" }), `state state: "lost": none of closed, reopened, archived, restored`},
	}
}

func TestValidateRefuses(t *testing.T) {
	for _, c := range badBodies(t) {
		err := Event{N: 9, At: at, Body: c.body}.Validate()
		if err == nil || err.Error() != c.want {
			t.Errorf("%+v\nis refused with %v\nnot             %s", c.body, err, c.want)
		}
	}
}

// oneStep is a list of one step that is changed.
func oneStep(change func(*prep.Step)) Steps {
	s := prep.Step{ID: "a", Name: "x", Kind: prep.Once}
	change(&s)
	return Steps{List: prep.List{s}}
}

// unusualBodies are what is unusual and right.
func unusualBodies() []Body {
	bore := featureOf("bore/1")
	return []Body{
		Details{UID: "A_-9", Unit: length.MM},
		Rules{},
		Rules{Coverage: "10", BlindRate: "1.000"},
		Given{Name: "expansion", Value: "11.7 µm/(m K)"},
		Given{Name: "deck", Of: "bore/2", Value: "-0.005in"},
		Given{Name: "volume", Value: "48,5 cm³"},
		Table{Name: Costs},
		Instrument{gauge.Instrument{ID: "f1", Name: "Feelers", Kind: gauge.Indicator, Unit: length.MM}},
		Setting{gauge.Setting{ID: "z", Instrument: "bg1", On: gauge.OnFeature, Feature: "main-journal/2"}},
		Setting{gauge.Setting{ID: "z", Instrument: "m1", On: gauge.OnScale, At: gauge.Temperatures{Part: "-60", Gauge: "300"}}},
		Set{gauge.Set{ID: "s", Setting: "z"}},
		Zero{Set: "s", Keyed: "0", Deviation: written("0 in")},
		Reading{Of: bore, Level: "a", Dir: "45", Set: "s", Keyed: "0", Via: ViaCable, Dev: written("0 in"), As: Repeat},
		Reading{Of: featureOf("deck/2"), Level: "a", Dir: plan.Once, Keyed: "-.002", Via: ViaKeypad, Size: written("-0.002 in"), As: First},
		Reading{Of: featureOf("end-play/1"), Level: "a", Dir: plan.Once, Keyed: "0", Via: ViaKeypad, Size: written("0 mm"), As: First},
		Moved{Readings: []int64{7, 8}, Places: []plan.Place{{Of: bore, Level: "a", Dir: "across"}, {Of: bore, Level: "a", Dir: "across"}}},
		Work{Did: "washed", To: []plan.Feature{bore}},
		Intended{},
		Steps{},
		Note{Text: "two\n\tlines"},
	}
}

func TestValidateTakes(t *testing.T) {
	for _, body := range unusualBodies() {
		if err := (Event{N: 9, At: at, Body: body}).Validate(); err != nil {
			t.Errorf("%+v: %v", body, err)
		}
	}
	if err := (Event{At: at, Body: Withdrawn{Event: 100}}).Validate(); err != nil {
		t.Errorf("an event without a number: %v", err)
	}
}
