package fit

import "borewright/engine/length"

// micro turns an expansion into a share.
const micro = 1e-6

// reference is the temperature at which a size is stated, in °C (ISO 1).
const reference = 20

// Warmed returns a length that is so many °C warmer, its expansion being alpha
// in 1e-6 per °C, rounded half to even to 1 pm; the length itself at no rise.
func Warmed(l length.Exact, alpha, rise float64) length.Exact {
	if alpha == 0 || rise == 0 {
		return l
	}
	return l.Add(rounded(l.Float()*alpha*rise*micro, l))
}

// Cooled returns what a length will be once it is cold that is so many °C
// warmer now: l/(1 + αΔT), rounded as Warmed.
func Cooled(l length.Exact, alpha, rise float64) length.Exact {
	if alpha == 0 || rise == 0 {
		return l
	}
	share := alpha * rise * micro
	return l.Sub(rounded(l.Float()*share/(1+share), l))
}

// Body is what a part is made of and how warm it runs: its expansion in 1e-6
// per °C and its temperature in °C.
type Body struct{ Alpha, At float64 }

// Running returns the clearance of a hole and a shaft at their temperatures,
// diametral, from what it is when both are at 20 °C: an aluminium housing opens
// and an aluminium piston closes it.
func Running(hole, shaft length.Exact, of, in Body) length.Exact {
	return Warmed(hole, of.Alpha, of.At-reference).Sub(Warmed(shaft, in.Alpha, in.At-reference))
}
