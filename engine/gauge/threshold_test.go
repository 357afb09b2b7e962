package gauge_test

import (
	"strings"
	"testing"

	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/plan"
)

// Every threshold from both sides: the last reading that is taken and the first
// that is not.
func TestThresholds(t *testing.T) {
	beside := func(c gauge.Context, readings ...string) gauge.Context {
		c.Neighbours = sizes(t, c.Instrument.Unit.String(), readings...)
		return c
	}
	like := func(c gauge.Context, readings ...string) gauge.Context {
		c.Like = sizes(t, c.Instrument.Unit.String(), readings...)
		return c
	}
	ladder := func(c gauge.Context, size string) gauge.Context {
		c.Ladder = []length.Length{*at(t, size)}
		return c
	}
	limits := func(c gauge.Context, low, high string) gauge.Context {
		c.Low, c.High = at(t, low), at(t, high)
		return c
	}
	reach := func(c gauge.Context, low, high string) gauge.Context {
		c.Instrument.Low, c.Instrument.High = written(t, low), written(t, high)
		return c
	}
	shaft := limits(inch(t), "3.7400 in", "3.7410 in")
	shaft.Shape, shaft.Nominal = plan.Shaft, written(t, "3.7410 in")
	for _, tt := range []struct {
		name      string
		c         gauge.Context
		taken     string
		held      string
		slip      gauge.Slip
		heldAgain string
	}{
		{"beside a reading, inch", beside(inch(t), "3.7503"), "3.7563", "3.7564", gauge.FarOff, "3.7442"},
		{"beside a reading, mm", beside(metric(t), "67.018"), "67.168", "67.169", gauge.FarOff, "66.867"},
		{"beside the nearer of two", beside(inch(t), "3.7503", "3.7623"), "3.7563", "3.7685", gauge.FarOff, "3.7442"},
		{"beside the sisters", like(inch(t), "3.7503"), "3.7563", "3.7564", gauge.FarOff, "3.7442"},
		{"of the nominal, inch", inch(t), "3.7600", "3.7601", gauge.FarOff, "3.7399"},
		{"of the nominal, mm", metric(t), "67.250", "67.251", gauge.FarOff, "66.749"},
		{"of the new maximum", limits(metric(t), "67.000 mm", "67.019 mm"), "67.269", "67.270", gauge.FarOff, ""},
		{"hole at its new minimum", limits(inch(t), "3.7500 in", "3.7510 in"), "3.7500", "3.7499", gauge.WrongSide, "3.7481"},
		{"shaft at its new maximum", shaft, "3.7410", "3.7411", gauge.WrongSide, "3.7429"},
		{"shaft far below", shaft, "3.7300", "3.7299", gauge.FarOff, "3.7298"},
		{"apart from a reading, a swap close to it", beside(inch(t), "3.7500"), "3.7520", "3.7530", gauge.Swapped, ""},
		{"apart by a tenth more", beside(inch(t), "3.7499"), "3.7519", "3.7520", gauge.Swapped, ""},
		{"a swap close enough, mm", beside(metric(t), "67.010"), "67.062", "67.081", gauge.Swapped, ""},
		{"the instrument's reach", reach(inch(t), "3.7490 in", "3.7510 in"), "3.7510", "3.7511", gauge.OutOfRange, "3.7489"},
		{"half a graduation", inch(t), "3.75005", "3.75004", gauge.TooFine, "3.750001"},
		{"a size on the ladder, mm", ladder(metric(t), "67.750 mm"), "001", "000", gauge.Ambiguous, ""},
		{"a size on the ladder, inch", ladder(inch(t), "3.8400 in"), "501", "500", gauge.Ambiguous, ""},
	} {
		if r := gauge.Read(tt.taken, tt.c); r.Kind != gauge.Taken {
			t.Errorf("%s: %s is %v: %s", tt.name, tt.taken, r.Kind, r.Reason)
		}
		for _, keyed := range []string{tt.held, tt.heldAgain} {
			if r := gauge.Read(keyed, tt.c); keyed != "" && (r.Kind != gauge.Held || r.Slip != tt.slip) {
				t.Errorf("%s: %s is %v for %q, want held for %q", tt.name, keyed, r.Kind, r.Slip, tt.slip)
			}
		}
	}
}

// A swap that lands beside no reading is not named, and the reading is taken as
// long as it is not far off.
func TestASwapIsNamedOnlyBesideAReading(t *testing.T) {
	c := inch(t)
	c.Neighbours = sizes(t, "in", "3.7498")
	if r := gauge.Read("3.7520", c); r.Kind != gauge.Taken {
		t.Errorf("3.7502 in lies 0.0004 in from it: %+v", r)
	}
	c.Neighbours = nil
	if r := gauge.Read("3.7520", c); r.Kind != gauge.Taken {
		t.Errorf("the nominal is no reading: %+v", r)
	}
}

func TestHowManyLastDigitsAreNeeded(t *testing.T) {
	for _, tt := range []struct {
		graduation string
		unit       length.Unit
		few, least string
		says       string
	}{
		{"0.0001 in", length.In, "03", "503", "key 3 or more"},
		{"0.00005 in", length.In, "030", "5030", "key 4 or more"},
		{"0.001 in", length.In, "3", "53", "key 2 or more"},
		{"0.01 in", length.In, "5", "75", "key 2 or more"},
		{"0.001 mm", length.MM, "18", "018", "key 3 or more"},
		{"0.002 mm", length.MM, "18", "018", "key 3 or more"},
		{"0.0005 mm", length.MM, "185", "0185", "key 4 or more"},
		{"0.01 mm", length.MM, "2", "02", "key 2 or more"},
	} {
		c := inch(t)
		if tt.unit == length.MM {
			c = metric(t)
		}
		c.Instrument.Graduation = written(t, tt.graduation)
		if r := gauge.Read(tt.few, c); r.Kind != gauge.Refused || !strings.Contains(r.Reason, tt.says) {
			t.Errorf("%s: %q is %v: %s", tt.graduation, tt.few, r.Kind, r.Reason)
		}
		if r := gauge.Read(tt.least, c); r.Kind != gauge.Taken || !strings.HasSuffix(r.Meaning.Size.Number(), tt.least[1:]) {
			t.Errorf("%s: %q is %v %s: %s", tt.graduation, tt.least, r.Kind, r.Meaning.Size, r.Reason)
		}
	}
}

// Where two things are odd at once, the first that has a cause is told.
func TestTheOrderOfReasons(t *testing.T) {
	c := inch(t)
	c.Neighbours = sizes(t, "in", "3.7503")
	c.Low, c.High = at(t, "3.7500 in"), at(t, "3.7510 in")
	c.Instrument.Low, c.Instrument.High = written(t, "3.70 in"), written(t, "3.80 in")
	for _, tt := range []struct {
		name, keyed string
		cable       bool
		slip        gauge.Slip
	}{
		{"another unit sent, and far off", "99.000 mm", true, gauge.WrongUnit},
		{"a turn out before the wrong side", "3.7253", false, gauge.OneTurn},
		{"swapped before the wrong side", "3.5703", false, gauge.Swapped},
		{"shifted before out of range", "37.503", false, gauge.Shifted},
		{"the wrong side before out of range", "3.6912", false, gauge.WrongSide},
		{"out of range before too fine", "3.81112", false, gauge.OutOfRange},
		{"too fine before far off", "3.76112", false, gauge.TooFine},
		{"far off alone", "3.7911", false, gauge.FarOff},
	} {
		c.Cable, c.Instrument.Sends = tt.cable, gauge.SendsSize
		if r := gauge.Read(tt.keyed, c); r.Kind != gauge.Held || r.Slip != tt.slip {
			t.Errorf("%s: %q is held for %q (%s), want %q", tt.name, tt.keyed, r.Slip, r.Reason, tt.slip)
		}
	}
}

// Of several causes the one that lies nearest to what is expected is told.
func TestTheNearestCauseIsNamed(t *testing.T) {
	c := metric(t)
	c.Instrument.Graduation = written(t, "0.01 mm")
	c.Neighbours = sizes(t, "mm", "139.27")
	if r := gauge.Read("139.72", c); r.Slip != gauge.Swapped || r.Likely != "139.27 mm" {
		t.Errorf("a turn out would be 139.22 mm, two digits swapped are 139.27 mm: %+v", r)
	}
	c.Neighbours = sizes(t, "mm", "139.22")
	if r := gauge.Read("139.72", c); r.Slip != gauge.OneTurn || r.Likely != "139.22 mm" {
		t.Errorf("now a turn out is nearer: %+v", r)
	}
}
