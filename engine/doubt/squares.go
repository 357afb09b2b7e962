package doubt

import (
	"slices"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	"borewright/engine/length"
)

// Squares is a sum of squares in square picometres with its degrees of freedom.
type Squares struct {
	SS float64
	DF int
}

// Mean returns the mean square, 0 without degrees of freedom.
func (s Squares) Mean() float64 {
	if s.DF == 0 {
		return 0
	}
	return s.SS / float64(s.DF)
}

// plus adds sums of squares up.
func (s Squares) plus(o Squares) Squares { return Squares{s.SS + o.SS, s.DF + o.DF} }

// ratio is a mean square over another: F, and the chance that it is so large
// where nothing differs. ok is false where it has no meaning.
func (s Squares) ratio(against Squares) (f, p float64, ok bool) {
	if s.DF < 1 || against.DF < 1 || against.SS == 0 {
		return 0, 0, false
	}
	f = s.Mean() / against.Mean()
	return f, distuv.F{D1: float64(s.DF), D2: float64(against.DF)}.Survival(f), true
}

// shifted returns how far lengths are from a length, in picometres.
func shifted(g []length.Length, from length.Length) []float64 {
	return appendShifted(make([]float64, 0, len(g)), g, from)
}

func appendShifted(out []float64, g []length.Length, from length.Length) []float64 {
	for _, l := range g {
		out = append(out, float64(l-from))
	}
	return out
}

// sumSquares returns the sum of the squares about the mean.
func sumSquares(x []float64) float64 {
	if len(x) < 2 {
		return 0
	}
	return stat.Variance(x, nil) * float64(len(x)-1)
}

// span returns the largest less the smallest.
func span(x []float64) float64 { return slices.Max(x) - slices.Min(x) }
