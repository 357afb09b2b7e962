package form

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
)

// Line is a straight line y = Intercept + Slope·x fitted by least squares.
type Line struct {
	Intercept, Slope float64
	// Residual is the standard deviation of the residuals with Freedom degrees
	// of freedom, two less than the points; 0 where two points leave none.
	Residual float64
	Freedom  int
	// R2 is the share of the variation of y that the line explains, 0 to 1; 1
	// where y does not vary.
	R2 float64
}

// FitLine fits a line to the points (x[i], y[i]) by least squares. ok is false
// with fewer than two points, with slices of different lengths or where all x
// are equal.
func FitLine(x, y []float64) (l Line, ok bool) {
	if len(x) != len(y) || len(x) < 2 || slices.Min(x) == slices.Max(x) {
		return Line{}, false
	}
	l.Intercept, l.Slope = stat.LinearRegression(x, y, nil, false)
	l.Freedom = len(x) - 2
	if l.R2 = stat.RSquared(x, y, nil, l.Intercept, l.Slope); math.IsNaN(l.R2) {
		l.R2 = 1
	}
	if l.Freedom > 0 {
		l.Residual = math.Sqrt(l.squares(x, y) / float64(l.Freedom))
	}
	return l, true
}

// squares returns the sum of the squares of the residuals.
func (l Line) squares(x, y []float64) float64 {
	sum := 0.0
	for i := range x {
		r := y[i] - l.Intercept - l.Slope*x[i]
		sum += r * r
	}
	return sum
}
