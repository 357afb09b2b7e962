package gauge

import (
	"math"
	"math/big"

	"borewright/engine/length"
)

// reference is the temperature at which a size is stated, in °C (ISO 1).
const reference = 20

// Body is what grows with its temperature: a part, a master or a gauge. Its
// figures are decimal text as entered; an empty one is not known.
type Body struct {
	// Of names it in a sentence: "part", "master", "gauge".
	Of string
	// Material tells whose expansion it is: bodies of one material share its
	// doubt. Alpha is in 1e-6 per °C, AlphaDoubt how far it may be to either
	// side.
	Material          string
	Alpha, AlphaDoubt string
	// Moment tells when and where its temperature was taken: bodies of one moment
	// share its doubt. At is in °C, AtDoubt how far it may be to either side.
	Moment      string
	At, AtDoubt string
}

// Known reports whether its expansion and its temperature are known.
func (b Body) Known() bool { return b.Alpha != "" && b.At != "" }

// validate refuses figures that are none, or impossible.
func (b Body) validate(f *faults) {
	f.decimal("expansion of the "+b.Of, b.Alpha, 0, mostAlpha)
	f.decimal("doubt of the expansion of the "+b.Of, b.AlphaDoubt, 0, mostAlpha)
	f.decimal("temperature of the "+b.Of, b.At, coldest, warmest)
	f.decimal("doubt of the temperature of the "+b.Of, b.AtDoubt, 0, warmest)
}

// growth is how much longer something is than at another temperature, 1 + α ΔT,
// as an exact fraction. The denominator is above zero, and so is the numerator
// for every expansion and temperature that is believed.
type growth struct{ num, den *big.Int }

// none is the growth of what is not known, or stands still.
func none() growth { return growth{big.NewInt(1), big.NewInt(1)} }

// microPlaces are the decimals of 1e-6.
const microPlaces = 6

// growthFrom returns the growth from a temperature to that of the body. The
// texts are valid and known.
func (b Body) growthFrom(from string) growth {
	alpha, at, start := parsed(b.Alpha), parsed(b.At), parsed(from)
	places := max(at.Places, start.Places)
	rise := new(big.Int).Sub(scaled(at, places), scaled(start, places))
	den := tenTo(alpha.Places + places + microPlaces)
	num := rise.Mul(rise, big.NewInt(alpha.Coef))
	return growth{num.Add(num, den), den}
}

// over20 returns the growth from 20 °C, and none where something is not known.
func (b Body) over20() growth {
	if !b.Known() {
		return none()
	}
	return b.growthFrom("20")
}

// less1 returns the growth less one, as a floating-point number.
func (g growth) less1() float64 {
	f, _ := new(big.Rat).SetFrac(new(big.Int).Sub(g.num, g.den), g.den).Float64()
	return f
}

// parsed reads a decimal that was checked.
func parsed(text string) length.Decimal {
	d, _ := length.ParseDecimal(text)
	return d
}

// scaled returns a decimal times 10^places, which is whole.
func scaled(d length.Decimal, places int) *big.Int {
	return new(big.Int).Mul(big.NewInt(d.Coef), tenTo(places-d.Places))
}

func tenTo(places int) *big.Int {
	return new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil)
}

// value returns a decimal as a floating-point number, 0 where it is not known.
func value(text string) float64 {
	d := parsed(text)
	return float64(d.Coef) / math.Pow10(d.Places)
}

// quotient returns num/den, den above zero, rounded half to even to a whole
// number.
func quotient(num, den *big.Int) length.Length {
	q, rem := new(big.Int).DivMod(num, den, new(big.Int))
	switch half := rem.Lsh(rem, 1).Cmp(den); {
	case half > 0, half == 0 && q.Bit(0) == 1:
		q.Add(q, big.NewInt(1))
	}
	return length.Length(q.Int64())
}

// At20 returns the size at 20 °C of a length that a body has at its own
// temperature, L/(1 + α(T - 20)), rounded half to even to 1 pm; the length
// itself where expansion or temperature is not known. The error is a *Fault.
func (b Body) At20(l length.Length) (length.Length, error) {
	f := &faults{of: "temperatures"}
	b.validate(f)
	if f.err != nil {
		return 0, f.err
	}
	g := b.over20()
	return quotient(new(big.Int).Mul(big.NewInt(int64(l)), g.den), g.num), nil
}
