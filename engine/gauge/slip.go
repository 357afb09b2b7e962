package gauge

// Slip is the kind of slip a text was held for. The zero value is none.
type Slip uint8

// The slips, in the order in which they are looked for.
const (
	NoSlip     Slip = iota
	Ambiguous       // its last digits end two sizes alike
	OneTurn         // one turn of the thimble, or one revolution of the dial
	Swapped         // two neighbouring digits changed places
	WrongUnit       // inches keyed as millimetres, or the reverse
	Shifted         // a shifted point
	WrongSide       // on the side that wear cannot reach
	OutOfRange      // beyond what the instrument can read
	TooFine         // finer than the instrument can be read
	FarOff          // far from its neighbours
)

var slipNames = [...]string{
	NoSlip: "", Ambiguous: "ambiguous", OneTurn: "one turn", Swapped: "swapped digits",
	WrongUnit: "wrong unit", Shifted: "shifted point", WrongSide: "wrong side of wear",
	OutOfRange: "out of range", TooFine: "too fine", FarOff: "far off",
}

// String returns a short name of the slip, and nothing for none.
func (s Slip) String() string {
	if int(s) < len(slipNames) {
		return slipNames[s]
	}
	return ""
}
