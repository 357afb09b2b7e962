package gauge

import "borewright/engine/length"

// The kinds of an instrument.
const (
	Comparator = "comparator"
	Direct     = "direct"
	Indicator  = "indicator"
)

// What an instrument's cable sends; empty when it has none.
const (
	SendsSize        = "size"
	SendsDeviation   = "deviation"
	SendsGraduations = "graduations"
)

// Instrument is a gauge or micrometer as a session copies it: by value.
type Instrument struct {
	ID   string `json:"id"`
	Name string `json:"name"`
	// Kind is Comparator, Direct or Indicator.
	Kind string `json:"kind"`
	// Contacts is 2 or 3; with three, out-of-round is not measured.
	Contacts int `json:"contacts,omitempty"`
	// Unit is the unit of a bare number: "in" or "mm".
	Unit length.Unit `json:"unit"`
	// Graduation is one mark of the dial or thimble, Step the finest reading
	// (often half a graduation), Turn one revolution of dial or thimble.
	Graduation length.Written `json:"graduation"`
	Step       length.Written `json:"step,omitzero"`
	Turn       length.Written `json:"turn,omitzero"`
	// Low and High are the sizes it can read, when known.
	Low  length.Written `json:"low,omitzero"`
	High length.Written `json:"high,omitzero"`
	// Sense is how the needle was proved to move: "clockwise larger" or
	// "clockwise smaller"; empty when not proved. A keyed sign always means size.
	// Proved is the known step that it was proved with, zero when only said.
	Sense  string         `json:"sense,omitempty"`
	Proved length.Written `json:"proved,omitzero"`
	Sends  string         `json:"sends,omitempty"`
	// Material names what its body is made of; Alpha is its expansion in 1e-6
	// per °C with AlphaDoubt, as decimal text.
	Material   string `json:"material,omitempty"`
	Alpha      string `json:"alpha,omitempty"`
	AlphaDoubt string `json:"alpha_doubt,omitempty"`
	// Due is the day its calibration ends, as 2006-01-02.
	Due string `json:"due,omitempty"`
	// S is its repeatability pooled over past repeats, with DF degrees of freedom.
	S  length.Written `json:"s,omitzero"`
	DF int            `json:"df,omitempty"`
}

// Temperatures are in °C as decimal text; empty is not measured.
type Temperatures struct {
	Part   string `json:"part,omitempty"`
	Master string `json:"master,omitempty"`
	Gauge  string `json:"gauge,omitempty"`
	// Doubt is how far each of them may be to either side.
	Doubt string `json:"doubt,omitempty"`
}

// IsZero reports whether nothing was measured.
func (t Temperatures) IsZero() bool { return t == Temperatures{} }

// How the needle was proved to move: clockwise means a larger or a smaller size.
const (
	ClockwiseLarger  = "clockwise larger"
	ClockwiseSmaller = "clockwise smaller"
)

// The setting masters an instrument can be zeroed on; Scale is a direct
// instrument read on its own scale.
const (
	OnRing       = "ring"
	OnBlocks     = "blocks"
	OnMicrometer = "micrometer"
	OnFeature    = "feature"
	OnScale      = "scale"
)

// Setting is an instrument zeroed on a setting master of known size.
type Setting struct {
	ID         string `json:"id"`
	Instrument string `json:"instrument"`
	On         string `json:"on"`
	// Size is the master's size; a comparator needs it unless On is OnFeature.
	Size length.Written `json:"size,omitzero"`
	// Feature is the measured feature it was zeroed on, as text.
	Feature string         `json:"feature,omitempty"`
	Doubt   length.Written `json:"doubt,omitzero"`
	At      Temperatures   `json:"temperatures,omitzero"`
	// Material, Alpha and AlphaDoubt are the master's, as an instrument has them.
	Material   string `json:"material,omitempty"`
	Alpha      string `json:"alpha,omitempty"`
	AlphaDoubt string `json:"alpha_doubt,omitempty"`
}

// Set is the readings between two zero checks of one instrument, with the
// part's condition. The same id amends it.
type Set struct {
	ID       string       `json:"id"`
	Setting  string       `json:"setting"`
	Plate    string       `json:"plate,omitempty"`
	Caps     string       `json:"caps,omitempty"`
	Torque   string       `json:"torque,omitempty"`
	Fastener string       `json:"fastener,omitempty"`
	Lube     string       `json:"lube,omitempty"`
	Oiled    string       `json:"oiled,omitempty"`
	At       Temperatures `json:"temperatures,omitzero"`
}
