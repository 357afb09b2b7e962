package fit

import (
	"math"

	"borewright/engine/length"
)

// Cylinder is what encloses the charge of one cylinder.
type Cylinder struct {
	// Bore is its mean diameter; Stroke the stroke.
	Bore, Stroke length.Exact
	// Deck is the deck clearance, + below the deck.
	Deck length.Exact
	// Gasket is the head gasket's thickness when tight, GasketBore its diameter.
	Gasket, GasketBore length.Exact
	// Chamber is the chamber in the head, Dish that in the piston (below zero
	// for a dome), both in cubic centimetres.
	Chamber, Dish float64
}

// Volumes are the parts of the compressed space and what the piston sweeps, in
// cubic centimetres.
type Volumes struct{ Swept, Chamber, Dish, Gasket, Deck float64 }

// cubicCentimetre is 1 cm³ in cubic picometres.
const cubicCentimetre = 1e30

// disc returns the volume of a disc in cubic centimetres.
func disc(diameter, height length.Exact) float64 {
	d := diameter.Float()
	return math.Pi / 4 * d * d * height.Float() / cubicCentimetre
}

// Volumes returns the volumes; those of what is not measured are not numbers.
func (c Cylinder) Volumes() Volumes {
	return Volumes{
		Swept: disc(c.Bore, c.Stroke), Chamber: c.Chamber, Dish: c.Dish,
		Gasket: disc(c.GasketBore, c.Gasket), Deck: disc(c.Bore, c.Deck),
	}
}

// Compressed returns what is left at the top of the stroke.
func (v Volumes) Compressed() float64 { return v.Chamber + v.Dish + v.Gasket + v.Deck }

// Ratio returns the compression ratio: what there is at the bottom of the
// stroke to what is left at its top. ok is false when something is not
// measured, or nothing is left.
func (c Cylinder) Ratio() (ratio float64, ok bool) {
	v := c.Volumes()
	left := v.Compressed()
	if math.IsNaN(left) || math.IsNaN(v.Swept) || left <= 0 {
		return 0, false
	}
	return (v.Swept + left) / left, true
}
