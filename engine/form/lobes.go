package form

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/mat"

	"borewright/engine/length"
)

// Lobes is a section as a circle with two lobes, fitted by least squares:
//
//	D(θ) = D0 + A·cos 2θ + B·sin 2θ
//
// in picometres of diameter. The zero value is not possible.
type Lobes struct {
	// Possible says that the fit could be made; Why says why it could not.
	Possible bool
	Why      string
	// Rank is the rank of the equations: 3 when the fit is possible.
	Rank     int
	D0, A, B float64
	// Residual is the standard deviation of the residuals, in picometres, with
	// Freedom degrees of freedom. Three directions leave none: Residual is then
	// 0 and says nothing.
	Residual float64
	Freedom  int
	// Condition is how many times larger than the readings' doubts those of the
	// fit can be: 1.4 for directions spread evenly, much more for close ones.
	Condition float64
}

// FitLobes fits two lobes to diameters read at angles in degrees, those that
// are measured, the angles taken modulo 180°. It needs three that differ:
// 0, 90, 180 and 270 are only two.
func FitLobes(angles []int, values []length.Exact) Lobes { return new(lobeFit).fit(angles, values) }

// lobeFit fits one row of diameters after another. The rows of a bore are read at the
// same angles, and what depends on them alone is worked out once: a twentieth of a full
// assessment. So is the room that a fit takes: a thirtieth of its allocations.
type lobeFit struct {
	at   []int
	a    *mat.Dense
	qr   mat.QR
	d    *mat.VecDense // the diameters, each less the first
	c, r mat.VecDense  // what solves them, and what that leaves
	// now and read are the row's angles and diameters that are measured.
	now  []int
	read []length.Exact
}

func (x *lobeFit) fit(angles []int, values []length.Exact) Lobes {
	x.now, x.read = x.now[:0], x.read[:0]
	for i := range min(len(angles), len(values)) {
		if values[i].Measured() {
			x.now, x.read = append(x.now, angles[i]), append(x.read, values[i])
		}
	}
	l := Lobes{Rank: min(distinct(x.now), 3)}
	if l.Rank < 3 {
		l.Why = tooFew(x.now)
		return l
	}
	l.Possible = true
	if x.a == nil || !slices.Equal(x.at, x.now) {
		x.turn(x.now)
	}
	x.solve(&l)
	return l
}

// turn takes up the angles of a row.
func (x *lobeFit) turn(at []int) {
	x.at, x.a, x.d = slices.Clone(at), mat.NewDense(len(at), 3, nil), mat.NewVecDense(len(at), nil)
	x.r.Reset()
	for i, angle := range at {
		sin, cos := math.Sincos(2 * radians(halfTurn(angle)))
		x.a.SetRow(i, []float64{1, cos, sin})
	}
	x.qr.Factorize(x.a)
}

// solve fits the readings, each less the first so that no digit is lost.
func (x *lobeFit) solve(l *Lobes) {
	read := x.read
	for i := range read {
		x.d.SetVec(i, read[i].Sub(read[0]).Float())
	}
	l.Condition = x.qr.Cond()
	if err := x.qr.SolveVecTo(&x.c, false, x.d); err != nil {
		l.Possible, l.Why = false, fmt.Sprintf("the directions lie too close together: %v", err)
		return
	}
	l.D0, l.A, l.B = read[0].Float()+x.c.AtVec(0), x.c.AtVec(1), x.c.AtVec(2)
	if l.Freedom = len(read) - 3; l.Freedom > 0 {
		x.r.MulVec(x.a, &x.c)
		x.r.SubVec(x.d, &x.r)
		l.Residual = mat.Norm(&x.r, 2) / math.Sqrt(float64(l.Freedom))
	}
}

// OutOfRound returns the largest less the smallest diameter of the fit, in
// picometres: twice the amplitude.
func (l Lobes) OutOfRound() float64 { return 2 * math.Hypot(l.A, l.B) }

// WideAt returns the direction in which the fit is largest, in degrees, from 0
// to below 180.
func (l Lobes) WideAt() float64 {
	deg := math.Atan2(l.B, l.A) * 90 / math.Pi
	return math.Mod(deg+180, 180)
}

// At returns the diameter of the fit at an angle in degrees, in picometres.
func (l Lobes) At(deg float64) float64 {
	sin, cos := math.Sincos(deg * math.Pi / 90)
	return l.D0 + l.A*cos + l.B*sin
}

// distinct counts the directions that differ modulo 180°.
func distinct(angles []int) int {
	n := 0
	for i, a := range angles {
		if !slices.ContainsFunc(angles[:i], func(b int) bool { return halfTurn(b) == halfTurn(a) }) {
			n++
		}
	}
	return n
}

// tooFew says why directions do not suffice for the fit.
func tooFew(angles []int) string {
	n := distinct(angles)
	if n == 0 {
		return "no direction is measured; two lobes need three"
	}
	sorted := slices.Clone(angles)
	slices.Sort(sorted)
	names := make([]string, len(sorted))
	for i, a := range sorted {
		names[i] = strconv.Itoa(a)
	}
	list := strings.Join(names, "/")
	if n == len(angles) && n == 1 {
		return "direction " + list + " is only one; two lobes need three"
	}
	count := map[int]string{1: "one", 2: "two"}[n]
	return "directions " + list + " are only " + count + " modulo 180°; two lobes need three"
}

func radians(deg int) float64 { return float64(deg) * math.Pi / 180 }
