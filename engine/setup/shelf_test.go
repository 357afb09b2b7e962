package setup_test

import (
	"testing"

	"borewright/engine/enginetest"
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/setup"
)

// inlineSix is the setup of an inline six, of which no master is known yet.
func inlineSix(t *testing.T) setup.Draft {
	t.Helper()
	for _, p := range setup.Presets() {
		if p.ID == "inline-6-in" {
			return p.Draft()
		}
	}
	t.Fatal("there is no inline six")
	return setup.Draft{}
}

// shelfGauge is a gauge of the shop, under an id that a draft uses for its own.
func shelfGauge(t *testing.T, kind, name, low, high string) gauge.Instrument {
	t.Helper()
	i := gauge.Instrument{ID: "bore", Name: name, Kind: kind, Unit: length.In, Graduation: enginetest.Written(t, "0.0005 in"), S: enginetest.Written(t, "0.0001 in"), DF: 12}
	if high != "" {
		i.Low, i.High = enginetest.Written(t, low), enginetest.Written(t, high)
	}
	return i
}

func TestAGaugeOfTheShopIsOfferedWhereItFits(t *testing.T) {
	for _, tt := range []struct {
		family                plan.Family
		kind, low, high, name string
		want                  bool
	}{
		{plan.Bore, gauge.Comparator, "", "", "long", true},
		{plan.Bore, gauge.Comparator, "2 in", "6 in", "long", true},
		{plan.Bore, gauge.Comparator, "4 in", "6 in", "long", false},
		{plan.Bore, gauge.Comparator, "2 in", "3.7 in", "long", false},
		{plan.Bore, gauge.Indicator, "", "", "long", false},
		{plan.MainJournal, gauge.Direct, "2 in", "3 in", "micrometer", true},
		{plan.MainBearing, gauge.Comparator, "", "", "bore gauge for bores", false},
		{plan.EndPlay, gauge.Indicator, "", "", "feeler", true},
	} {
		d := inlineSix(t)
		if got := d.Fits(tt.family, shelfGauge(t, tt.kind, tt.name, tt.low, tt.high)); got != tt.want {
			t.Errorf("%s %q, %s to %s, for %s: %v", tt.kind, tt.name, tt.low, tt.high, tt.family, got)
		}
	}
}

// A gauge of the shop comes by value, with how well it repeats, and the session
// is read with it from the master that was keyed.
func TestASessionBeginsWithAGaugeOfTheShop(t *testing.T) {
	d := inlineSix(t)
	d.Of(plan.Bore).SetMaster(gauge.OnRing, enginetest.Written(t, "3.75 in"))
	d.UseGauge(plan.MainBearing, shelfGauge(t, gauge.Comparator, "short", "", ""))
	d.UseGauge(plan.Bore, shelfGauge(t, gauge.Comparator, "long", "", ""))
	s := enginetest.Begun(t, d)
	h, err := s.Hand(plan.Bore)
	if err != nil || h.Instrument.Name != "long" || h.Instrument.DF != 12 || h.Setting.Size.String() != "3.75 in" {
		t.Errorf("bores: %+v, %v", h, err)
	}
	if g, _ := s.Plan().Group(plan.MainBearing); g.Instrument == h.Instrument.ID || g.Instrument == "" {
		t.Errorf("two gauges have the id %q", g.Instrument)
	}
	d.Of(plan.Bore).UseUsual()
	if f := d.Of(plan.Bore); f.Gauge.Name != "bore gauge for bores" || f.Setting.Size.String() != "3.75 in" {
		t.Errorf("the usual one again: %+v", f.Gauge)
	}
}

// One micrometer for two families is one.
func TestAMicrometerOfTheShopIsShared(t *testing.T) {
	d := inlineSix(t)
	d.SetMeasured(plan.RodJournal, true)
	i := shelfGauge(t, gauge.Direct, "2 to 3 in micrometer", "", "")
	d.UseGauge(plan.MainJournal, i)
	d.UseGauge(plan.RodJournal, i)
	if a, b := d.Of(plan.MainJournal), d.Of(plan.RodJournal); a.Gauge != b.Gauge || a.Set != b.Set || b.Instrument != a.Gauge.ID {
		t.Errorf("%+v and %+v", a.Gauge, b.Gauge)
	}
}
