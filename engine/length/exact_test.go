package length_test

import (
	"math"
	"math/big"
	"testing"

	. "borewright/engine/length"

	"pgregory.net/rapid"
)

func TestExactZeroValueIsNotMeasured(t *testing.T) {
	var none Exact
	one := Of(1)
	for name, e := range map[string]Exact{
		"none": none, "none + 1": none.Add(one), "1 + none": one.Add(none), "1 - none": one.Sub(none),
		"none - 1": none.Sub(one), "-none": none.Neg(), "|none|": none.Abs(), "none/2": none.Half(),
		"none × 3": none.Times(3), "none + bad count": Exact{Sum: 5, Count: -2}.Add(one), "|bad count|": Exact{Sum: 5, Count: -2}.Abs(),
	} {
		if e != none || e.Measured() {
			t.Errorf("%s is %+v", name, e)
		}
	}
	if none.Sign() != 0 || none.Round() != 0 || !math.IsNaN(none.Float()) || !math.IsNaN(none.Metres()) {
		t.Errorf("not measured has sign %d, rounds to %d, floats to %v", none.Sign(), none.Round(), none.Float())
	}
	if none.Cmp(none) != 0 || none.Cmp(Of(math.MinInt64)) != -1 || Of(math.MinInt64).Cmp(none) != 1 || none.CmpLength(0) != -1 {
		t.Error("not measured does not come first")
	}
	if !Of(0).Measured() || Of(0) == none {
		t.Error("a length of zero is not measured")
	}
}

func TestExactArithmetic(t *testing.T) {
	third := Mean(1, 0, 0)
	table := []struct {
		name string
		got  Exact
		want Exact
	}{
		{"1/3 + 1/3", third.Add(third), Exact{2, 3}},
		{"1/3 + 2/3", third.Add(Exact{2, 3}), Of(1)},
		{"1/3 - 1/3", third.Sub(third), Of(0)},
		{"1/3 - 1/2", third.Sub(Of(1).Half()), Exact{-1, 6}},
		{"3 × 1/3", third.Times(3), Of(1)},
		{"-3 × 1/3", third.Times(-3), Of(-1)},
		{"0 × 1/3", third.Times(0), Of(0)},
		{"|-1/3|", third.Neg().Abs(), third},
		{"half of 4", Of(4).Half(), Of(2)},
		{"half of 5", Of(5).Half(), Exact{5, 2}},
		{"2/4 + 0", Exact{2, 4}.Add(Of(0)), Exact{1, 2}},
		{"a count too large rounds", Exact{3, 1 << 20}.Half(), Of(0)},
		{"a half rounds to even", Exact{1<<62 + 1, 2}.Times(3), Of(3<<61 + 2)},
		{"a count given in other than lowest terms", Exact{3 << 20, 1 << 21}.Half(), Exact{3, 4}},
		{"a sum too long rounds", Exact{math.MaxInt64, 3}.Add(Of(math.MaxInt64 / 2)), Of(7686143364045646505)},
		{"smallest - smallest", Of(math.MinInt64).Sub(Of(math.MinInt64)), Of(0)},
		{"beyond the range", Of(math.MaxInt64).Add(Of(1)), Exact{}},
		{"beyond the range below", Of(math.MinInt64).Sub(Of(1)), Exact{}},
		{"- smallest", Of(math.MinInt64).Neg(), Exact{}},
	}
	for _, c := range table {
		if c.got != c.want {
			t.Errorf("%s = %+v, want %+v", c.name, c.got, c.want)
		}
	}
}

func TestExactAgreesWithFractions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := exacts.Draw(t, "a"), exacts.Draw(t, "b")
		n := rapid.Int64Range(-1000, 1000).Draw(t, "n")
		ra, rb := rat(a), rat(b)
		table := []struct {
			name string
			got  Exact
			want *big.Rat
		}{
			{"a+b", a.Add(b), new(big.Rat).Add(ra, rb)},
			{"a-b", a.Sub(b), new(big.Rat).Sub(ra, rb)},
			{"-a", a.Neg(), new(big.Rat).Neg(ra)},
			{"|a|", a.Abs(), new(big.Rat).Abs(ra)},
			{"a/2", a.Half(), new(big.Rat).Quo(ra, big.NewRat(2, 1))},
			{"na", a.Times(n), new(big.Rat).Mul(ra, big.NewRat(n, 1))},
		}
		for _, c := range table {
			if want := kept(c.want); c.got != want {
				t.Fatalf("%s = %+v, want %+v", c.name, c.got, want)
			}
		}
		if a.Cmp(b) != ra.Cmp(rb) || a.Sign() != ra.Sign() {
			t.Fatalf("compared %d, sign %d; want %d, %d", a.Cmp(b), a.Sign(), ra.Cmp(rb), ra.Sign())
		}
		if got, want := a.Round(), halfEven(ra).Int64(); int64(got) != want {
			t.Fatalf("rounded to %d, want %d", got, want)
		}
	})
}

func TestExactRoundsHalfToEven(t *testing.T) {
	for sum, want := range map[Length]Length{1: 0, 2: 1, 3: 2, 5: 2, 7: 4, -1: 0, -3: -2, -5: -2} {
		if got := (Exact{sum, 2}).Round(); got != want {
			t.Errorf("%d/2 rounds to %d, want %d", sum, got, want)
		}
	}
}

func TestExactFloat(t *testing.T) {
	if got := Mean(1, 2).Float(); got != 1.5 {
		t.Errorf("3/2 pm = %v", got)
	}
	if got := Of(95_250_000_000).Metres(); got != 0.09525 {
		t.Errorf("95.25 mm = %v m", got)
	}
	rapid.Check(t, func(t *rapid.T) {
		e := exacts.Draw(t, "e")
		want, _ := rat(e).Float64()
		if got := e.Float(); math.Abs(got-want) > 1e-15*math.Abs(want) {
			t.Fatalf("%+v is %v, want %v", e, got, want)
		}
	})
}

// A part exactly on its limit compares equal, whatever it was the mean of.
func TestMeanOnTheLimitComparesEqual(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := Length(rapid.Int64Range(-1e14, 1e14).Draw(t, "limit"))
		ls := []Length{at}
		for _, d := range rapid.SliceOfN(rapid.Int64Range(0, 1e9), 0, 6).Draw(t, "deviations") {
			ls = append(ls, at+Length(d), at-Length(d))
		}
		e := Mean(ls...)
		if e.CmpLength(at) != 0 || e != Of(at) {
			t.Fatalf("the mean %+v is not on %d pm", e, at)
		}
		if e.CmpLength(at+1) != -1 || e.CmpLength(at-1) != 1 {
			t.Fatalf("the mean %+v does not lie between its neighbours", e)
		}
	})
}
