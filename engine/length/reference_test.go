package length_test

import (
	"math/big"
	"strings"
	"testing"

	. "borewright/engine/length"

	"pgregory.net/rapid"
)

// The references here are written with math/big alone, the slow and plain way.

// rat returns e as a fraction of picometres.
func rat(e Exact) *big.Rat { return big.NewRat(int64(e.Sum), e.Count) }

// halfEven rounds r to a whole number, half to even.
func halfEven(r *big.Rat) *big.Int {
	half := big.NewRat(1, 2)
	up := new(big.Rat).Add(r, half)
	floor := new(big.Int).Div(up.Num(), up.Denom())
	tie := new(big.Rat).SetInt(floor).Cmp(up) == 0
	if tie && floor.Bit(0) == 1 {
		floor.Sub(floor, big.NewInt(1))
	}
	return floor
}

// power returns 10^n as a fraction.
func power(n int) *big.Rat {
	r := new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(max(n, -n))), nil))
	if n < 0 {
		return r.Inv(r)
	}
	return r
}

// formatted is Format done with fractions: it rounds to a whole number of the
// last decimal, which big.Rat then prints without rounding again.
func formatted(e Exact, u Unit, places int) string {
	r := rat(e)
	r.Quo(r, new(big.Rat).SetInt64(int64(u.Size())))
	whole := halfEven(r.Mul(r, power(places)))
	return new(big.Rat).Quo(new(big.Rat).SetInt(whole), power(places)).FloatString(places)
}

// kept is what an Exact must hold of a fraction: itself in lowest terms, or
// rounded to a picometre where the count is too large or the sum too long.
func kept(r *big.Rat) Exact {
	if r.Num().IsInt64() && r.Denom().IsInt64() && r.Denom().Int64() <= 1<<20 {
		return Exact{Sum: Length(r.Num().Int64()), Count: r.Denom().Int64()}
	}
	if w := halfEven(r); w.IsInt64() {
		return Of(Length(w.Int64()))
	}
	return Exact{}
}

// decimals counts the digits after the point.
func decimals(s string) int {
	_, after, _ := strings.Cut(s, ".")
	return len(after)
}

var (
	unitGen   = rapid.SampledFrom([]Unit{In, MM, UM, UIn})
	lengthGen = rapid.OneOf(
		rapid.Int64Range(-1000, 1000),
		rapid.Int64Range(-200*int64(Millimetre), 200*int64(Millimetre)),
		rapid.Int64Range(-100*int64(Metre), 100*int64(Metre)),
		rapid.Int64(),
	)
	countGen = rapid.OneOf(rapid.Just(int64(1)), rapid.Int64Range(1, 12), rapid.Int64Range(1, 1<<20))
)

// exacts draws any measured length the type allows.
var exacts = rapid.Custom(func(t *rapid.T) Exact {
	return Exact{Sum: Length(lengthGen.Draw(t, "sum")), Count: countGen.Draw(t, "count")}
})

// refused fails unless err is a ParseError whose text has the input and why.
func refused(t *testing.T, err error, input, reason string) {
	t.Helper()
	if err == nil {
		t.Fatalf("%q was taken", input)
	}
	if got, want := err.Error(), `: `+reason; !strings.Contains(got, want) {
		t.Errorf("%q: error %q does not say %q", input, got, want)
	}
}
