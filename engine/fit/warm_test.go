package fit_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	. "borewright/engine/fit"
	"borewright/engine/length"
)

// NPL (UK), FAQ on correcting lengths to 20 °C (2010): steel of 11.7e-6, 500.035
// mm at 23.7 °C is 500.013 mm at 20 °C.
func TestCooledAndWarmed(t *testing.T) {
	l := length.Of(500_035 * length.Micrometre)
	if got := Cooled(l, 11.7, 3.7).Format(length.MM, 3); got != "500.013" {
		t.Errorf("cold it is %s", got)
	}
	if got := Warmed(Cooled(l, 11.7, 3.7), 11.7, 3.7).Sub(l).Abs(); got.CmpLength(1) > 0 {
		t.Errorf("there and back differs by %v", got)
	}
	odd := length.Exact{Sum: 7, Count: 3}
	if Warmed(odd, 0, 50) != odd || Cooled(odd, 11, 0) != odd {
		t.Error("no rise changes the length")
	}
	if Warmed(length.Exact{}, 11, 5).Measured() {
		t.Error("what is not measured is measured warm")
	}
}

// Aluminium 23.1e-6, steel 11.5e-6 (Swyt, J. Res. NIST 99 (1994) 31), grey iron
// 11.4e-6 (Callister, Table B.6); worked by hand: a 54 mm housing of aluminium at
// 100 °C opens by 54·23.1·80e-6 = 0.0998 mm, the journal in it grows 0.0497.
func TestRunningClearance(t *testing.T) {
	mm := func(text string) length.Exact {
		w, err := length.Parse(text, length.MM)
		if err != nil {
			t.Fatal(err)
		}
		return w.Exact()
	}
	housing := Running(mm("54.040"), mm("54.000"), Body{Alpha: 23.1, At: 100}, Body{Alpha: 11.5, At: 100})
	if got := housing.Format(length.MM, 4); got != "0.0902" {
		t.Errorf("in an aluminium housing it runs with %s", got)
	}
	piston := Running(mm("82.010"), mm("81.950"), Body{Alpha: 11.4, At: 120}, Body{Alpha: 20, At: 200})
	if got := piston.Format(length.MM, 4); got != "-0.1415" {
		t.Errorf("an aluminium piston runs with %s", got)
	}
	if cold := Running(mm("54.040"), mm("54.000"), Body{23.1, 20}, Body{11.5, 20}); cold.Format(length.MM, 4) != "0.0400" {
		t.Errorf("at 20 °C it is %v", cold)
	}
}

func TestIndicator(t *testing.T) {
	shown := levels(t, []string{"0", "+0.003", "-0.002", "+0.003", ""})[0]
	total := Total(shown...)
	if in(total) != "0.0050" || in(Bend(total)) != "0.0025" {
		t.Errorf("total %s, bend %s", in(total), in(Bend(total)))
	}
	if Total(shown[:1]...).Measured() || Total(shown[4:]...).Measured() || Bend(length.Exact{}).Measured() {
		t.Error("a turn of one reading, or of none, has a total")
	}
}

// A bore and stroke of 100 mm sweep 785.398 cm³; 60 cm³ in the chamber, 5 in the
// dish, 1 mm of gasket and 0.5 mm of deck of 100 mm leave 76.781: 11.229 to 1, by
// hand.
func TestCompressionRatio(t *testing.T) {
	mm := func(tenths int64) length.Exact { return length.Of(length.Length(tenths) * 100 * length.Micrometre) }
	c := Cylinder{Bore: mm(1000), Stroke: mm(1000), Deck: mm(5), Gasket: mm(10), GasketBore: mm(1000), Chamber: 60, Dish: 5}
	if ratio, ok := c.Ratio(); !ok || math.Abs(ratio-11.22906) > 1e-4 {
		t.Errorf("%g to 1, %v, of %+v", ratio, ok, c.Volumes())
	}
	proud := c
	proud.Deck = mm(-5)
	if ratio, ok := proud.Ratio(); !ok || math.Abs(ratio-12.39464) > 1e-4 {
		t.Errorf("with the piston proud %g to 1", ratio)
	}
	for name, change := range map[string]func(*Cylinder){
		"no bore": func(c *Cylinder) { c.Bore = length.Exact{} }, "no gasket": func(c *Cylinder) { c.Gasket = length.Exact{} },
		"no deck": func(c *Cylinder) { c.Deck = length.Exact{} }, "nothing left": func(c *Cylinder) { c.Dish = -100 },
	} {
		x := c
		change(&x)
		if _, ok := x.Ratio(); ok {
			t.Error(name + ": there is a ratio")
		}
	}
}

func TestARatioGrowsWithTheStroke(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := func(name string, low, high int64) length.Exact {
			return length.Of(length.Length(rapid.Int64Range(low, high).Draw(t, name)) * length.Micrometre)
		}
		c := Cylinder{
			Bore: l("bore", 50_000, 120_000), Stroke: l("stroke", 40_000, 120_000), Deck: l("deck", 0, 1000),
			Gasket: l("gasket", 500, 2000), GasketBore: l("gasket bore", 50_000, 122_000), Chamber: rapid.Float64Range(10, 90).Draw(t, "chamber"),
		}
		short, ok := c.Ratio()
		c.Stroke = c.Stroke.Add(length.Of(length.Millimetre))
		long, _ := c.Ratio()
		if !ok || short <= 1 || long <= short {
			t.Fatalf("%g, with a longer stroke %g", short, long)
		}
	})
}

func TestFasteners(t *testing.T) {
	if got := in(Stretch(at(t, "1.6000"), at(t, "1.6055"))); got != "0.0055" {
		t.Errorf("stretch %s", got)
	}
	low, high := 50*PoundFoot, 55*PoundFoot
	for torque, want := range map[Torque]bool{low: true, high: true, low - 1: false, high + 1: false, 70 * NewtonMetre: true, 600 * PoundInch: true} {
		if torque.Within(low, high) != want {
			t.Errorf("%d µN m within 50 to 55 lb ft: %v", torque, !want)
		}
	}
	if !Torque(1).Within(0, 0) || Torque(1).Within(2, 0) {
		t.Error("a limit of zero is one")
	}
}
