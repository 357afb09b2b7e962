package length

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

// bigOf returns w as a big.Int.
func bigOf(w wide) *big.Int {
	b := new(big.Int).SetUint64(w.hi)
	b.Lsh(b, 64).Add(b, new(big.Int).SetUint64(w.lo))
	if w.neg {
		b.Neg(b)
	}
	return b
}

// wides draws numbers below 2^126, so that sums of two fit.
var wides = rapid.Custom(func(t *rapid.T) wide {
	w := wideOf(rapid.Int64().Draw(t, "length"))
	if rapid.Bool().Draw(t, "long") {
		w = w.times(rapid.Uint64Range(0, 1<<62).Draw(t, "by"))
	}
	return w
})

func TestWideAgreesWithBig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := wides.Draw(t, "a"), wides.Draw(t, "b")
		d := rapid.Uint64Range(1, math.MaxUint64).Draw(t, "d")
		if got, want := bigOf(a.plus(b)), new(big.Int).Add(bigOf(a), bigOf(b)); got.Cmp(want) != 0 {
			t.Fatalf("a + b = %v, want %v", got, want)
		}
		if got, want := a.cmp(b), bigOf(a).Cmp(bigOf(b)); got != want {
			t.Fatalf("a compares with b %d, want %d", got, want)
		}
		if a.sign() != bigOf(a).Sign() || a.cmp(a) != 0 {
			t.Fatalf("a has sign %d and compares %d with itself", a.sign(), a.cmp(a))
		}
		q, rem := a.quo(d)
		wantQ, wantRem := new(big.Int).QuoRem(bigOf(a), new(big.Int).SetUint64(d), new(big.Int))
		if bigOf(q).Cmp(wantQ) != 0 || new(big.Int).SetUint64(rem).CmpAbs(wantRem) != 0 {
			t.Fatalf("a / d = %v rest %d, want %v rest %v", bigOf(q), rem, wantQ, wantRem)
		}
		if got, want := bigOf(a.roundQuo(d)), roundBig(bigOf(a), new(big.Int).SetUint64(d)); got.Cmp(want) != 0 {
			t.Fatalf("a / d rounds to %v, want %v", got, want)
		}
		v, ok := a.int64()
		if ok != bigOf(a).IsInt64() || ok && v != bigOf(a).Int64() {
			t.Fatalf("a fits: %v, as %d; it is %v", ok, v, bigOf(a))
		}
	})
}

func TestWideZeroHasNoSign(t *testing.T) {
	zero := wide{neg: true}
	if zero.sign() != 0 || zero.cmp(wide{}) != 0 || zero.cmp(wideOf(-1)) != 1 || zero.cmp(wideOf(1)) != -1 {
		t.Error("a zero with a minus does not compare as zero")
	}
	if got := formatWide(zero, 2, true); got != "0.00" {
		t.Errorf("it prints as %q", got)
	}
}

func TestWidePrintsTheZerosWithin(t *testing.T) {
	w := wideOf(7).times(1e18).plus(wideOf(42))
	w = w.times(1000)
	if got := formatWide(w, 0, false); got != "7000000000000000042000" {
		t.Errorf("it prints as %q", got)
	}
}

func TestGcd(t *testing.T) {
	for _, c := range [][3]uint64{{0, 5, 5}, {12, 18, 6}, {18, 12, 6}, {7, 13, 1}, {1 << 40, 1 << 20, 1 << 20}} {
		if got := gcd(c[0], c[1]); got != c[2] {
			t.Errorf("gcd(%d, %d) = %d, want %d", c[0], c[1], got, c[2])
		}
	}
}
