package engine

import (
	"math"
	"strings"

	"borewright/engine/length"
	"borewright/engine/plan"
)

// The given figures that fits are worked out with. Each is of a feature, of its
// family or of the whole engine, the nearest counting, and is a length but
// where it says otherwise.
const (
	// GivenHoneTarget is the size that bores are honed to, GivenFinish what
	// finishing takes off the largest place at least, GivenReboreStock what
	// boring to the next oversize does.
	GivenHoneTarget  = "hone target"
	GivenFinish      = "finish allowance"
	GivenReboreStock = "rebore stock"
	// GivenGrindStock is what grinding takes off the smallest place of a journal
	// at least.
	GivenGrindStock = "grinding stock"
	// GivenUndersize is the undersize of the shells that are in, none being
	// standard; GivenWall is their wall. GivenMix is by how much the undersizes
	// of two halves may differ, none being one step between those on hand.
	GivenUndersize = "shell undersize"
	GivenWall      = "shell wall"
	GivenMix       = "shell mix"
	// GivenGapFactor is a ring's gap for each unit of the bore's diameter, a
	// number such as 0.0035; with "top ", "second " or "oil " before it of that
	// ring alone. GivenGapDepth is how deep gaps were measured; the rings travel
	// from GivenTravelTop to GivenTravelBottom.
	GivenGapFactor    = "ring gap factor"
	GivenGapDepth     = "ring gap depth"
	GivenTravelTop    = "ring travel top"
	GivenTravelBottom = "ring travel bottom"
	// GivenRunning is how warm a part runs in °C, a number; its expansion is
	// GivenExpansion, of rings as of parts.
	GivenRunning = "running temperature"
	// GivenStroke, GivenGasket and GivenGasketBore enclose the charge, with the
	// volumes GivenChamber and GivenDish in cubic centimetres, numbers.
	GivenStroke     = "stroke"
	GivenGasket     = "gasket thickness"
	GivenGasketBore = "gasket bore"
	GivenChamber    = "chamber volume"
	GivenDish       = "dish volume"
	// GivenFree and GivenTight are a fastener's length before and after, its
	// stretch being from GivenLeastStretch to GivenMostStretch. GivenTorque, from
	// GivenLeastTorque to GivenMostTorque, are numbers with a unit of torque.
	GivenFree         = "fastener free length"
	GivenTight        = "fastener tight length"
	GivenLeastStretch = "least stretch"
	GivenMostStretch  = "most stretch"
	GivenTorque       = "torque"
	GivenLeastTorque  = "least torque"
	GivenMostTorque   = "most torque"
)

// givenLength returns a given length; it is not measured when none is given, or
// what is given is none.
func (s *Session) givenLength(name string, f plan.Feature) length.Exact {
	g, ok := s.given(name, f)
	if !ok {
		return length.Exact{}
	}
	w, err := length.Parse(g.Value, s.Unit())
	if err != nil {
		return length.Exact{}
	}
	return w.Exact()
}

// givenOr returns a given length, or another when there is none.
func (s *Session) givenOr(name string, f plan.Feature, other length.Exact) length.Exact {
	if e := s.givenLength(name, f); e.Measured() {
		return e
	}
	return other
}

// givenNumber returns a given number, whatever its unit; ok is false when there
// is none.
func (s *Session) givenNumber(name string, f plan.Feature) (x float64, ok bool) {
	g, ok := s.given(name, f)
	if !ok {
		return 0, false
	}
	d, err := length.ParseDecimal(numberOf(g.Value))
	if err != nil {
		return 0, false
	}
	return float64(d.Coef) / math.Pow10(d.Places), true
}

// numberOf returns the number that a text begins with, without its unit.
func numberOf(text string) string {
	end := strings.IndexFunc(text, func(r rune) bool { return !strings.ContainsRune("0123456789.,+-\u2212 ", r) })
	if end >= 0 {
		text = text[:end]
	}
	return strings.TrimSpace(text)
}
