package doubt

import (
	"math"

	"borewright/engine/length"
)

// Reading is what one place reads: the mean of the readings taken there, and
// what may be wrong with it.
type Reading struct {
	// Key tells the place from every other, such as "bore/1 top across".
	Key string
	// Gauge names what it was read with, such as "bore gauge b1".
	Gauge string
	// Count is how many readings the mean is of; 0 counts as 1.
	Count int
	// Step is the gauge's reading step, 0 where none is known.
	Step length.Exact
	// Repeat is the gauge's pooled repeatability, never that of this place alone.
	Repeat Estimate
	// Common is what repeating does not make smaller: the master, the drift, the
	// temperatures.
	Common []Contribution
}

// The names of what is a reading's own.
const (
	stepName   = "the gauge's step"
	repeatName = "repeatability"
)

// StepDoubt returns the standard uncertainty of a reading to a whole step, in
// picometres: it is rectangular, half a step to either side (GUM F.2.2.1). It is
// 0 where no step is known.
func StepDoubt(step length.Exact) float64 {
	if !step.Measured() {
		return 0
	}
	return math.Abs(step.Float()) / math.Sqrt(12)
}

// own returns the contribution of reading at all: the step or the repeatability
// of the mean, whichever is larger. Both at once would count the step twice,
// for it is in the scatter of the repeats. Repeating averages the scatter and
// not the step.
func (r *Reading) own() Contribution {
	name, value, df := stepName, StepDoubt(r.Step), 0.0
	if s := r.Repeat.S / math.Sqrt(float64(max(r.Count, 1))); r.Repeat.Known() && s >= value {
		name, value, df = repeatName, s, float64(r.Repeat.DF)
	}
	return Contribution{Name: r.named(name), Source: "reading of " + r.Key, Sensitivity: 1, Value: value, DF: df}
}

// named adds which gauge it is of.
func (r *Reading) named(what string) string {
	if r.Gauge == "" {
		return what
	}
	return what + " (" + r.Gauge + ")"
}

// Master returns the contribution of a master known to within an expanded
// uncertainty with k = 2. id tells it from other masters: what was set on it is
// wrong alike.
func Master(id string, expanded length.Length) Contribution {
	return Contribution{Name: "the master", Source: "master " + id, Kind: Normal, Value: float64(expanded), Sensitivity: 1}
}

// Drift returns the contribution of a zero that came back wrong by this much,
// anything up to it being as likely. It is each reading's own, for what was
// read early in a set drifted less than what was read late.
func Drift(key string, drift length.Length) Contribution {
	return Contribution{
		Name: "drift of the zero", Source: "drift at " + key, Kind: Rectangular,
		Value: math.Abs(float64(drift)), Sensitivity: 1,
	}
}
