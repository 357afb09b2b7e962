package prep

import (
	"strings"

	"borewright/engine/plan"
)

// Spot is where a step is done: a feature and, behind a space, where on it, as
// in "bore/3 top". A text that names no feature is a place of its own, such as
// "rod notches".
type Spot struct {
	Of    plan.Feature
	Where string
}

// SpotOf reads the text form of a spot.
func SpotOf(text string) Spot {
	first, where, _ := strings.Cut(text, " ")
	if f, err := plan.ParseFeature(first); err == nil {
		return Spot{f, where}
	}
	return Spot{Where: text}
}

// String returns the text form.
func (p Spot) String() string {
	if p.Of.IsZero() {
		return p.Where
	}
	return strings.TrimSpace(p.Of.String() + " " + p.Where)
}

// Name returns the spot as a sentence names it, such as "bore 3 top".
func (p Spot) Name(l plan.Layout) string {
	if p.Of.IsZero() {
		return p.Where
	}
	return strings.TrimSpace(l.Name(p.Of) + " " + p.Where)
}

// parts says which part a feature is cut into, or that it is a loose one.
var parts = map[plan.Family]Part{
	plan.Bore: Block, plan.MainHousing: Block, plan.MainBearing: Block, plan.CamBearing: Block,
	plan.LifterBore: Block, plan.Deck: Block, plan.Liner: Block, plan.Flatness: Block,
	plan.MainJournal: Crank, plan.RodJournal: Crank, plan.Runout: Crank,
	plan.CamJournal: Loose, plan.Lifter: Loose,
	plan.Piston: Loose, plan.PistonPin: Loose, plan.PistonEye: Loose, plan.RingGap: Loose, plan.RingSide: Loose,
	plan.Rod: Loose, plan.RodEye: Loose, plan.RodHousing: Loose, plan.RodBearing: Loose, plan.RingSet: Loose,
	plan.ShellMain: Loose, plan.ShellRod: Loose,
}

// PartOf returns the part that a feature belongs to; AnyPart where that cannot
// be said, as for end play.
func PartOf(f plan.Feature) Part { return parts[f.Family] }

// about reports whether a step about one part concerns another.
func (p Part) about(other Part) bool { return p == AnyPart || other == AnyPart || p == other }
