package gauge_test

import (
	"strings"
	"testing"

	"borewright/engine/gauge"
	"borewright/engine/length"
)

func TestComparatorReadsGraduationsFromZero(t *testing.T) {
	for _, tt := range []struct{ keyed, dev, at string }{
		{"3", "0.0003 in", "3.7503 in"},
		{"+3", "0.0003 in", "3.7503 in"},
		{"2+", "0.0002 in", "3.7502 in"},
		{"2-", "-0.0002 in", "3.7498 in"},
		{"-1.5", "-0.00015 in", "3.74985 in"},
		{"−1,5", "-0.00015 in", "3.74985 in"},
		{".5", "0.00005 in", "3.75005 in"},
		{"0", "0.0000 in", "3.7500 in"},
		{" 12 ", "0.0012 in", "3.7512 in"},
	} {
		r := gauge.Read(tt.keyed, dial(t))
		if r.Kind != gauge.Taken || r.Meaning.Dev.String() != tt.dev || !r.Meaning.Size.IsZero() {
			t.Errorf("Read(%q) = %v %+v, want taken as %s", tt.keyed, r.Kind, r, tt.dev)
		}
		if want := written(t, tt.at).Length; r.Meaning.At != want {
			t.Errorf("Read(%q) comes to %d, want %s", tt.keyed, r.Meaning.At, tt.at)
		}
	}
}

func TestComparatorWithoutAMasterMeansADeviation(t *testing.T) {
	c := dial(t)
	c.HasZero = false
	r := gauge.Read("-4", c)
	if r.Kind != gauge.Taken || r.Meaning.At != written(t, "-0.0004 in").Length {
		t.Errorf("got %+v", r)
	}
	c.Neighbours = sizes(t, "in", "0.0010")
	if r := gauge.Read("900", c); r.Slip != gauge.FarOff {
		t.Errorf("held for %v, want far off: %+v", r.Slip, r)
	}
}

func TestDirectReadsASizeInFull(t *testing.T) {
	c := inch(t)
	c.FullSeen = false
	for keyed, want := range map[string]string{
		"3.7503": "3.7503 in", "3,7503": "3.7503 in", "03.7503": "3.7503 in", "3.75030": "3.75030 in",
	} {
		r := gauge.Read(keyed, c)
		if r.Kind != gauge.Taken || r.Meaning.Size.String() != want || !r.Meaning.Dev.IsZero() {
			t.Errorf("Read(%q) = %+v, want %s", keyed, r, want)
		}
	}
}

func TestDirectCompletesLastDigits(t *testing.T) {
	halfTenth := metric(t)
	halfTenth.Instrument.Graduation = written(t, "0.0005 mm")
	coarse := metric(t)
	coarse.Instrument.Graduation = written(t, "0.01 mm")
	for _, tt := range []struct {
		name, keyed string
		c           gauge.Context
		want        string
	}{
		{"three", "503", inch(t), "3.7503 in"},
		{"below the nominal", "499", inch(t), "3.7499 in"},
		{"four", "7503", inch(t), "3.7503 in"},
		{"all", "37503", inch(t), "3.7503 in"},
		{"millimetres", "018", metric(t), "67.018 mm"},
		{"below a whole millimetre", "992", metric(t), "66.992 mm"},
		{"half a thousandth", "0185", halfTenth, "67.0185 mm"},
		{"hundredths need two", "02", coarse, "67.02 mm"},
	} {
		r := gauge.Read(tt.keyed, tt.c)
		if r.Kind != gauge.Taken || r.Meaning.Size.String() != tt.want {
			t.Errorf("%s: Read(%q) = %v %s (%s), want %s", tt.name, tt.keyed, r.Kind, r.Meaning.Size, r.Reason, tt.want)
		}
	}
}

func TestLastDigitsThatEndTwoSizesAreHeld(t *testing.T) {
	ladder := metric(t)
	ladder.Ladder = []length.Length{*at(t, "67.500 mm"), *at(t, "68.000 mm")}
	tie := inch(t)
	for _, tt := range []struct {
		name, keyed string
		c           gauge.Context
		likely      string
		keep        bool
	}{
		{"tie", "000", tie, "3.7000 in or 3.8000 in", false},
		{"on the ladder", "018", ladder, "67.018 mm or 68.018 mm", true},
	} {
		r := gauge.Read(tt.keyed, tt.c)
		if r.Kind != gauge.Held || r.Slip != gauge.Ambiguous || r.Likely != tt.likely || r.CanKeep() != tt.keep {
			t.Errorf("%s: %+v, want held with %s", tt.name, r, tt.likely)
		}
	}
	if r := gauge.Read("7018", ladder); r.Kind != gauge.Taken {
		t.Errorf("four digits end one size: %+v", r)
	}
	ladder.Ladder = []length.Length{*at(t, "67.750 mm")}
	if r := gauge.Read("118", ladder); r.Kind != gauge.Taken || r.Meaning.At != *at(t, "67.118 mm") {
		t.Errorf("68.118 mm is out of reach of the only size on the ladder: %+v", r)
	}
}

func TestRefused(t *testing.T) {
	first, noNominal, indicator := inch(t), inch(t), inch(t)
	first.FullSeen = false
	noNominal.Nominal = length.Written{}
	indicator.Instrument.Kind = gauge.Indicator
	noGraduation := dial(t)
	noGraduation.Instrument.Graduation = length.Written{}
	noUnit := inch(t)
	noUnit.Instrument.Unit = length.NoUnit
	for _, tt := range []struct {
		name, keyed string
		c           gauge.Context
		says        string
	}{
		{"empty", "", dial(t), "no number"},
		{"lone point", ".", dial(t), "point alone"},
		{"lone comma", ",", inch(t), "point alone"},
		{"lone sign", "-", dial(t), "no number"},
		{"sign and point", "-.", dial(t), "point alone"},
		{"two points", "3.75.03", inch(t), "one decimal point"},
		{"two signs", "+3-", dial(t), "one sign"},
		{"sign inside", "3-4", dial(t), "not a decimal number"},
		{"letters", "12OM", dial(t), "not a decimal number"},
		{"a unit from the keypad", "3.7503 in", inch(t), "not a decimal number"},
		{"exponent", "1e3", inch(t), "not a decimal number"},
		{"not a number", "NaN", inch(t), "not a decimal number"},
		{"too long", strings.Repeat("0", 25), inch(t), "too long"},
		{"too many digits", "3.7503000000000001", inch(t), "15 digits"},
		{"signed size", "-3.7503", inch(t), "no sign"},
		{"plus on a size", "+3.7503", inch(t), "no sign"},
		{"zero size", "0.0", inch(t), "more than zero"},
		{"first without point", "503", first, "first size of a set"},
		{"no nominal", "503", noNominal, "no nominal"},
		{"too few digits", "03", inch(t), "key 3 or more"},
		{"too many last digits", "000037503", inch(t), "point left out"},
		{"indicator without point", "5", indicator, "in full"},
		{"beyond any length", "99999.0", inch(t), "100 m"},
		{"graduations beyond any length", "999999999999", dial(t), "100 m"},
		{"beyond any length with the master", "39370000", dial(t), "100 m"},
		{"less than nothing", "-40000", dial(t), "leaves nothing"},
		{"no graduation", "3", noGraduation, "no graduation"},
		{"no unit", "3.5", noUnit, "no unit"},
		{"no unit for digits", "503", noUnit, "no unit"},
	} {
		r := gauge.Read(tt.keyed, tt.c)
		if r.Kind != gauge.Refused || !strings.Contains(r.Reason, tt.says) || !r.Meaning.IsZero() {
			t.Errorf("%s: Read(%q) = %v %+v, want refused with %q", tt.name, tt.keyed, r.Kind, r, tt.says)
		}
		if strings.ContainsAny(r.Reason, "\n") || len(r.Reason) > 160 {
			t.Errorf("%s: the reason is no short sentence: %q", tt.name, r.Reason)
		}
	}
}

func TestSignedAndIndicatorFigures(t *testing.T) {
	deck := inch(t)
	deck.Signed, deck.Nominal, deck.Shape = true, length.Written{}, 0
	play := deck
	play.Instrument.Kind, play.Signed = gauge.Indicator, false
	for _, tt := range []struct {
		keyed, want string
		c           gauge.Context
	}{
		{"-0.0020", "-0.0020 in", deck},
		{"0.002-", "-0.002 in", deck},
		{"+0.0020", "0.0020 in", deck},
		{"0", "0 in", deck},
		{"0.004", "0.004 in", play},
		{"0", "0 in", play},
		{"0.0", "0.0 in", play},
	} {
		if r := gauge.Read(tt.keyed, tt.c); r.Kind != gauge.Taken || r.Meaning.Size.String() != tt.want {
			t.Errorf("Read(%q) = %+v, want %s", tt.keyed, r, tt.want)
		}
	}
}

func TestCableMeansWhatTheInstrumentSends(t *testing.T) {
	for _, tt := range []struct {
		name, sends, keyed string
		c                  gauge.Context
		size, dev          string
		kind               gauge.Kind
		slip               gauge.Slip
	}{
		{"size", gauge.SendsSize, "+003.7503", dial(t), "3.7503 in", "", gauge.Taken, 0},
		{"size with unit", gauge.SendsSize, "3.7503 in", inch(t), "3.7503 in", "", gauge.Taken, 0},
		{"size in another unit", gauge.SendsSize, "95.255 mm", inch(t), "95.255 mm", "", gauge.Held, gauge.WrongUnit},
		{"deviation", gauge.SendsDeviation, "-0.0003", dial(t), "", "-0.0003 in", gauge.Taken, 0},
		{"deviation of a direct gauge", gauge.SendsDeviation, "0.0003", inch(t), "", "0.0003 in", gauge.Taken, 0},
		{"graduations", gauge.SendsGraduations, "3", inch(t), "", "0.0003 in", gauge.Taken, 0},
		{"nothing said: as keyed", "", "3", dial(t), "", "0.0003 in", gauge.Taken, 0},
		{"finer than by eye", gauge.SendsSize, "3.750312", inch(t), "3.750312 in", "", gauge.Taken, 0},
		{"minus on a size", gauge.SendsSize, "-3.7503", inch(t), "", "", gauge.Refused, 0},
		{"graduations with a unit", gauge.SendsGraduations, "3 in", dial(t), "", "", gauge.Refused, 0},
		{"unknown unit", gauge.SendsSize, "3.7503 furlong", inch(t), "", "", gauge.Refused, 0},
		{"a word", gauge.SendsSize, "ERR", inch(t), "", "", gauge.Refused, 0},
	} {
		tt.c.Cable, tt.c.Instrument.Sends = true, tt.sends
		if tt.size != "" {
			tt.c.Neighbours = sizes(t, "in", "3.7502")
		}
		r := gauge.Read(tt.keyed, tt.c)
		if r.Kind != tt.kind || r.Meaning.Size.String() != tt.size || r.Meaning.Dev.String() != tt.dev || r.Slip != tt.slip {
			t.Errorf("%s: Read(%q) = %v %+v", tt.name, tt.keyed, r.Kind, r)
		}
	}
}

func TestFull(t *testing.T) {
	for keyed, want := range map[string]bool{"3.7503": true, "67,018": true, "503": false, "": false} {
		if gauge.Full(keyed) != want {
			t.Errorf("Full(%q) is not %v", keyed, want)
		}
	}
}
