package gauge_test

import (
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/plan"
)

// bench draws a direct instrument in a hole, with one reading beside, and a
// true size within two hundredths of a millimetre of it.
func bench(t *rapid.T) (c gauge.Context, size length.Written) {
	one, u, places := length.Micrometre, length.MM, 3
	if rapid.Bool().Draw(t, "inch") {
		one, u, places = length.Inch/10_000, length.In, 4
	}
	beside := length.Length(rapid.Int64Range(30_000, 99_000).Draw(t, "beside")) * one
	true0 := beside + length.Length(rapid.Int64Range(-8, 8).Draw(t, "from it"))*one
	c = gauge.Context{
		Instrument: gauge.Instrument{
			Kind: gauge.Direct, Unit: u,
			Graduation: length.Written{Length: one, Unit: u, Places: places},
		},
		Nominal: length.Written{Length: beside, Unit: u, Places: places},
		Shape:   plan.Hole, FullSeen: true,
		Neighbours: []length.Exact{length.Of(beside)},
	}
	return c, length.Written{Length: true0, Unit: u, Places: places}
}

func TestATrueSizeIsTaken(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, size := bench(t)
		if r := gauge.Read(size.Number(), c); r.Kind != gauge.Taken || r.Meaning.Size != size {
			t.Fatalf("%s is %v: %s", size, r.Kind, r.Reason)
		}
	})
}

func TestATurnOutIsHeld(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, size := bench(t)
		keyed := size
		if rapid.Bool().Draw(t, "over") {
			keyed.Length += c.Instrument.Revolution()
		} else {
			keyed.Length -= c.Instrument.Revolution()
		}
		r := gauge.Read(keyed.Number(), c)
		if r.Kind != gauge.Held || r.Slip == gauge.OneTurn && r.Likely != size.String() {
			t.Fatalf("%s for %s is %v, likely %q", keyed, size, r.Kind, r.Likely)
		}
	})
}

func TestAnotherUnitIsHeld(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, size := bench(t)
		u, places := length.MM, 3
		if c.Instrument.Unit == length.MM {
			u, places = length.In, 4
		}
		keyed := length.Of(size.Length).Format(u, places)
		r := gauge.Read(keyed, c)
		if r.Kind != gauge.Held || r.Slip != gauge.WrongUnit && r.Slip != gauge.Swapped && r.Slip != gauge.Shifted {
			t.Fatalf("%s %s for %s is %v for %q", keyed, u, size, r.Kind, r.Slip)
		}
	})
}

func TestAShiftedPointIsHeld(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, size := bench(t)
		by := rapid.IntRange(1, 2).Draw(t, "by")
		keyed := size
		keyed.Places -= by
		for range by {
			keyed.Length *= 10
		}
		r := gauge.Read(keyed.Number(), c)
		// 300.01 for 30.001 may as well be 30.010 with two digits swapped.
		named := r.Slip == gauge.Shifted && r.Likely == size.String() || r.Slip == gauge.Swapped
		if r.Kind != gauge.Held || !named {
			t.Fatalf("%s for %s is %v for %q, likely %q", keyed, size, r.Kind, r.Slip, r.Likely)
		}
	})
}

// The digits before the point swapped are always far off, and so held.
func TestSwappedLeadingDigitsAreHeld(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, size := bench(t)
		keyed := []byte(size.Number())
		i := 0
		if c.Instrument.Unit == length.In {
			i = 2 // the tenths and hundredths of an inch
		}
		if keyed[i] == keyed[i+1] {
			return
		}
		keyed[i], keyed[i+1] = keyed[i+1], keyed[i]
		r := gauge.Read(string(keyed), c)
		if r.Kind != gauge.Held || r.Slip == gauge.FarOff {
			t.Fatalf("%s for %s is %v for %q", keyed, size, r.Kind, r.Slip)
		}
	})
}

// What was probably meant is a size that would not be held for being far off or
// a turn out itself, and never what was keyed.
func TestWhatIsLikelyIsLikelier(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, size := bench(t)
		c.Low = &size.Length
		off := length.Length(rapid.Int64Range(-1000, 1000).Draw(t, "off"))
		keyed := size
		keyed.Length += off * c.Instrument.Graduation.Length
		r := gauge.Read(keyed.Number(), c)
		if r.Kind != gauge.Held || r.Likely == "" || r.Slip == gauge.WrongUnit {
			return
		}
		likely, err := length.Parse(r.Likely, length.NoUnit)
		if err != nil || likely.Length == keyed.Length {
			t.Fatalf("%s is likely %q", keyed, r.Likely)
		}
		again := gauge.Read(likely.Number(), c)
		if again.Kind == gauge.Held && again.Slip != gauge.Swapped {
			t.Fatalf("%s is likely %s, which is held for %q", keyed, r.Likely, again.Slip)
		}
	})
}

// A comparator on a master and a direct instrument agree about one size.
func TestComparatorAndDirectAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, _ := bench(t)
		c.Low = &c.Nominal.Length
		dial := c
		dial.Instrument.Kind, dial.Instrument.Turn = gauge.Comparator, length.Written{Length: c.Instrument.Revolution(), Unit: c.Instrument.Unit}
		dial.Zero, dial.HasZero = c.Nominal.Length, true
		off := rapid.Int64Range(-500, 500).Draw(t, "graduations")
		size := c.Nominal
		size.Length += length.Length(off) * c.Instrument.Graduation.Length
		a, b := gauge.Read(size.Number(), c), gauge.Read(length.Decimal{Coef: off}.String(), dial)
		if a.Meaning.At != b.Meaning.At {
			t.Fatalf("%s and %+d graduations come to %d and %d", size, off, a.Meaning.At, b.Meaning.At)
		}
		// Digits differ, and so may what they are taken for; where they lie does not.
		if plain(a.Slip) && plain(b.Slip) && a.Slip != b.Slip {
			t.Fatalf("%s is held for %q, %+d graduations for %q", size, a.Slip, off, b.Slip)
		}
	})
}

// plain reports whether a slip does not depend on the digits keyed.
func plain(s gauge.Slip) bool { return s != gauge.Swapped && s != gauge.Shifted }
