package limit_test

import (
	"errors"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/length"
	. "borewright/engine/limit"
)

func TestEffective(t *testing.T) {
	for _, c := range []struct{ limit, per, travel, want string }{
		// Taper limit 0.0005 per inch of piston travel: TM 10-3930-647-14&P.
		{"0.0005 in", "1 in", "3.5 in", "0.00175 in"},
		{"0.0005 in", "1 in", "4 in", "0.0020 in"},
		// A slope has no unit: 0.0005 per inch over 100 mm is 0.05 mm.
		{"0.0005 in", "1 in", "25.4 mm", "0.0005 in"},
		{"0.013 mm", "25.4 mm", "3.5 in", "0.0455 mm"},
		{"0.05 mm", "100 mm", "70 mm", "0.035 mm"},
		{"-0.0005 in", "1 in", "3.5 in", "-0.00175 in"},
		// A third of it is no finite decimal of an inch.
		{"0.0001 in", "3 in", "1 in", "0.0000333 in"},
	} {
		l := Limits{On: Taper, New: between(t, "", c.limit), Per: w(t, c.per), Travel: w(t, c.travel)}
		got := l.Effective()
		if got.New.High.String() != c.want {
			t.Errorf("%s per %s over %s: %s, want %s", c.limit, c.per, c.travel, got.New.High, c.want)
		}
		if again := got.Effective(); again != got {
			t.Errorf("%s per %s: a plain limit changed to %v", c.limit, c.per, again)
		}
	}
}

func TestEffectiveWithoutTravel(t *testing.T) {
	for _, l := range []Limits{
		{New: between(t, "", "0.0005 in"), Per: w(t, "1 in")},
		{New: between(t, "", "0.0005 in"), Travel: w(t, "4 in")},
		{New: between(t, "", "0.0005 in"), Per: w(t, "1 in"), Travel: w(t, "-4 in")},
		{New: between(t, "", "99 mm"), Per: w(t, "0.000000001 mm"), Travel: w(t, "99999 mm")},
		{New: between(t, "", "99 mm"), Per: w(t, "0.000000001 mm"), Travel: w(t, "0.1 mm")},
	} {
		l.On, l.Of = Taper, "bore"
		if got := l.Judge(at(t, "0.0001 in"), Subject{}); got.Verdict != NoLimits {
			t.Errorf("%v: %v", l, got.Verdict)
		}
		if err := l.Validate(); err == nil {
			t.Errorf("%v is valid", l)
		}
	}
}

// Rounded half to even to one picometre, against rational arithmetic.
func TestEffectiveExactly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Int64Range(-1e14, 1e14).Draw(t, "value")
		by := rapid.Int64Range(1, 1e14).Draw(t, "travel")
		per := rapid.Int64Range(1, 1e14).Draw(t, "per")
		if rapid.Bool().Draw(t, "halves") {
			by, per = 3, 2*rapid.Int64Range(1, 9).Draw(t, "half")
		}
		pm := func(n int64) length.Written {
			return length.Written{Length: length.Length(n), Unit: length.MM, Places: 9}
		}
		l := Limits{On: Taper, New: Range{High: pm(v)}, Per: pm(per), Travel: pm(by)}
		want := evenly(new(big.Int).Mul(big.NewInt(v), big.NewInt(by)), big.NewInt(per))
		got := l.Effective().New.High
		switch {
		case !want.IsInt64():
			if !got.IsZero() {
				t.Fatalf("%d × %d ÷ %d = %d, which does not fit", v, by, per, got.Length)
			}
		case int64(got.Length) != want.Int64() || got.IsZero():
			t.Fatalf("%d × %d ÷ %d = %d, want %d", v, by, per, got.Length, want)
		}
	})
}

// evenly returns num ÷ den rounded half to even.
func evenly(num, den *big.Int) *big.Int {
	q, rem := new(big.Int).DivMod(num, den, new(big.Int))
	c := rem.Lsh(rem, 1).Cmp(den)
	if c > 0 || c == 0 && q.Bit(0) == 1 {
		q.Add(q, big.NewInt(1))
	}
	return q
}

// TM 9-2815-220-24 WP 0135 p. 8: bore 5.7510-5.7530, wear limit 5.7600; each
// oversize adds exactly itself to all three.
func TestOversize(t *testing.T) {
	standard := Limits{On: Size, Of: "bore", New: between(t, "5.7510 in", "5.7530 in"), Wear: between(t, "", "5.7600 in")}
	for _, c := range []struct{ step, low, high, worn string }{
		{"0.010 in", "5.7610 in", "5.7630 in", "5.7700 in"},
		{"0.020 in", "5.7710 in", "5.7730 in", "5.7800 in"},
		{"0.030 in", "5.7810 in", "5.7830 in", "5.7900 in"},
		{"0.040 in", "5.7910 in", "5.7930 in", "5.8000 in"},
		{"0.00025 in", "5.75125 in", "5.75325 in", "5.76025 in"},
		{"-0.010 in", "5.7410 in", "5.7430 in", "5.7500 in"},
		{"0.254 mm", "5.7610 in", "5.7630 in", "5.7700 in"},
	} {
		got := standard.Oversize(w(t, c.step))
		if got.New.Low.String() != c.low || got.New.High.String() != c.high || got.Wear.High.String() != c.worn {
			t.Errorf("%s over: %v", c.step, got)
		}
		if !got.Wear.Low.IsZero() || !got.Target.IsZero() {
			t.Errorf("%s over makes a limit that was not there: %v", c.step, got)
		}
	}
}

// TM 55-1905-219-14-10 p. 5-368: a gauge zeroed in a 4.6270 ring reads -0.0010
// to +0.0005 for the standard bore, and more than +0.0015 means rebore.
func TestDeviation(t *testing.T) {
	ring := w(t, "4.6270 in")
	got := between(t, "4.6260 in", "4.6275 in").Deviation(ring)
	if got.Low.String() != "-0.0010 in" || got.High.String() != "0.0005 in" {
		t.Errorf("standard reads %s to %s", got.Low, got.High)
	}
	got = between(t, "", "4.6285 in").Deviation(ring)
	if !got.Low.IsZero() || got.High.String() != "0.0015 in" {
		t.Errorf("rebore above %s (low %s)", got.High, got.Low)
	}
}

func TestValidate(t *testing.T) {
	good := []Limits{
		{On: Size, Of: "bore", New: between(t, "4.6260 in", "4.6275 in"), Wear: between(t, "", "4.6285 in"), By: Average},
		{On: Size, Of: "main-journal/3", New: between(t, "60 mm", "60 mm"), Target: w(t, "60 mm"), JudgeBy: New},
		{On: Taper, Of: "bore", New: between(t, "-0.0005 in", "-0.0001 in"), Wear: between(t, "-0.0005 in", "0.001 in")},
		{On: Taper, Of: "bore", Wear: between(t, "", "0.0005 in"), Per: w(t, "1 in"), Travel: w(t, "90 mm")},
		{On: Clearance, Of: "main-bearing", New: between(t, "0.0016 in", "")},
		{On: Size, Of: "deck/2", New: between(t, "-0.005 in", "0.000 in"), Target: w(t, "-0.002 in")},
	}
	for _, l := range good {
		if err := l.Validate(); err != nil {
			t.Errorf("%v: %v", l, err)
		}
	}
}

func TestValidateRefuses(t *testing.T) {
	n := between(t, "", "0.002 in")
	for _, c := range []struct {
		l    Limits
		want string
	}{
		{
			Limits{On: "colour", Of: "bore", New: n},
			`limits of "colour" for "bore": nothing of that name is judged`,
		},
		{
			Limits{On: Taper, Of: "bore 3", New: n},
			`limits of "taper" for "bore 3": it is neither a family, such as bore, nor a feature, such as bore/3`,
		},
		{
			Limits{On: Clearance, Of: "piston", New: n},
			`limits of "clearance" for "piston": a clearance is named by its hole, not by its shaft`,
		},
		{
			Limits{On: Taper, Of: "bore", New: n, By: MeanMean},
			`limits of "taper" for "bore": it has no definition "mean - mean"`,
		},
		{
			Limits{On: Taper, Of: "bore", Target: w(t, "0 in")},
			`limits of "taper" for "bore": there is neither a low nor a high limit`,
		},
		// Minimum and maximum swapped, as TM 5-3810-303-24 prints a clearance.
		{
			Limits{On: Clearance, Of: "bore", New: between(t, "0.0083 in", "0.0045 in")},
			`limits of "clearance" for "bore": the low new limit 0.0083 in is above the high one, 0.0045 in`,
		},
		{
			Limits{On: OutOfRound, Of: "bore", Wear: between(t, "0.001 in", "")},
			`limits of "out-of-round" for "bore": the low wear limit 0.001 in has no meaning: less is better`,
		},
		{
			Limits{On: Taper, Of: "bore", New: between(t, "", "-0.001 in")},
			`limits of "taper" for "bore": the high new limit -0.001 in is below zero`,
		},
		{
			Limits{On: Size, Of: "bore", New: between(t, "0 in", "4 in")},
			`limits of "size" for "bore": the new limit 0 in is not above zero`,
		},
		{
			Limits{On: Size, Of: "bore/2", Wear: between(t, "", "-4 in")},
			`limits of "size" for "bore/2": the wear limit -4 in is not above zero`,
		},
		{
			Limits{On: Size, Of: "bore", New: between(t, "", "4 in"), Target: w(t, "0 in")},
			`limits of "size" for "bore": the target 0 in is not above zero`,
		},
		// A limit below the new maximum, as TM 9-2815-220-24 prints one.
		{
			Limits{On: Clearance, Of: "bore", New: between(t, "0.01 in", "0.066 in"), Wear: between(t, "", "0.03 in")},
			`limits of "clearance" for "bore": the high wear limit 0.03 in is below the high new limit 0.066 in`,
		},
		{
			Limits{On: Size, Of: "piston", New: between(t, "4.2428 in", ""), Wear: between(t, "4.2430 in", "")},
			`limits of "size" for "piston": the low wear limit 4.2430 in is above the low new limit 4.2428 in`,
		},
		{
			Limits{On: Size, Of: "bore", New: between(t, "4 in", "4.001 in"), Target: w(t, "101 mm")},
			`limits of "size" for "bore": the target 101 mm is outside the new limits`,
		},
		{
			Limits{On: Taper, Of: "bore", New: n, Per: w(t, "1 in")},
			`limits of "taper" for "bore": the limit is per 1 in, but no travel is stated`,
		},
		{
			Limits{On: Taper, Of: "bore", New: n, Travel: w(t, "4 in")},
			`limits of "taper" for "bore": there is a travel of 4 in, but no length that the limit is per`,
		},
		{
			Limits{On: Taper, Of: "bore", New: n, Per: w(t, "0 in"), Travel: w(t, "4 in")},
			`limits of "taper" for "bore": the limit is per 0 in, which is not above zero`,
		},
		{
			Limits{On: Taper, Of: "bore", New: n, Per: w(t, "1 in"), Travel: w(t, "-4 in")},
			`limits of "taper" for "bore": the travel -4 in is not above zero`,
		},
		{
			Limits{On: Size, Of: "bore", New: between(t, "", "4 in"), Per: w(t, "1 in"), Travel: w(t, "4 in")},
			`limits of "size" for "bore": a size has no limit per 1 in of travel`,
		},
		{
			Limits{On: Taper, Of: "bore", New: between(t, "", "99 mm"), Per: w(t, "0.000000001 mm"), Travel: w(t, "99999 mm")},
			`limits of "taper" for "bore": 99 mm per 0.000000001 mm over 99999 mm is longer than any length here`,
		},
		{
			Limits{On: Taper, Of: "bore", New: n, JudgeBy: "old"},
			`limits of "taper" for "bore": it is judged by new or by wear, not by "old"`,
		},
		{
			Limits{On: Taper, Of: "bore", New: n, JudgeBy: Wear},
			`limits of "taper" for "bore": it is judged by wear, but has no wear limit`,
		},
	} {
		err := c.l.Validate()
		var invalid *InvalidError
		if !errors.As(err, &invalid) || err.Error() != c.want {
			t.Errorf("got  %v\nwant %s", err, c.want)
		}
	}
}
