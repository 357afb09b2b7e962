package setup

import (
	"fmt"

	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// classSource is where limits come from that a tolerance class gave.
const classSource = "ISO 286-1:2010, "

// ByClass returns the limits of size that a tolerance class gives a family, and
// where they come from: "60 H6", or "H6" alone for the nominal size given. The
// error is a *limit.ClassError, also for a hole's class on a shaft.
func ByClass(text string, f plan.Family, nominal length.Written) (r limit.Range, source string, err error) {
	c, err := limit.ParseClass(text)
	if err != nil {
		return r, "", err
	}
	if c.Nominal.IsZero() {
		c.Nominal = nominal
	}
	if shape := f.Shape(); shape != plan.NoShape && c.Shape() != shape {
		words := map[plan.Shape]string{plan.Hole: "holes", plan.Shaft: "shafts"}
		return r, "", &limit.ClassError{Text: text, Reason: fmt.Sprintf("it is a class for %s, and %s are %s", words[c.Shape()], f.Plural(), words[shape])}
	}
	if r, err = c.Range(length.Written{}); err != nil {
		return r, "", err
	}
	return r, classSource + c.String(), nil
}
