package tui

import (
	"testing"

	"borewright/engine"
	"borewright/engine/gauge"
	"borewright/engine/record"
)

// The condition of the part is said with the keypad alone: digits, signs and
// Enter.
func TestTheConditionIsSaidFromTheKeypad(t *testing.T) {
	b, _ := atGauges(t)
	b.press("o")
	b.see("1 deck plate with gasket; 2 deck plate without gasket")
	b.press("2")
	b.see("deck plate without gasket")
	b.press("<enter>", "1", "<enter>")
	b.see("caps on, shells in")
	b.press("30+60")
	b.see("30+60 lb ft")
	b.press("<enter>", "1", "<enter>", "4", "<enter>", "2", "<f2>")
	set := b.last(launchUID).Body.(record.Set).Set
	want := gauge.Set{
		ID: set.ID, Setting: set.Setting, At: set.At, Plate: "deck plate without gasket", Caps: "caps on, shells in",
		Torque: "30+60 lb ft", Fastener: "studs, new", Lube: "none, dry", Oiled: "oiled",
	}
	if set != want {
		t.Errorf("recorded %+v", set)
	}

	// What was said is offered, 0 takes it away, and words are still typed.
	b.press("o", "0", "<enter>")
	e := top[*entry](b.station)
	e.form.jump("lube")
	b.press("2.5 % moly", "<f2>")
	set = b.last(launchUID).Body.(record.Set).Set
	if set.Plate != "" || set.Lube != "2.5 % moly" || set.Torque != "30+60 lb ft" {
		t.Errorf("recorded %+v", set)
	}
	b.press("o")
	top[*entry](b.station).form.jump("lube")
	b.see("4 none, dry; 5 2.5 %")
}

// What stands in a field is typed on as before, by any key but a digit.
func TestWordsAreTypedOn(t *testing.T) {
	b, _ := atGauges(t)
	b.press("o", ", 2.0 in", "<enter>")
	if got := top[*entry](b.station).form.rows[1].fields[0].get(); got != "deck plate with gasket, 2.0 in" {
		t.Errorf("the plate is %q", got)
	}
}

// A torque given without its unit has the one chosen put behind it.
func TestATorqueIsGivenFromTheKeypad(t *testing.T) {
	s, m := atLaunch(t)
	s.keys("v", "o", "6")
	e := top[*entry](s)
	shows(t, s, "torques are keyed in")
	e.form.jump("torque.unit")
	s.keys("1")
	for at, r := range e.form.rows {
		if r.label == "torque, least, most" {
			e.form.enter(at, 0)
		}
	}
	s.keys("50", "<enter>", "60", "<enter>", "<f2>")
	d := m.desk
	if least, most := d.Session.GivenValue(engine.GivenLeastTorque, "main-bearing"), d.Session.GivenValue(engine.GivenMostTorque, "main-bearing"); least != "50 lb ft" || most != "60 lb ft" {
		t.Errorf("given %q to %q: %s", least, most, s.r.View())
	}
}
