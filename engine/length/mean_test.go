package length_test

import (
	"math"
	"math/big"
	"testing"

	. "borewright/engine/length"

	"pgregory.net/rapid"
)

func TestMean(t *testing.T) {
	table := []struct {
		ls   []Length
		want Exact
	}{
		{nil, Exact{}},
		{[]Length{7}, Of(7)},
		{[]Length{2, 2, 2}, Of(2)},
		{[]Length{1, 2}, Exact{3, 2}},
		{[]Length{-1, 0, 0}, Exact{-1, 3}},
		{[]Length{math.MaxInt64, math.MaxInt64, math.MaxInt64}, Of(math.MaxInt64)},
		{[]Length{math.MinInt64, math.MinInt64}, Of(math.MinInt64)},
		{[]Length{math.MaxInt64, math.MaxInt64 - 1}, Of(math.MaxInt64 - 1)},
	}
	for _, c := range table {
		if got := Mean(c.ls...); got != c.want {
			t.Errorf("the mean of %v is %+v, want %+v", c.ls, got, c.want)
		}
	}
}

// NIST StRD, NumAcc1: the mean of 10000001, 10000003 and 10000002 is 10000002.
func TestMeanOfNearlyEqual(t *testing.T) {
	if got := Mean(10000001, 10000003, 10000002); got != Of(10000002) {
		t.Errorf("the mean is %+v", got)
	}
}

func TestMeanOfCountsEachOnce(t *testing.T) {
	thrice := Mean(9, 9, 10)
	if got, want := MeanOf(thrice, Of(8)), (Exact{26, 3}); got != want {
		t.Errorf("the mean of 28/3 and 8 is %+v, want %+v", got, want)
	}
	if got := MeanOf(Exact{}, Of(8), Exact{}); got != Of(8) {
		t.Errorf("what is not measured counted: %+v", got)
	}
	if got := MeanOf(); got.Measured() {
		t.Errorf("the mean of nothing is %+v", got)
	}
	if got := MeanOf(Exact{}, Exact{Sum: 4, Count: -1}); got.Measured() {
		t.Errorf("the mean of what is not measured is %+v", got)
	}
}

func TestMeanOfAgreesWithFractions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		es := rapid.SliceOfN(exacts, 1, 6).Draw(t, "lengths")
		sum := new(big.Rat)
		for _, e := range es {
			sum.Add(sum, rat(e))
		}
		want := kept(sum.Quo(sum, big.NewRat(int64(len(es)), 1)))
		if got := MeanOf(append(es, Exact{})...); got != want {
			t.Fatalf("the mean is %+v, want %+v", got, want)
		}
	})
}

func TestMeanOfVeryLargeCounts(t *testing.T) {
	big1, big2 := Exact{Sum: math.MaxInt64, Count: 1<<62 + 1}, Exact{Sum: 5, Count: 1<<61 - 1}
	if got, want := MeanOf(Exact{3 << 21, 2 << 21}, Of(1)), (Exact{5, 4}); got != want {
		t.Errorf("the mean of 3/2 and 1 is %+v, want %+v", got, want)
	}
	if got := MeanOf(big1, big2, Of(4)); got != Of(2) {
		t.Errorf("the mean is %+v, want 2 pm", got)
	}
}

func TestMinAndMax(t *testing.T) {
	low, high := Mean(1, 2), Mean(1, 2, 2)
	if got := Min(high, Exact{}, low, Of(7)); got != low {
		t.Errorf("the smallest is %+v", got)
	}
	if got := Max(Of(-7), low, Exact{}, high); got != high {
		t.Errorf("the largest is %+v", got)
	}
	if Min().Measured() || Max(Exact{}, Exact{}).Measured() {
		t.Error("the smallest or largest of nothing is measured")
	}
	if got := Max(Of(-7), Exact{}); got != Of(-7) {
		t.Errorf("the largest of one below zero is %+v", got)
	}
}

func TestMeanLiesBetweenMinAndMax(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		es := rapid.SliceOfN(exacts, 1, 6).Draw(t, "lengths")
		low, high := Min(es...), Max(es...)
		for _, e := range es {
			if e.Cmp(low) < 0 || e.Cmp(high) > 0 {
				t.Fatalf("%+v lies outside %+v to %+v", e, low, high)
			}
		}
		mean := MeanOf(es...)
		if r := mean.Round(); r < low.Round() || r > high.Round() {
			t.Fatalf("the mean %+v lies outside %+v to %+v", mean, low, high)
		}
	})
}
