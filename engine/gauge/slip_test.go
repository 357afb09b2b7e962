package gauge_test

import (
	"strings"
	"testing"

	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/plan"
)

func TestSlipsAreHeld(t *testing.T) {
	beside := func(c gauge.Context, readings ...string) gauge.Context {
		c.Neighbours = sizes(t, c.Instrument.Unit.String(), readings...)
		return c
	}
	sisters := inch(t)
	sisters.Like = sizes(t, "in", "3.7503", "3.7506")
	hole := beside(inch(t), "3.7506")
	hole.Low = at(t, "3.7500 in")
	shaft := beside(inch(t), "3.7406")
	shaft.Shape, shaft.High, shaft.Nominal = plan.Shaft, at(t, "3.7410 in"), written(t, "3.7400 in")
	ranged := beside(inch(t), "3.7990")
	ranged.Instrument.Low, ranged.Instrument.High = written(t, "2.8 in"), written(t, "3.8 in")
	noTurn := beside(dial(t), "3.7503")
	noTurn.Instrument.Turn = length.Written{}
	for _, tt := range []struct {
		name, keyed string
		c           gauge.Context
		slip        gauge.Slip
		likely      string
	}{
		{"thimble a turn over", "3.7753", beside(inch(t), "3.7503", "3.7506"), gauge.OneTurn, "3.7503 in"},
		{"thimble a turn under", "3.7256", beside(inch(t), "3.7503"), gauge.OneTurn, "3.7506 in"},
		{"thimble a turn out at the first", "3.7754", inch(t), gauge.OneTurn, "3.7504 in"},
		{"thimble a turn out, millimetres", "67.518", metric(t), gauge.OneTurn, "67.018 mm"},
		{"thimble a turn out, last digits", "753", beside(inch(t), "3.7503"), gauge.OneTurn, "3.7503 in"},
		{"dial a revolution over", "+203", beside(dial(t), "3.7502"), gauge.OneTurn, "3.7503 in"},
		{"dial a revolution under", "-198", dial(t), gauge.OneTurn, "3.7502 in"},
		{"swapped far apart", "3.5703", beside(inch(t), "3.7504"), gauge.Swapped, "3.7503 in"},
		{"swapped across the point", "7.3503", inch(t), gauge.Swapped, "3.7503 in"},
		{"swapped near", "3.7530", beside(inch(t), "3.7503", "3.7504"), gauge.Swapped, "3.7503 in"},
		{"swapped near, by the sisters", "3.7530", sisters, gauge.Swapped, "3.7503 in"},
		{"swapped near, last digits", "530", beside(inch(t), "3.7503"), gauge.Swapped, "3.7503 in"},
		{"swapped near, millimetres", "67.081", beside(metric(t), "67.018"), gauge.Swapped, "67.018 mm"},
		{"swapped on the dial", "91", beside(dial(t), "3.7518"), gauge.Swapped, "3.7519 in"},
		{"millimetres keyed as inches", "95.258", beside(inch(t), "3.7503"), gauge.WrongUnit, "95.258 mm, which is 3.7503 in"},
		{"inches keyed as millimetres", "2.6385", metric(t), gauge.WrongUnit, "2.6385 in, which is 67.018 mm"},
		{"point to the right", "37.503", beside(inch(t), "3.7503"), gauge.Shifted, "3.7503 in"},
		{"point to the left", "0.37503", inch(t), gauge.Shifted, "3.7503 in"},
		{"point two places on", "375.03", inch(t), gauge.Shifted, "3.7503 in"},
		{"point three places on", "3750.3", inch(t), gauge.Shifted, "3.7503 in"},
		{"point left out on the dial", "85", beside(noTurn, "3.7509"), gauge.Shifted, "3.75085 in"},
		{"hole smaller than new", "3.7498", hole, gauge.WrongSide, ""},
		{"shaft larger than new", "3.7411", shaft, gauge.WrongSide, ""},
		{"hole smaller than new, a turn out", "3.7254", hole, gauge.OneTurn, "3.7504 in"},
		{"beyond the instrument", "3.8010", ranged, gauge.OutOfRange, ""},
		{"finer than the dial", "1.3", dial(t), gauge.TooFine, ""},
		{"a size keyed on a dial", "3.7503", dial(t), gauge.TooFine, "3.7503 in, the size and not the graduations"},
		{"finer than the thimble", "3.75032", inch(t), gauge.TooFine, ""},
		{"far from its neighbours", "3.7612", beside(inch(t), "3.7503"), gauge.FarOff, ""},
		{"far from its sisters", "3.7612", sisters, gauge.FarOff, ""},
		{"far from new", "3.7612", inch(t), gauge.FarOff, ""},
	} {
		r := gauge.Read(tt.keyed, tt.c)
		if r.Kind != gauge.Held || r.Slip != tt.slip || r.Likely != tt.likely {
			t.Errorf("%s: Read(%q) = %v %q, likely %q (%s); want %q, likely %q", tt.name, tt.keyed, r.Kind, r.Slip, r.Likely, r.Reason, tt.slip, tt.likely)
		}
		if !r.CanKeep() || r.Reason == "" || strings.Contains(r.Reason, "\n") {
			t.Errorf("%s: no meaning to keep, or no reason: %+v", tt.name, r)
		}
	}
}

func TestReasonsNameTheValueAndTheDistance(t *testing.T) {
	c := inch(t)
	c.Neighbours = sizes(t, "in", "3.7503")
	r := gauge.Read("3.7753", c)
	want := "3.7753 in lies 0.0250 in from the nearest reading beside it: one turn of the thimble (0.0250 in) out?"
	if r.Reason != want {
		t.Errorf("got  %s\nwant %s", r.Reason, want)
	}
}

// The first reading of all is held against the nominal: which that is, is said.
func TestAHoldAgainstTheNominalSaysIt(t *testing.T) {
	r := gauge.Read("3.8612", inch(t))
	if want := "3.8612 in lies 0.1112 in from the size it has when new (3.7500 in)"; r.Reason != want {
		t.Errorf("got  %s\nwant %s", r.Reason, want)
	}
}

func TestWhatIsNotASlipIsTaken(t *testing.T) {
	worn := inch(t)
	worn.Low, worn.High = at(t, "3.7500 in"), at(t, "3.7510 in")
	for _, tt := range []struct {
		name, keyed string
		c           gauge.Context
	}{
		{"exactly the new minimum", "3.7500", worn},
		{"the new maximum of a hole passed", "3.7511", worn},
		{"worn by 0.0090 (wear limits of this order are printed)", "3.7590", worn},
		{"half a graduation", "3.75035", worn},
		{"nothing to go by", "9.9999", gauge.Context{Instrument: inch(t).Instrument}},
	} {
		if r := gauge.Read(tt.keyed, tt.c); r.Kind != gauge.Taken {
			t.Errorf("%s: Read(%q) = %v: %s", tt.name, tt.keyed, r.Kind, r.Reason)
		}
	}
}

// The readings of one worn bore, keyed in every order there is, are all taken:
// readings ours, under the rule of TM 9-6115-670-14&P, whose limit of 0.15 mm
// on the overall spread they keep.
func TestAWornBoreIsTakenInEveryOrder(t *testing.T) {
	bore := []string{"67.118", "67.075", "67.060", "67.048", "67.021", "67.015"}
	byDigits := metric(t)
	byDigits.Low, byDigits.High = at(t, "67.000 mm"), at(t, "67.019 mm")
	byDial := byDigits
	byDial.Instrument.Kind, byDial.Instrument.Turn = gauge.Comparator, written(t, "0.2 mm")
	byDial.Zero, byDial.HasZero = *at(t, "67.000 mm"), true
	for _, tt := range []struct {
		name string
		c    gauge.Context
		key  func(string) string
	}{
		{"in full", byDigits, func(s string) string { return s }},
		{"last digits", byDigits, func(s string) string { return s[3:] }},
		{"graduations", byDial, func(s string) string { return s[3:] }},
	} {
		count := 0
		permute(bore, func(order []string) {
			count++
			c := tt.c
			for _, size := range order {
				if r := gauge.Read(tt.key(size), c); r.Kind != gauge.Taken || r.Meaning.At != written(t, size+" mm").Length {
					t.Fatalf("%s, order %v: %s is %v: %s", tt.name, order, size, r.Kind, r.Reason)
				}
				c.Neighbours = append([]length.Exact{written(t, size+" mm").Exact()}, c.Neighbours...)
			}
		})
		if count != 720 {
			t.Fatalf("%d orders, want 720", count)
		}
	}
}

// permute calls f with every order of the texts.
func permute(texts []string, f func([]string)) {
	var walk func(done, left []string)
	walk = func(done, left []string) {
		if len(left) == 0 {
			f(done)
			return
		}
		for i := range left {
			rest := append(append([]string{}, left[:i]...), left[i+1:]...)
			walk(append(append([]string{}, done...), left[i]), rest)
		}
	}
	walk(nil, texts)
}
