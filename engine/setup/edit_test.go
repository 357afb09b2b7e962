package setup_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/enginetest"
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/setup"
)

func TestCheckNamesTheFieldAndTheValue(t *testing.T) {
	for name, c := range map[string]struct {
		edit  func(*setup.Draft)
		field string
		text  string
		doubt bool
	}{
		"title":    {func(d *setup.Draft) { d.Title = "" }, "title", "the session has no title", false},
		"long":     {func(d *setup.Draft) { d.Customer = strings.Repeat("x", 201) }, "customer", "201 bytes", false},
		"initials": {func(d *setup.Draft) { d.Initials = strings.Repeat("x", 33) }, "initials", "33 bytes", false},
		"unit":     {func(d *setup.Draft) { d.Unit = length.UM }, "unit", `not "µm"`, false},
		"layout":   {func(d *setup.Draft) { d.Layout.Mains = 30 }, "layout", "mains 30", false},
		"nothing": {func(d *setup.Draft) {
			for _, f := range plan.Families() {
				d.SetMeasured(f.Family, false)
			}
		}, "measured", "nothing is measured", false},
		"no nominal": {func(d *setup.Draft) { d.Of(plan.Bore).SetNominal(length.Written{}) }, "bore.nominal", "no nominal size for bores yet", false},
		"inch as mm": {func(d *setup.Draft) { d.Of(plan.Bore).SetNominal(enginetest.Written(t, "3.75 mm")) }, "bore.nominal", "3.75 mm of bores is not from 5.000 mm to 1200.000 mm", false},
		"mm as inch": {func(d *setup.Draft) { d.Of(plan.Bore).SetNominal(enginetest.Written(t, "95.25 in")) }, "bore.nominal", "95.25 in of bores is not from 0.1969 in to 47.2441 in", false},
		"below zero": {func(d *setup.Draft) { d.Of(plan.Bore).SetNominal(enginetest.Written(t, "-3.75 in")) }, "bore.nominal", "-3.75 in", false},
		"depths": {func(d *setup.Draft) {
			f := d.Of(plan.Bore)
			f.SetDepth(0, enginetest.Written(t, "2 in"))
			f.SetDepth(1, enginetest.Written(t, "1 in"))
		}, "bore.grid", "depth 1 in", false},
		"limits": {func(d *setup.Draft) {
			d.Of(plan.Bore).SetLimit(limit.Size, "", setup.NewLow, enginetest.Written(t, "3.7511 in"))
		}, "bore.size", "low new limit 3.7511 in is above the high one", false},
		"far limit": {func(d *setup.Draft) {
			d.Of(plan.Bore).SetLimit(limit.Size, "", setup.NewLow, enginetest.Written(t, "3.5700 in"))
		}, "bore.size.new.low", "the low new size of bores, 3.5700 in, is far from the nominal 3.7500 in", true},
		"no gauge":    {func(d *setup.Draft) { d.Of(plan.Bore).Gauge = gauge.Instrument{} }, "bore.gauge", "no gauge is chosen for bores", false},
		"graduation":  {func(d *setup.Draft) { d.Of(plan.Bore).Gauge.Graduation = length.Written{} }, "bore.gauge", "graduation", false},
		"no master":   {func(d *setup.Draft) { d.Of(plan.Bore).SetMaster(gauge.OnRing, length.Written{}) }, "bore.master", "no master's size for bores yet", false},
		"master zero": {func(d *setup.Draft) { d.Of(plan.Bore).SetMaster(gauge.OnRing, enginetest.Written(t, "0 in")) }, "bore.master", "0 in is not above zero", false},
		"mm master":   {func(d *setup.Draft) { d.Of(plan.Bore).SetMaster(gauge.OnRing, enginetest.Written(t, "3.7500 mm")) }, "bore.master", "no gauge reaches so far: master 3.7500 mm for bores, nominal 3.7500 in", false},
		"far master":  {func(d *setup.Draft) { d.Of(plan.Bore).SetMaster(gauge.OnRing, enginetest.Written(t, "3.5700 in")) }, "bore.master", "the master 3.5700 in for bores is 0.1800 in from their nominal 3.7500 in", true},
		"own scale":   {func(d *setup.Draft) { d.Of(plan.Bore).SetMaster(gauge.OnScale, enginetest.Written(t, "3.7500 in")) }, "bore.master", "on a master, not on a scale", false},
	} {
		t.Run(name, func(t *testing.T) {
			d := enginetest.Mastered(setup.Presets()[0].Draft())
			c.edit(&d)
			ps := d.Check()
			if len(ps) == 0 || ps[0].Field != c.field || ps[0].Doubt != c.doubt || !strings.Contains(ps[0].Text, c.text) {
				t.Errorf("Check = %+v, want %s: ... %s", ps, c.field, c.text)
			}
			if _, err := d.Events("abc"); (err == nil) != c.doubt {
				t.Errorf("Events = %v", err)
			}
		})
	}
}

func TestLevelsComeBeforeTheLast(t *testing.T) {
	d := setup.Presets()[0].Draft()
	f := d.Of(plan.Bore)
	show := func() string {
		var out []string
		for _, l := range f.Levels {
			out = append(out, l.ID+" "+l.Name)
		}
		return strings.Join(out, ", ")
	}
	for _, c := range []struct {
		n    int
		want string
	}{
		{3, "a top, b middle, c bottom"},
		{4, "a top, b level 2, d level 3, c bottom"},
		{6, "a top, b level 2, d level 3, e level 4, f level 5, c bottom"},
		{2, "a top, c bottom"},
		{1, "a middle"},
		{3, "a top, c middle, b bottom"},
	} {
		d.SetLevels(plan.Bore, c.n)
		if got := show(); got != c.want && c.n != 3 {
			t.Errorf("%d levels are %s, want %s", c.n, got, c.want)
		}
		if err := d.Plan().Validate(); err != nil {
			t.Error(err)
		}
	}
	f.Levels[1].Name = "ring land"
	d.SetLevels(plan.Bore, 4)
	if f.Levels[0].Name != "top" || f.Levels[1].Name != "ring land" || f.Levels[2].Name != "level 3" || f.Levels[3].Name != "bottom" {
		t.Errorf("levels are %s", show())
	}
}

func TestNominalsMoveTheirProposals(t *testing.T) {
	d := setup.Presets()[0].Draft()
	f := d.Of(plan.Bore)
	f.SetLimit(limit.OutOfRound, "", setup.NewHigh, enginetest.Written(t, "0.0003 in"))
	f.SetJudge(limit.Wear)
	f.SetNominal(enginetest.Written(t, "4.0000 in"))
	size, _ := f.Limit(limit.Size, "")
	if size.New.Low.String() != "4.0000 in" || size.New.High.String() != "4.0010 in" || size.Wear.High.String() != "4.0040 in" || size.JudgeBy != limit.Wear {
		t.Errorf("size limits are %+v", size)
	}
	clear, _ := f.Limit(limit.Clearance, "")
	if clear.New.Low.String() != "0.0020 in" || clear.New.High.String() != "0.0040 in" || clear.JudgeBy != "" {
		t.Errorf("clearance limits are %+v", clear)
	}
	round, _ := f.Limit(limit.OutOfRound, "")
	if round.New.High.String() != "0.0003 in" || round.Source != "keyed at setup" {
		t.Errorf("what was keyed became %+v", round)
	}
	f.SetNominal(enginetest.Written(t, "100.000 mm"))
	taper, _ := f.Limit(limit.Taper, "")
	if taper.New.High.String() != "0.012 mm" || taper.Wear.High.String() != "0.050 mm" {
		t.Errorf("taper limits are %+v", taper)
	}
}

// The rule of thumb of a new bore is a published figure.
func TestProposalsNameTheirSource(t *testing.T) {
	d := setup.Presets()[0].Draft()
	for _, f := range d.Measured() {
		for _, l := range f.Limits {
			if !strings.Contains(l.Source, "the maker's data govern") {
				t.Errorf("%s of %s comes from %q", l.On, l.Of, l.Source)
			}
		}
	}
	round, _ := d.Of(plan.Bore).Limit(limit.OutOfRound, "")
	if round.New.High.String() != "0.0005 in" || !strings.Contains(round.Source, "NAVEDTRA 14264A p. 3-4") {
		t.Errorf("out-of-round is %+v", round)
	}
}

// Whatever the nominal, what is proposed for it holds together.
func TestProposalsAreLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom([]length.Unit{length.In, length.MM}).Draw(t, "unit")
		n := rapid.Int64Range(100, 1_000_000).Draw(t, "nominal")
		w := length.Written{Length: length.Length(n) * unit.Size() / 1000, Unit: unit, Places: 3}
		d := setup.New(unit, plan.Default(plan.Inline, 4, false))
		for _, traits := range plan.Families() {
			d.SetMeasured(traits.Family, true)
			f := d.Of(traits.Family)
			f.SetNominal(w)
			for _, l := range f.Limits {
				if err := l.Validate(); err != nil {
					t.Fatal(err)
				}
				if l.On == limit.Size && l.New.High.Places < 3 {
					t.Fatalf("%s is written %s", l.On, l.New.High)
				}
			}
			f.SetNominal(length.Written{})
			if f.Limits != nil {
				t.Fatalf("without a nominal there is %+v", f.Limits)
			}
		}
	})
}

func TestLimitsComeAndGo(t *testing.T) {
	f := setup.Presets()[6].Draft().Families[0]
	f.SetLimit(limit.Taper, "", setup.NewHigh, length.Written{})
	if f.Limits != nil {
		t.Fatalf("nothing keyed made %+v", f.Limits)
	}
	f.SetLimit(limit.Taper, "", setup.NewHigh, enginetest.Written(t, "0.01 mm"))
	f.SetSource(limit.Taper, "", "shop manual p. 12")
	f.SetJudge(limit.New)
	f.SetLimit(limit.Taper, "", setup.WearHigh, enginetest.Written(t, "0.05 mm"))
	l, ok := f.Limit(limit.Taper, "")
	if !ok || l.Source != "shop manual p. 12" || l.JudgeBy != limit.New || f.Judge() != limit.New {
		t.Errorf("the limits are %+v", l)
	}
	f.SetLimit(limit.Taper, "", setup.NewHigh, length.Written{})
	if l, _ := f.Limit(limit.Taper, ""); l.JudgeBy != "" || l.Wear.High.String() != "0.05 mm" {
		t.Errorf("judged by a limit that is gone: %+v", l)
	}
	f.SetLimit(limit.Taper, "", setup.WearHigh, length.Written{})
	if f.Limits != nil {
		t.Errorf("limits are left: %+v", f.Limits)
	}
}

func TestAGaugeIsSharedWhole(t *testing.T) {
	d := setup.Presets()[0].Draft()
	mains, bores := d.Of(plan.MainBearing), d.Of(plan.Bore)
	mains.Gauge, mains.Setting, mains.Set = bores.Gauge, bores.Setting, bores.Set
	bores.SetMaster(gauge.OnRing, enginetest.Written(t, "3.7500 in"))
	d.Share(plan.Bore)
	if mains.Setting.Size.String() != "3.7500 in" {
		t.Errorf("the mains' setting is %+v", mains.Setting)
	}
	if d.Of(plan.MainJournal).Gauge == bores.Gauge {
		t.Error("the journals' micrometer became a bore gauge")
	}
}

func TestUnitsBringTheirGauges(t *testing.T) {
	d := setup.Presets()[0].Draft()
	d.Of(plan.MainJournal).Gauge.Name = "old micrometer"
	d.SetUnit(length.MM)
	if g := d.Of(plan.Bore).Gauge; g.Unit != length.MM || g.Graduation.String() != "0.001 mm" {
		t.Errorf("the bore gauge is %+v", g)
	}
	if g := d.Of(plan.MainJournal).Gauge; g.Unit != length.In {
		t.Errorf("a gauge that was named became %+v", g)
	}
	if n := d.Of(plan.Bore).Nominal.String(); n != "3.7500 in" {
		t.Errorf("the nominal became %s", n)
	}
	f := d.Of(plan.MainJournal)
	f.SetGauge(gauge.Direct, length.MM)
	if f.Gauge.Name != "old micrometer" || f.Gauge.Turn.String() != "0.500 mm" {
		t.Errorf("in millimetres it is %+v", f.Gauge)
	}
}

// Every family there is can be measured, with the gauges it is usually read
// with, and limited by everything that can be limited of it.
func TestEveryFamilyCanBeSetUp(t *testing.T) {
	d := setup.New(length.MM, plan.Default(plan.Vee, 8, true))
	d.Title = "Everything"
	for _, traits := range plan.Families() {
		f := d.Of(traits.Family)
		d.SetMeasured(traits.Family, true)
		if traits.Figure == "" {
			f.SetNominal(enginetest.Written(t, "60.000 mm"))
		}
		for _, on := range setup.CharacteristicsOf(traits.Family) {
			if _, have := f.Limit(on, ""); !have {
				f.SetLimit(on, "", setup.NewHigh, enginetest.Written(t, "60.5 mm"))
			}
		}
		if len(setup.CharacteristicsOf(traits.Family)) != len(f.Limits) {
			t.Errorf("%s is limited by %v", traits.Family, f.Limits)
		}
	}
	d = enginetest.Mastered(d)
	if ps := d.Check(); len(ps) > 0 {
		t.Fatalf("Check = %v", ps)
	}
	s := enginetest.Begun(t, d)
	for _, traits := range plan.Families() {
		at := s.Enter(s.Plan().Features(s.Layout())[0])
		if _, err := s.Reads(at); err != nil {
			t.Errorf("%s: %v", traits.Family, err)
		}
	}
	for _, kind := range setup.GaugeKinds(plan.EndPlay) {
		d.Of(plan.EndPlay).SetGauge(kind, length.In)
		if err := d.Of(plan.EndPlay).Gauge.Validate(); err != nil {
			t.Error(err)
		}
	}
}
