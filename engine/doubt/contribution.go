package doubt

import (
	"fmt"
	"math"
)

// Kind is what the value of a contribution is, and so what its standard
// uncertainty is. The zero value is Deviation.
type Kind uint8

// The kinds of contributions.
const (
	// Deviation is a standard deviation or standard uncertainty as it stands:
	// had from readings (type A) where it has degrees of freedom.
	Deviation Kind = iota
	// Rectangular is the half-width a of what anything within is as likely:
	// u = a/√3 (GUM 4.3.7).
	Rectangular
	// Normal is an expanded uncertainty stated with k = 2, as certificates do:
	// u = U/2.
	Normal
	// Student is an expanded uncertainty of 95 % by Student's t with its
	// degrees of freedom: u = U/t (GUM G.3).
	Student
)

// String returns the word for the kind.
func (k Kind) String() string {
	switch k {
	case Rectangular:
		return "rectangular"
	case Normal:
		return "normal, k = 2"
	case Student:
		return "Student's t, 95 %"
	default:
		return "standard deviation"
	}
}

// Contribution is one reason why a figure may be wrong.
type Contribution struct {
	// Name is what a budget calls it, such as "the gauge's step". Contributions
	// of one name are of one estimate.
	Name string
	// Source is the error itself, such as "master r1": contributions of one
	// source go together and cancel in a difference. An empty one is a source of
	// its own.
	Source string
	Kind   Kind
	// Value is not below zero, in the unit its sensitivity is per.
	Value float64
	// Sensitivity is how far the figure moves for one of the value's unit, in
	// picometres; its sign matters within a source.
	Sensitivity float64
	// DF are the degrees of freedom of the value, at least 1; 0 says that it is
	// taken as known exactly.
	DF float64
}

// BadContribution is a contribution that no doubt can be had of.
type BadContribution struct {
	Name, Reason string
}

// Error names the contribution and says what is wrong with it.
func (e *BadContribution) Error() string {
	return fmt.Sprintf("contribution %q: %s", e.Name, e.Reason)
}

// Validate says what is wrong with the contribution; the error is a
// *BadContribution.
func (c Contribution) Validate() error {
	wrong := func(format string, a ...any) error {
		return &BadContribution{c.Name, fmt.Sprintf(format, a...)}
	}
	switch {
	case !(c.Value >= 0) || math.IsInf(c.Value, 0):
		return wrong("the value %v is no doubt", c.Value)
	case math.IsNaN(c.Sensitivity) || math.IsInf(c.Sensitivity, 0):
		return wrong("the sensitivity %v is no number", c.Sensitivity)
	case c.DF != 0 && !(c.DF >= 1):
		return wrong("%v degrees of freedom are fewer than one", c.DF)
	case c.Kind == Student && (c.DF == 0 || math.IsInf(c.DF, 0)):
		return wrong("by Student's t, but without its degrees of freedom")
	}
	return nil
}

// Standard returns the standard uncertainty of the value, in its own unit.
func (c Contribution) Standard() float64 {
	switch c.Kind {
	case Rectangular:
		return c.Value / math.Sqrt(3)
	case Normal:
		return c.Value / 2
	case Student:
		return c.Value / studentQuantile(c.DF, usualLevel)
	default:
		return c.Value
	}
}
