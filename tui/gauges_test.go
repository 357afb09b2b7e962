package tui

import (
	"strings"
	"testing"

	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
	"borewright/tui/draw"
)

// atGauges opens the gauges of the launch, at the one in the hand for bores.
func atGauges(t *testing.T) (*setupBench, *gaugesScreen) {
	t.Helper()
	b := newSetupBench(t, "launch")
	b.press("<enter>", "g")
	return b, top[*gaugesScreen](b.station)
}

// toGauge marks an instrument of the list.
func (s *gaugesScreen) toGauge(t *testing.T, id string) {
	t.Helper()
	for i, r := range s.rows() {
		if r.setting < 0 && s.all[r.gauge].ID == id {
			s.list.at = i
			return
		}
	}
	t.Fatalf("there is no gauge %s", id)
}

func TestTheGaugesOpenAtTheOneInTheHand(t *testing.T) {
	b, s := atGauges(t)
	if g, _, has := s.marked(); g.ID != "large" || !has {
		t.Errorf("marked is %s", g.ID)
	}
	b.see("comparator, 2 contacts, mark 0.0001 in, read to")
	b.see("zero not checked since")
	b.see("20 readings, not checked yet")
	b.see("repeatability not known")
	b.see("read with plate deck plate with gasket, part 19.5")
}

func TestAGaugeIsChosenByOneKey(t *testing.T) {
	b, s := atGauges(t)
	s.toGauge(t, "mic3")
	b.press("<enter>")
	h, err := s.desk.Session.Hand(plan.Bore)
	if err != nil || h.Instrument.ID != "mic3" {
		t.Fatalf("in the hand: %+v, %v", h.Instrument, err)
	}
	b.see("is in the hand for bores, as zeroed on its own scale")
	s.toGauge(t, "small") // last zeroed on a size far from a bore
	b.press("<enter>")
	if e := top[*entry](b.station); !strings.Contains(e.Title(), "a new setting of") {
		t.Errorf("asks %s", e.Title())
	}
}

func TestANewZeroIsASettingAndASet(t *testing.T) {
	b, s := atGauges(t)
	settings, sets := len(s.desk.Session.Settings()), len(s.desk.Session.Sets())
	b.press("n", "<down>", "3.7510", "<down>", "0.00005", "<down>", "21", "<down>", "20,5", "<f2>")
	top[*gaugesScreen](b.station)
	all := s.desk.Session.Settings()
	x := all[len(all)-1]
	if len(all) != settings+1 || len(s.desk.Session.Sets()) != sets+1 {
		t.Fatalf("%d settings and %d sets", len(all), len(s.desk.Session.Sets()))
	}
	if x.Size.String() != "3.7510 in" || x.Doubt.String() != "0.00005 in" || x.At.Master != "21" || x.At.Gauge != "20.5" || x.Instrument != "large" {
		t.Errorf("recorded %+v", x)
	}
}

func TestTheChainIsASettingOnAMeasuredPart(t *testing.T) {
	b, s := atGauges(t)
	s.toGauge(t, "small")
	b.press("n", "<right>", "<right>")
	b.see("the measured part itself")
	b.see("the dial reads the clearance over")
	b.press("<f2>")
	all := s.desk.Session.Settings()
	if x := all[len(all)-1]; x.On != gauge.OnFeature || x.Feature != "main-journal/1" || !x.Size.IsZero() {
		t.Errorf("recorded %+v", x)
	}
	b.press("<down>", "<down>")
	b.see("the dial reads clearance")
}

func TestCorrectingASettingReadsItsDeviationsAnew(t *testing.T) {
	b, s := atGauges(t)
	p := plan.Place{Of: plan.Feature{Family: plan.Bore, At: 1}, Level: "a", Dir: "across"}
	before := s.desk.Session.Figure(p, 0)
	b.press("c", "<down>", "3.7502", "<f2>")
	b.see("the setting is corrected")
	after := s.desk.Session.Figure(p, 0)
	if d := after.Sub(before).Format(s.desk.Session.Unit(), 4); d != "0.0002" {
		t.Errorf("bore 1 moved by %s, want 0.0002", d)
	}
	if x := b.last(launchUID).Body.(record.Setting); x.ID != "s-large" {
		t.Errorf("corrected %+v", x)
	}
}

func TestTheConditionOpensASetWhereOneWasUsed(t *testing.T) {
	b, s := atGauges(t)
	b.press("o", "<down>", "main caps", "<down>", "60 ft lb", "<f2>")
	x := b.last(launchUID).Body.(record.Set)
	if x.ID == "t-large" || x.Setting != "s-large" || x.Caps != "main caps" || x.Torque != "60 ft lb" || x.Plate == "" {
		t.Errorf("recorded %+v", x)
	}
	h, _ := s.desk.Session.Hand(plan.Bore)
	if h.Set.ID != x.ID {
		t.Errorf("in the hand is set %s", h.Set.ID)
	}
	n := b.last(launchUID).N
	b.press("o", "<down>", "<down>", "<down>", "studs", "<f2>")
	if y := b.last(launchUID).Body.(record.Set); y.ID != x.ID || y.Fastener != "studs" {
		t.Errorf("a set that nothing was read in is amended: %+v", y)
	}
	b.press("o", "<f2>")
	if b.last(launchUID).N != n+1 {
		t.Error("nothing changed, and something was recorded")
	}
}

func TestImpossibleFiguresAreNotKept(t *testing.T) {
	b, _ := atGauges(t)
	n := b.last(launchUID).N
	b.press("o", "<down>", "<down>", "<down>", "<down>", "<down>", "<down>", "<down>", "900", "<f2>")
	b.see("not yet")
	b.press("<esc>", "<esc>")
	top[*gaugesScreen](b.station)
	b.press("c", "<down>", "1.2.3", "<enter>")
	b.see("c")
	if e := top[*entry](b.station); len(e.form.bad) != 1 {
		t.Errorf("bad: %v", e.form.bad)
	}
	b.press("<f2>")
	top[*entry](b.station)
	if b.last(launchUID).N != n {
		t.Errorf("recorded %+v", b.last(launchUID).Body)
	}
}

func TestAnEditedGaugeSaysItIsPastDue(t *testing.T) {
	b, s := atGauges(t)
	e := newInstrumentForm(s.st, s.desk, &s.shop, s.desk.Session.Gauges()[3].Instrument, false)
	s.st.Push(e)
	b.press("<down>", "<up>")
	e.form.jump("due")
	b.press("2026-03-10")
	e.form.jump("sense")
	b.press("<right>")
	e.form.jump("gauge.material")
	b.press("<right>", "<f2>")
	i := b.last(launchUID).Body.(record.Instrument)
	if i.Due != "2026-03-10" || i.Sense != gauge.ClockwiseLarger || i.Material != "grey cast iron" || i.Alpha != "11.4" {
		t.Errorf("recorded %+v", i)
	}
	b.see("calibration was due 2026-03-10, and is past due")
	b.see("clockwise larger (said, not proved)")
	b.see("iron, 11.4")
}

func TestTheExpansionOfPartsIsGiven(t *testing.T) {
	b, s := atGauges(t)
	b.press("x", "<right>", "<down>", "11.0", "<f2>")
	g, ok := s.desk.Session.GivenFor("expansion", plan.Bore)
	if !ok || g.Value != "11.0" || g.Source != "grey cast iron" || g.Doubt != "1.0" {
		t.Errorf("given %+v", g)
	}
	b.press("x")
	b.see("11.0")
	b.press("<left>", "<f2>")
	b.see("an expansion is missing")
}

func TestLeavingAnEntryAsksOnce(t *testing.T) {
	b, _ := atGauges(t)
	b.press("c", "<down>", "3.7600", "<enter>", "<esc>")
	b.see("Esc once more leaves")
	b.press("<esc>")
	top[*gaugesScreen](b.station)
	b.press("c", "<esc>")
	top[*gaugesScreen](b.station)
}

func TestASuspectSettingIsSaid(t *testing.T) {
	b := newSetupBench(t, "launch")
	b.press("<enter>", "/4+4", "<enter>", "/", "g")
	b.see("20 suspect")
	b.see("the last one, today 07:30, was +0.00040 in out; 20 of 20")
	s := top[*gaugesScreen](b.station)
	b.press("<down>")
	if _, tone := s.stateText(s.all[3].Settings[0]); tone != draw.Warn {
		t.Error("a suspect setting does not look so")
	}
}

func TestASkippedCheckIsNotAGoodOne(t *testing.T) {
	b, s := atGauges(t)
	if err := s.desk.Record(record.Zero{Set: "t-large", Skipped: true, Why: "no ring at hand"}); err != nil {
		t.Fatal(err)
	}
	b.see("20 readings, check skipped")
	b.see("zero check skipped today 07:30: no ring at hand")
	b.unseen("zero good")
	if err := s.desk.Record(zeroOf(t, "t-large", "0.0000")); err != nil {
		t.Fatal(err)
	}
	b.see("20 readings, zero good")
}

// zeroOf is a zero check that read a deviation in inches.
func zeroOf(t *testing.T, set, dev string) record.Zero {
	t.Helper()
	w, err := length.Parse(dev, length.In)
	if err != nil {
		t.Fatal(err)
	}
	return record.Zero{Set: set, Keyed: "0", Deviation: w}
}
