package setup_test

import (
	"bytes"
	"errors"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine"
	"borewright/engine/enginetest"
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
	"borewright/engine/record"
	"borewright/engine/setup"
	"borewright/testdata"
)

// started is the session of a flat four with one bore reading taken.
func started(t *testing.T) (*engine.Session, setup.Draft) {
	t.Helper()
	d := enginetest.Mastered(setup.Presets()[5].Draft())
	d.Of(plan.Bore).SetDepth(0, enginetest.Written(t, "10.0 mm"))
	s := enginetest.Begun(t, d)
	enginetest.Apply(t, s, record.Reading{
		Of: plan.Feature{Family: plan.Bore, At: 4}, Level: "a", Dir: "across", Set: "bore-1",
		Keyed: "3", Via: record.ViaKeypad, As: record.First, Dev: enginetest.Written(t, "0.003 mm"),
	})
	d.Initials = "ek"
	return s, d
}

func TestChangesAreOnlyWhatChanged(t *testing.T) {
	for name, c := range map[string]struct {
		edit func(*setup.Draft)
		want string
	}{
		"nothing":        {func(*setup.Draft) {}, ""},
		"title":          {func(d *setup.Draft) { d.Title = "Another" }, "details"},
		"unit":           {func(d *setup.Draft) { d.Unit = length.In }, "details"},
		"more cylinders": {func(d *setup.Draft) { d.SetCylinders(6) }, "layout"},
		"order":          {func(d *setup.Draft) { d.Order = plan.ByDirection }, "plan"},
		"more levels":    {func(d *setup.Draft) { d.SetLevels(plan.Bore, 5) }, "plan"},
		"a first depth":  {func(d *setup.Draft) { d.Of(plan.Bore).SetDepth(2, enginetest.Written(t, "90 mm")) }, "plan"},
		"no pistons":     {func(d *setup.Draft) { d.SetMeasured(plan.Piston, false) }, "plan"},
		"mains too": {func(d *setup.Draft) {
			d.SetMeasured(plan.MainBearing, true)
			d.Of(plan.MainBearing).SetNominal(enginetest.Written(t, "60.000 mm"))
		}, "plan, limit, instrument"},
		"a limit": {func(d *setup.Draft) {
			d.Of(plan.Bore).SetLimit(limit.OverallSpread, "", setup.WearHigh, enginetest.Written(t, "0.15 mm"))
		}, "limit"},
		"a limit less": {func(d *setup.Draft) {
			f := d.Of(plan.Bore)
			f.SetLimit(limit.Taper, "", setup.NewHigh, length.Written{})
			f.SetLimit(limit.Taper, "", setup.WearHigh, length.Written{})
		}, "withdrawn"},
		"a definition": {func(d *setup.Draft) { d.Of(plan.Bore).SetDefinition(limit.Taper, limit.Spread) }, "withdrawn, limit"},
		"the master": {func(d *setup.Draft) {
			d.Of(plan.Bore).SetMaster(gauge.OnRing, enginetest.Written(t, "92.010 mm"))
		}, "setting"},
		"the gauge's name": {func(d *setup.Draft) { d.Of(plan.Bore).Gauge.Name = "long gauge" }, "instrument"},
		"another gauge": {func(d *setup.Draft) {
			d.Of(plan.Bore).SetGauge(gauge.Direct, length.MM)
		}, "plan, instrument, setting, set"},
	} {
		t.Run(name, func(t *testing.T) {
			s, d := started(t)
			c.edit(&d)
			place := plan.Place{Of: plan.Feature{Family: plan.Bore, At: 4}, Level: "a", Dir: "across"}
			if got := enginetest.Kinds(enginetest.Changed(t, s, d)); got != c.want {
				t.Errorf("changes are %q, want %q", got, c.want)
			}
			if n := len(s.Now(place)); n != 1 {
				t.Errorf("%d readings are left of one", n)
			}
			again, err := setup.Of(s).Changes(s)
			if err != nil || len(again) != 0 {
				t.Errorf("once changed there is still %s to change, %v", enginetest.Kinds(again), err)
			}
		})
	}
}

func TestChangesKeepEveryReadingItsPlace(t *testing.T) {
	for name, c := range map[string]struct {
		edit func(*setup.Draft)
		want string
	}{
		"cylinders":  {func(d *setup.Draft) { d.SetCylinders(2) }, "bore 4 has been read or left out, so the layout has to keep it"},
		"form":       {func(d *setup.Draft) { d.SetForm(plan.Inline); d.SetCylinders(3) }, "bore 4 has been read"},
		"family":     {func(d *setup.Draft) { d.SetMeasured(plan.Bore, false) }, "bore 4, top, across has a reading, so the plan has to keep it"},
		"directions": {func(d *setup.Draft) { d.Of(plan.Bore).Directions = []string{"along"} }, "bore 4, top, across has a reading"},
		"level":      {func(d *setup.Draft) { f := d.Of(plan.Bore); f.Levels = f.Levels[1:] }, "bore 4, top, across has a reading"},
		"depth":      {func(d *setup.Draft) { d.Of(plan.Bore).SetDepth(0, enginetest.Written(t, "12 mm")) }, `level "top" of bores has readings at a depth of 10.0 mm, so its depth cannot become "12 mm"`},
	} {
		t.Run(name, func(t *testing.T) {
			s, d := started(t)
			c.edit(&d)
			_, err := d.Changes(s)
			var orphan *setup.OrphanError
			if !errors.As(err, &orphan) || !strings.HasPrefix(err.Error(), c.want) {
				t.Errorf("Changes = %v, want %q", err, c.want)
			}
		})
	}
}

// The size of a master put right moves the sizes, not what was read.
func TestAMasterPutRightReadsAnew(t *testing.T) {
	s, d := started(t)
	place := plan.Place{Of: plan.Feature{Family: plan.Bore, At: 4}, Level: "a", Dir: "across"}
	if got := s.Figure(place, 0).Format(length.MM, 3); got != "92.003" {
		t.Fatalf("the reading is %s", got)
	}
	d.Of(plan.Bore).SetMaster(gauge.OnRing, enginetest.Written(t, "92.010 mm"))
	enginetest.Changed(t, s, d)
	if got := s.Figure(place, 0).Format(length.MM, 3); got != "92.013" {
		t.Errorf("with the master put right it is %s", got)
	}
	if got := s.Now(place)[0].Dev.String(); got != "0.003 mm" {
		t.Errorf("the reading itself became %s", got)
	}
}

// A level's id is never that of another depth.
func TestLevelsGetFreshIDs(t *testing.T) {
	s, d := started(t)
	f := d.Of(plan.Bore)
	f.SetDepth(1, enginetest.Written(t, "45 mm"))
	enginetest.Changed(t, s, d)
	f.SetDepth(1, enginetest.Written(t, "50 mm"))
	enginetest.Changed(t, s, d)
	g, _ := s.Plan().Group(plan.Bore)
	if g.Levels[1].ID != "d" || g.Levels[1].Name != "middle" || g.Levels[1].Depth.String() != "50 mm" {
		t.Errorf("the level that moved is %+v", g.Levels[1])
	}
}

// Levels that were read keep their names when others come between.
func TestLevelsThatWereReadKeepTheirNames(t *testing.T) {
	s, d := started(t)
	d.SetLevels(plan.Bore, 2)
	d.Of(plan.Bore).Levels[0].Name = "upper end"
	enginetest.Changed(t, s, d)
	g, _ := s.Plan().Group(plan.Bore)
	if got := g.Levels[0].Name; got != "top" {
		t.Errorf("the level that was read is called %q now", got)
	}
}

// One bore gauge for bores and mains: a master put right is near the one before,
// another one far from it is a new zero, and what was read before stays.
func TestASharedGaugeIsZeroedAnew(t *testing.T) {
	for _, c := range []struct {
		size, setting, bore string
		far                 bool // too far from the mains' nominal to read them
	}{
		{"92.010 mm", "bore-1", "92.013", true},
		{"60.000 mm", "bore-2", "92.003", false},
	} {
		s, d := started(t)
		d.SetMeasured(plan.MainBearing, true)
		mains, bores := d.Of(plan.MainBearing), d.Of(plan.Bore)
		mains.SetNominal(enginetest.Written(t, "60.000 mm"))
		mains.Gauge, mains.Setting, mains.Set = bores.Gauge, bores.Setting, bores.Set
		enginetest.Changed(t, s, d)
		mains.SetMaster(gauge.OnRing, enginetest.Written(t, c.size))
		d.Share(plan.MainBearing)
		enginetest.Changed(t, s, d)
		h, err := s.Hand(plan.MainBearing)
		if (err != nil) != c.far || h.Setting.ID != c.setting || h.Setting.Size.String() != c.size {
			t.Errorf("set to %s the mains are read from %+v, %v", c.size, h.Setting, err)
		}
		place := plan.Place{Of: plan.Feature{Family: plan.Bore, At: 4}, Level: "a", Dir: "across"}
		if got := s.Figure(place, 0).Format(length.MM, 3); got != c.bore {
			t.Errorf("set to %s the bore is %s, want %s", c.size, got, c.bore)
		}
		if again, err := setup.Of(s).Changes(s); err != nil || len(again) != 0 {
			t.Errorf("there is still %s to change, %v", enginetest.Kinds(again), err)
		}
	}
}

// What a draft does not show stays as it is.
func TestChangesLeaveTheRestAlone(t *testing.T) {
	s, _ := started(t)
	enginetest.Apply(t, s,
		record.Limit{Limits: limit.Limits{On: limit.Size, Of: "bore/2", New: limit.Range{High: enginetest.Written(t, "92.5 mm")}}},
		record.Rules{Unit: length.MM, StaleHours: 12},
		record.Note{Text: "liner 2 is new"},
	)
	d := setup.Of(s)
	d.Unit = length.In
	d.Customer = "nobody yet"
	if got := enginetest.Kinds(enginetest.Changed(t, s, d)); got != "details, rules" {
		t.Errorf("changes are %s", got)
	}
	if s.Rules().StaleHours != 12 || s.Unit() != length.In {
		t.Errorf("rules are %+v", s.Rules())
	}
	if _, ok := limit.Find(s.Limits(), limit.Size, plan.Feature{Family: plan.Bore, At: 2}); !ok {
		t.Error("the limits of bore 2 are gone")
	}
}

// Whatever is edited, the changes can be applied, and then nothing is left to
// change.
func TestChangesArriveAtTheDraft(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := enginetest.Begun(t, drawDraft(t))
		d := drawDraft(t)
		enginetest.Changed(t, s, d)
		got := setup.Of(s)
		if again, err := got.Changes(s); err != nil || len(again) != 0 {
			t.Fatalf("there is still %s to change, %v", enginetest.Kinds(again), err)
		}
		if got.Title != d.Title || got.Unit != d.Unit || !reflect.DeepEqual(got.Layout, d.Layout) || got.Order != d.Order {
			t.Fatalf("arrived at\n%+v, not\n%+v", got, d)
		}
		for _, f := range d.Measured() {
			g := *got.Of(f.Family)
			if !g.Measured || g.Nominal != f.Nominal || !reflect.DeepEqual(g.Limits, f.Limits) || g.Gauge.Kind != f.Gauge.Kind || g.Setting.Size != f.Setting.Size {
				t.Fatalf("%s arrived at\n%+v, not\n%+v", f.Family, g, f)
			}
		}
	})
}

// A session that was not set up from a preset can be edited like any other.
func TestSessionsFromElsewhereAreDrafts(t *testing.T) {
	for _, name := range testdata.Names() {
		data, _ := testdata.Session(name)
		file, err := record.ReadFile(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		if file.Full == nil {
			continue
		}
		s, err := engine.Replay(file.Full.Events)
		if err != nil {
			t.Fatal(err)
		}
		d := setup.Of(s)
		if bodies, err := d.Changes(s); err != nil || len(bodies) != 0 {
			t.Errorf("%s: an unchanged draft changes %s, %v", name, enginetest.Kinds(bodies), err)
		}
		d.Title += ", again"
		d.Of(plan.Bore).SetLimit(limit.OverallSpread, "", setup.WearHigh, enginetest.Written(t, "0.15 mm"))
		if got := enginetest.Kinds(enginetest.Changed(t, s, d)); got != "details, limit" {
			t.Errorf("%s: changes are %s", name, got)
		}
	}
}
