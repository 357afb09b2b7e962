package length_test

import (
	"math"
	"math/big"
	"strings"
	"testing"

	. "borewright/engine/length"

	"pgregory.net/rapid"
)

func TestFormat(t *testing.T) {
	table := []struct {
		e      Exact
		u      Unit
		places int
		want   string
	}{
		{Of(95_257_620_000), In, 4, "3.7503"},
		{Of(95_257_620_000), MM, 3, "95.258"},
		{Of(95_257_620_000), MM, 5, "95.25762"},
		{Of(-12_700_000), In, 4, "-0.0005"},
		{Of(-1), In, 4, "0.0000"},
		{Of(-1), MM, 9, "-0.000000001"},
		{Of(0), MM, 0, "0"},
		{Of(500 * Micrometre), MM, 0, "0"},
		{Of(1500 * Micrometre), MM, 0, "2"},
		{Of(2500 * Micrometre), MM, 0, "2"},
		{Of(2500*Micrometre + 1), MM, 0, "3"},
		{Of(-2500 * Micrometre), MM, 0, "-2"},
		{Mean(1, 2), MM, 12, "0.000000001500"},
		{Mean(0, 0, 1), UM, 8, "0.00000033"},
		{Of(12_700), UIn, 1, "0.5"},
		{Of(12_700), UIn, 0, "0"},
		{Of(Millimetre), MM, -3, "1"},
		{Of(Millimetre), MM, 99, "1.000000000000000000"},
		{Of(math.MaxInt64), MM, 9, "9223372036.854775807"},
		{Of(math.MinInt64), MM, 18, "-9223372036.854775808000000000"},
		{Of(math.MaxInt64), UIn, 18, "363124883340739.205000000000000000"},
		{Exact{Sum: math.MaxInt64, Count: math.MaxInt64}, MM, 9, "0.000000001"},
		{Exact{}, MM, 3, ""},
		{Of(1), NoUnit, 3, ""},
		{Of(1), Unit(9), 3, ""},
	}
	for _, c := range table {
		if got := c.e.Format(c.u, c.places); got != c.want {
			t.Errorf("%+v in %v with %d decimals is %q, want %q", c.e, c.u, c.places, got, c.want)
		}
	}
}

func TestFormatSigned(t *testing.T) {
	for l, want := range map[Length]string{
		7_620_000: "+0.0003", -7_620_000: "-0.0003", 0: "0.0000", 100: "0.0000", -100: "0.0000",
	} {
		if got := Of(l).FormatSigned(In, 4); got != want {
			t.Errorf("%d pm is %q, want %q", l, got, want)
		}
	}
	if got := (Exact{}).FormatSigned(In, 4); got != "" {
		t.Errorf("not measured is %q", got)
	}
}

func TestFormatAgreesWithFractions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e, u := exacts.Draw(t, "e"), unitGen.Draw(t, "unit")
		places := rapid.IntRange(0, 18).Draw(t, "places")
		if got, want := e.Format(u, places), formatted(e, u, places); got != want {
			t.Fatalf("%+v in %v with %d decimals is %q, want %q", e, u, places, got, want)
		}
		if got := strings.TrimPrefix(e.FormatSigned(u, places), "+"); got != e.Format(u, places) {
			t.Fatalf("signed it is %q", got)
		}
	})
}

// Ties are rare among random lengths: these are nothing but ties.
func TestFormatTiesGoToEven(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u, places := unitGen.Draw(t, "unit"), rapid.IntRange(0, 3).Draw(t, "places")
		k := rapid.Int64Range(-1e5, 1e5).Draw(t, "k")
		step := new(big.Rat).Quo(new(big.Rat).SetInt64(int64(u.Size())), power(places))
		e := kept(step.Mul(step, big.NewRat(2*k+1, 2)))
		got := e.Format(u, places)
		if got != formatted(e, u, places) || strings.ContainsAny(got[len(got)-1:], "13579") {
			t.Fatalf("the tie %+v in %v with %d decimals is %q", e, u, places, got)
		}
	})
}

func TestFormatBeside(t *testing.T) {
	high, low := Bound{At: 210 * Millimetre, High: true}, Bound{At: 210 * Millimetre}
	inchHigh := Bound{At: 3_7500 * Inch / 10_000, High: true}
	metric := Of(95 * Millimetre)
	table := []struct {
		name   string
		e      Exact
		u      Unit
		places int
		bounds []Bound
		want   string
	}{
		{"no bounds", Of(210_100 * Micrometre), MM, 0, nil, "210"},
		{"a reject stays one", Of(210_100 * Micrometre), MM, 0, []Bound{high}, "210.1"},
		{"far outside", Of(211 * Millimetre), MM, 0, []Bound{high}, "211"},
		{"an accept stays one", Of(209_900 * Micrometre), MM, 0, []Bound{low, high}, "209.9"},
		{"exactly on it", Of(210 * Millimetre), MM, 0, []Bound{low, high}, "210"},
		{"just below a low bound", Of(210*Millimetre - 1), MM, 3, []Bound{low}, "209.999999999"},
		{"just inside a low bound", Of(210*Millimetre + 1), MM, 3, []Bound{low}, "210.000"},
		{"a third of a picometre over", Mean(210*Millimetre, 210*Millimetre, 210*Millimetre+1), MM, 3, []Bound{high}, "210.0000000003"},
		{"a millionth of one over", Exact{Sum: 210*Millimetre*1_000_000 + 1, Count: 1_000_000}, MM, 3, []Bound{high}, "210.000000000001"},
		{"a millionth of one under", Exact{Sum: 210*Millimetre*1_000_000 - 1, Count: 1_000_000}, MM, 3, []Bound{low}, "209.999999999999"},
		{"below zero", Exact{Sum: -1, Count: 1_000_000}, MM, 3, []Bound{{}}, "-0.000000000001"},
		{"half a tenth over", Of(inchHigh.At + 1_270_000), In, 4, []Bound{inchHigh}, "3.75005"},
		{"a metric limit in inches", metric, In, 4, []Bound{{At: metric.Sum, High: true}}, "3.740157"},
		{"no finite decimal is on both", metric, In, 4, []Bound{{At: metric.Sum}, {At: metric.Sum, High: true}}, "3.740157480315"},
		{"more decimals than twelve asked", Of(Millimetre), MM, 15, []Bound{high}, "1.000000000000000"},
		{"not measured", Exact{}, MM, 3, []Bound{high}, ""},
		{"no unit", Of(1), NoUnit, 3, []Bound{high}, ""},
	}
	for _, c := range table {
		if got := c.e.FormatBeside(c.u, c.places, c.bounds...); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// CHECKS U6: IS 2:1960 Amd 1 (1997) cl. 3.4, maximum 210, measured 210.1.
func TestShownRejectStaysAboveTheMaximum(t *testing.T) {
	for places := range 4 {
		shown := Of(210_100*Micrometre).FormatBeside(MM, places, Bound{At: 210 * Millimetre, High: true})
		w, err := Parse(shown, MM)
		if err != nil || w.Length <= 210*Millimetre {
			t.Errorf("with %d decimals 210.1 is shown as %q, %v", places, shown, err)
		}
	}
}

// besides draws a length with bounds close to it.
var besides = rapid.Custom(func(t *rapid.T) (c struct {
	e      Exact
	bounds []Bound
},
) {
	c.e = Exact{
		Sum:   Length(rapid.Int64Range(-1e11, 1e11).Draw(t, "sum")),
		Count: rapid.SampledFrom([]int64{1, 2, 3, 7, 1 << 10, 1 << 20}).Draw(t, "count"),
	}
	near := rapid.SampledFrom([]int64{1, 1e3, 1e6, 1e8}).Draw(t, "near")
	offset := rapid.Int64Range(-near, near)
	c.bounds = rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Bound {
		return Bound{At: c.e.Round() + Length(offset.Draw(t, "off")), High: rapid.Bool().Draw(t, "high")}
	}), 1, 3).Draw(t, "bounds")
	return c
})

// outside reports whether r, in picometres, is outside b.
func outside(b Bound, r *big.Rat) bool {
	c := r.Cmp(new(big.Rat).SetInt64(int64(b.At)))
	return b.High && c > 0 || !b.High && c < 0
}

// sameSides reports whether the number shown in u is on e's side of all bounds.
func sameSides(t *rapid.T, e Exact, u Unit, shown string, bounds []Bound) bool {
	r, ok := new(big.Rat).SetString(shown)
	if !ok {
		t.Fatalf("%q is no number", shown)
	}
	r.Mul(r, new(big.Rat).SetInt64(int64(u.Size())))
	for _, b := range bounds {
		if outside(b, r) != outside(b, rat(e)) {
			return false
		}
	}
	return true
}

// pinched reports whether e is on a high and a low bound at once.
func pinched(e Exact, bounds []Bound) bool {
	var on [2]bool
	for _, b := range bounds {
		if e.CmpLength(b.At) == 0 && b.High {
			on[1] = true
		} else if e.CmpLength(b.At) == 0 {
			on[0] = true
		}
	}
	return on[0] && on[1]
}

func TestFormatBesideNeverChangesSide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, u := besides.Draw(t, "case"), unitGen.Draw(t, "unit")
		if pinched(c.e, c.bounds) {
			t.Skip("no finite decimal may be there")
		}
		places := rapid.IntRange(0, 6).Draw(t, "places")
		shown := c.e.FormatBeside(u, places, c.bounds...)
		if !sameSides(t, c.e, u, shown, c.bounds) {
			t.Fatalf("%+v in %v is shown as %q beside %+v", c.e, u, shown, c.bounds)
		}
		got := decimals(shown)
		if got < places || got > 12 {
			t.Fatalf("%q has %d decimals", shown, got)
		}
		for fewer := places; fewer < got; fewer++ {
			if sameSides(t, c.e, u, c.e.Format(u, fewer), c.bounds) {
				t.Fatalf("%q has more decimals than the %d it needs", shown, fewer)
			}
		}
	})
}

// What is shown hundreds of times a frame makes one string and nothing else.
func TestFormatAllocatesOnlyItsString(t *testing.T) {
	e, b := Mean(95_257_620_000, 95_257_620_001, 95_257_620_000), Bound{At: 95_257_620_000, High: true}
	for name, f := range map[string]func(){
		"Format":       func() { sink = e.Format(In, 4) },
		"FormatSigned": func() { sink = e.FormatSigned(MM, 3) },
		"FormatBeside": func() { sink = e.FormatBeside(In, 4, b) },
	} {
		if n := testing.AllocsPerRun(100, f); n > 1 {
			t.Errorf("%s allocates %v times", name, n)
		}
	}
}

var sink string

func BenchmarkFormat(b *testing.B) {
	e := Mean(95_257_620_000, 95_257_620_001, 95_257_620_000)
	for b.Loop() {
		sink = e.Format(In, 4)
	}
}
