package gauge

import "borewright/engine/length"

// The turn of a direct instrument's thimble where none is given: common
// practice, no source.
const (
	usualTurnInch = 25 * length.Inch / 1000    // 0.025 in
	usualTurnMM   = 5 * length.Millimetre / 10 // 0.5 mm
)

// maxDecimals is how many decimals a graduation is looked at for.
const maxDecimals = 8

// Resolution returns the finest reading that can be made on the instrument:
// its Step, else half a graduation. It is not measured when the instrument has
// neither.
func (i Instrument) Resolution() length.Exact {
	switch {
	case i.Step.Length > 0:
		return length.Of(i.Step.Length)
	case i.Graduation.Length > 0:
		return length.Of(i.Graduation.Length).Half()
	default:
		return length.Exact{}
	}
}

// Places returns how many decimals of the instrument's unit one graduation
// has: 4 for 0.0001 in. Last digits are keyed with so many, and sizes shown
// with at least so many.
func (i Instrument) Places() int {
	if i.Graduation.Length <= 0 || i.Unit.Size() == 0 {
		return i.Unit.Decimals()
	}
	return placesOf(i.Graduation.Length, i.Unit, 0, maxDecimals)
}

// Revolution returns how far one turn of the dial or thimble goes: Turn, else
// 0.025 in or 0.5 mm for a direct instrument (common practice, no source), else
// 0, not known.
func (i Instrument) Revolution() length.Length {
	switch {
	case i.Turn.Length > 0:
		return i.Turn.Length
	case i.Kind != Direct:
		return 0
	case i.Unit == length.MM:
		return usualTurnMM
	default:
		return usualTurnInch
	}
}

// tooFine reports whether l is finer than can be read on the instrument.
func (i Instrument) tooFine(l length.Length) bool {
	step := i.Resolution()
	if !step.Measured() {
		return false
	}
	return (int64(l)*step.Count)%int64(step.Sum) != 0
}

// placesOf returns the fewest decimals from least to most that hold l exactly
// in the unit; most when none does.
func placesOf(l length.Length, u length.Unit, least, most int) int {
	one := u.Size()
	for n := range most {
		if n >= least && l%one == 0 {
			return n
		}
		l %= one
		l *= 10
	}
	return most
}
