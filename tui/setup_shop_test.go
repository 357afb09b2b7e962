package tui

import (
	"testing"

	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// inShop keeps gauges in the shop of a bench.
func inShop(t *testing.T, b *setupBench, is ...gauge.Instrument) {
	t.Helper()
	for _, i := range is {
		if _, err := b.book.Keep(record.ShopUID, b.st.event(record.Instrument{Instrument: i})); err != nil {
			t.Fatal(err)
		}
	}
	b.mail()
}

// longHead is a bore gauge that the shop has.
func longHead() gauge.Instrument {
	mark := length.Written{Length: length.Inch / 10_000, Unit: length.In, Places: 4}
	return gauge.Instrument{
		ID: "long", Name: "bore gauge with the long head", Kind: gauge.Comparator, Contacts: 2, Unit: length.In, Graduation: mark,
		S: length.Written{Length: 1000 * length.Micrometre / 1000, Unit: length.MM, Places: 3}, DF: 9, Due: "2026-03-10",
	}
}

// A gauge that the shop has is taken at setup with a digit, from the keypad.
func TestASessionIsSetUpWithAGaugeOfTheShop(t *testing.T) {
	b := newSetupBench(t)
	other := longHead()
	other.ID, other.Name, other.Kind = "mike", "2 to 3 in micrometer", gauge.Direct
	inShop(t, b, other, longHead())
	b.press("n", "1", "3.75", "<enter>")
	b.focused("bore.shop")
	b.see("bores, gauge")
	b.see("0 bore gauge for bores")
	b.press("2")
	b.see("2 bore gauge with the long head")
	b.see("its calibration was due 2026-03-10")
	b.press("<enter>")
	b.focused("main-bearing.nominal")
	b.press("<f2>")
	m := top[*measure](b.station)
	h, err := m.desk.Session.Hand(plan.Bore)
	if err != nil || h.Instrument.Name != "bore gauge with the long head" || h.Instrument.DF != 9 || h.Setting.Size.String() != "3.75 in" {
		t.Errorf("in the hand: %+v, %v", h, err)
	}
}

func TestAnEmptyShopAsksNothingAtSetup(t *testing.T) {
	b := newSetupBench(t)
	b.press("n", "1", "3.75", "<enter>")
	b.focused("main-bearing.nominal")
	b.unseen("bores, gauge")
}

// The usual gauge comes back with 0.
func TestTheUsualGaugeComesBack(t *testing.T) {
	b := newSetupBench(t)
	inShop(t, b, longHead())
	b.press("n", "1", "3.75", "<enter>", "1", "0")
	b.see("0 bore gauge for bores")
}

// The shop's gauge of the very name that is proposed is the one proposed: it
// comes with what was learned of it, and nothing is lost by leaving.
func TestTheShopsOwnGaugeIsProposed(t *testing.T) {
	b := newSetupBench(t)
	usual := longHead()
	usual.Name, usual.Due = "bore gauge for bores", ""
	inShop(t, b, usual)
	b.press("n", "1")
	b.see("1 bore gauge for bores")
	if g := b.form().draft.Of(plan.Bore).Gauge; g.DF != 9 {
		t.Errorf("proposed is %+v", g)
	}
	b.press("<esc>")
	top[*presets](b.station)
}
