package engine_test

import (
	"slices"
	"testing"

	"borewright/engine"
	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/record"
)

// shopGauge is a comparator of an id and a name.
func shopGauge(t *testing.T, id, name string) gauge.Instrument {
	t.Helper()
	return gauge.Instrument{ID: id, Name: name, Kind: gauge.Comparator, Unit: length.In, Graduation: inch(t, "0.0001")}
}

func shopOf(t *testing.T, bodies ...record.Body) engine.Shop {
	t.Helper()
	return engine.ReadShop(seal(t, append([]record.Body{record.Note{Text: "what is not known is left alone"}}, bodies...)))
}

func TestTheShopHoldsEachInstrumentOnce(t *testing.T) {
	worn := shopGauge(t, "a", "bore gauge")
	worn.Due = "2026-11-25"
	s := shopOf(t,
		record.Instrument{Instrument: shopGauge(t, "a", "bore gauge")}, record.Instrument{Instrument: shopGauge(t, "b", "sold")},
		record.Instrument{Instrument: worn}, record.Withdrawn{Event: 3})
	if len(s.Instruments) != 1 || s.Instruments[0] != worn {
		t.Errorf("the shop has %+v", s.Instruments)
	}
}

// Two instruments of one id and two names are two, in the shop and in a session;
// two of one name are one.
func TestInstrumentsAreToldByName(t *testing.T) {
	shop := shopOf(t, record.Instrument{Instrument: shopGauge(t, "a", "bore gauge")}, record.Instrument{Instrument: shopGauge(t, "a-2", "other")})
	for _, c := range []struct{ id, name, was, want string }{
		{"x", "bore gauge", "bore gauge", "a"},
		{"x", "renamed", "bore gauge", "a"},
		{"a", "third", "third", "a-3"},
		{"x", "third", "third", "x"},
	} {
		if got := shop.Keeping(shopGauge(t, c.id, c.name), c.was); got.ID != c.want || got.Name != c.name {
			t.Errorf("%s, once %s, is kept as %s %s, want %s", c.name, c.was, got.ID, got.Name, c.want)
		}
	}
	s := replay(t, gauged(t)) // has a, b and m, called gauge a, gauge b and gauge m
	for _, c := range []struct{ id, name, want string }{{"z", "gauge a", "a"}, {"a", "bore gauge", "a-2"}, {"z", "bore gauge", "z"}} {
		if got := s.Copying(shopGauge(t, c.id, c.name)); got.ID != c.want {
			t.Errorf("%s is copied as %s, want %s", c.name, got.ID, c.want)
		}
	}
}

// What a session learned of an instrument goes with it, once.
func TestRepeatabilityIsLearned(t *testing.T) {
	bodies := gauged(t)
	for n, dev := range []string{"0.0003", "0.0004", "0.0003"} {
		r := deviation(t, "bore/1", "ta", dev)
		if n > 0 {
			r.As = record.Repeat
		}
		bodies = append(bodies, r)
	}
	s := replay(t, bodies)
	i, _ := s.Instrument("a")
	learned := s.Learned(i)
	e := s.Repeatability("a")
	if learned.DF != 2 || learned.S.Length != e.Length() || learned.Validate() != nil {
		t.Errorf("learned %s with %d, want %v", learned.S, learned.DF, e)
	}
	next := replay(t, append(slices.Clone(gauged(t)), record.Instrument{Instrument: learned}))
	if got := next.Repeatability("a"); got.DF != 2 || got.Length() != e.Length() {
		t.Errorf("the next session begins with %+v, want %+v", got, e)
	}
	if again := next.Learned(learned); again != learned {
		t.Errorf("without a repeat it learned %+v", again)
	}
}

// What is out of use is gone, whatever was said of it before, and comes back
// when it is kept again.
func TestAnInstrumentOutOfUseIsGone(t *testing.T) {
	worn, sold := shopGauge(t, "a", "bore gauge"), shopGauge(t, "b", "sold")
	worn.Due = "2026-11-25"
	bodies := []record.Body{record.Instrument{Instrument: shopGauge(t, "a", "bore gauge")}, record.Instrument{Instrument: sold}, record.Instrument{Instrument: worn}}
	shop := shopOf(t, bodies...)
	bodies = append(bodies, shop.OutOfUse(worn)...)
	for _, got := range []engine.Shop{shop.Without(worn), shopOf(t, bodies...)} {
		if len(got.Instruments) != 1 || got.Instruments[0] != sold || len(got.OutOfUse(worn)) != 0 {
			t.Errorf("the shop has %+v", got.Instruments)
		}
	}
	again := shopOf(t, append(bodies, record.Instrument{Instrument: worn})...)
	if len(again.Instruments) != 2 || len(again.OutOfUse(worn)) != 1 {
		t.Errorf("kept again, the shop has %+v", again.Instruments)
	}
}
