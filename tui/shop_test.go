package tui

import (
	"errors"
	"strings"
	"testing"

	"borewright/engine"
	"borewright/engine/gauge"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// shopOf is what the shop of a station has.
func shopOf(t *testing.T, b *shelf) engine.Shop {
	t.Helper()
	events, err := b.Load(record.ShopUID)
	if err != nil {
		t.Fatal(err)
	}
	return engine.ReadShop(events)
}

func TestAGaugeIsKeptInTheShopAndTakenIntoAnotherSession(t *testing.T) {
	b, s := atGauges(t)
	b.press("e")
	e := top[*entry](b.station)
	e.form.jump("due")
	b.press("2026-03-10", "<f2>")
	b.press("k")
	b.see("is kept in the shop")
	kept := shopOf(t, b.book).Instruments
	if len(kept) != 1 || kept[0].Name != "bore gauge with the long head" || kept[0].Due != "2026-03-10" {
		t.Fatalf("the shop has %+v", kept)
	}

	// It is changed here: the shop's follows. It is taken where another name has
	// its id: under an id of its own, by value.
	b.press("e")
	e = top[*entry](b.station)
	e.form.jump("turn")
	b.press("0.02", "<f2>")
	if kept = shopOf(t, b.book).Instruments; len(kept) != 1 || kept[0].Turn.String() != "0.02 in" {
		t.Errorf("the shop has %+v", kept)
	}
	other := s.desk.Session.Gauges()[3].Instrument
	other.Name = "another one"
	if err := s.desk.Record(record.Instrument{Instrument: other}); err != nil {
		t.Fatal(err)
	}
	b.press("t")
	b.see("calibration was due 2026-03-10")
	b.press("<enter>")
	if e := top[*entry](b.station); !strings.Contains(e.Title(), "a new setting of bore gauge with the long head") {
		t.Fatalf("asks %s", e.Title())
	}
	g, ok := s.desk.Session.Plan().Group(plan.Bore)
	i, known := s.desk.Session.Instrument(g.Instrument)
	if !ok || !known || i.ID != "large-2" || i.Turn != kept[0].Turn {
		t.Errorf("bores are read with %q: %+v", g.Instrument, i)
	}
}

func TestANewGaugeIsMadeAtTheBench(t *testing.T) {
	b, s := atGauges(t)
	n := len(s.desk.Session.Gauges())
	b.press("a")
	e := top[*entry](b.station)
	b.press("<f2>")
	if top[*entry](b.station) != e {
		t.Fatal("a gauge without a name is kept")
	}
	b.press("thimble gauge", "<enter>")
	e.form.jump("kind")
	b.press("<right>")
	e.form.jump("graduation")
	b.press("0.0001", "<f2>")
	top[*gaugesScreen](b.station)
	all := s.desk.Session.Gauges()
	if len(all) != n+1 || all[n].Name != "thimble gauge" || all[n].Kind != gauge.Direct {
		t.Fatalf("gauges: %+v", all[n:])
	}
	if kept := shopOf(t, b.book).Instruments; len(kept) != 1 || kept[0] != all[n].Instrument {
		t.Errorf("the shop has %+v", kept)
	}
	b.press("a", "thimble gauge")
	e = top[*entry](b.station)
	e.form.jump("graduation")
	b.press("0.0001", "<f2>")
	if top[*entry](b.station) != e || len(s.desk.Session.Gauges()) != n+1 {
		t.Error("a second gauge of the same name is kept")
	}
}

func TestTheNeedleIsProvedWithAKnownStep(t *testing.T) {
	b, s := atGauges(t)
	b.see("needle not proved: p proves it")
	b.press("p")
	e := top[*entry](b.station)
	e.form.jump("step")
	b.press("0.0010", "<enter>")
	e.form.jump("way")
	b.press("<left>", "<enter>")
	e.form.jump("marks")
	b.press("5", "<f2>")
	if top[*entry](b.station) != e {
		t.Fatal("five marks prove ten")
	}
	b.see("5 marks are not 0.0010 in")
	e.form.jump("marks")
	b.press("10", "<f2>")
	top[*gaugesScreen](b.station)
	i := b.last(launchUID).Body.(record.Instrument)
	if i.Sense != gauge.ClockwiseSmaller || i.Proved.String() != "0.0010 in" {
		t.Errorf("recorded %+v", i)
	}
	b.see("clockwise smaller, proved by 0.0010 in")
	if h, _ := s.desk.Session.Hand(plan.Bore); h.Instrument.Sense != gauge.ClockwiseSmaller {
		t.Errorf("in the hand: %+v", h.Instrument)
	}
}

func TestAShopThatCannotBeReadIsSaid(t *testing.T) {
	b, _ := atGauges(t)
	b.book.broken = errors.New("the disk is gone")
	b.press("<esc>", "g", "k")
	b.see("the shop cannot be read: the disk is gone")
	b.press("t")
	top[*gaugesScreen](b.station)
	b.send(Outcome{UID: record.ShopUID, Err: errors.New("the disk is full")})
	b.see("not kept in the shop: the disk is full")
}

func TestAGaugePastDueIsSaidWhenItIsChosen(t *testing.T) {
	b, s := atGauges(t)
	i := s.desk.Session.Gauges()[3].Instrument
	i.Due = "2026-03-10"
	if err := s.desk.Record(record.Instrument{Instrument: i}); err != nil {
		t.Fatal(err)
	}
	b.press("<enter>")
	b.see("calibration was due 2026-03-10: bore gauge")
}

// A gauge that is out of use leaves the shop's shelf after asking, once and for
// all that was said of it; the session that has it keeps its copy.
func TestAGaugeOutOfUseLeavesTheShop(t *testing.T) {
	b, s := atGauges(t)
	n := len(s.desk.Session.Gauges())
	b.press("k", "e")
	e := top[*entry](b.station)
	e.form.jump("turn")
	b.press("0.02", "<f2>", "t", "x")
	b.see("Take bore gauge with the long head off the shop's shelf?")
	b.press("<esc>")
	if kept := shopOf(t, b.book).Instruments; len(kept) != 1 {
		t.Fatalf("left alone, the shop has %+v", kept)
	}
	b.press("x", "<enter>")
	b.see("is off the shop's shelf")
	top[*shopScreen](b.station)
	if kept := shopOf(t, b.book).Instruments; len(kept) != 0 || len(s.desk.Session.Gauges()) != n {
		t.Errorf("the shop has %+v, the session %d gauges", kept, len(s.desk.Session.Gauges()))
	}
	b.press("x")
	b.see("the shop has no gauge yet")
	b.press("<esc>", "k")
	if kept := shopOf(t, b.book).Instruments; len(kept) != 1 {
		t.Errorf("kept again, the shop has %+v", kept)
	}
}
