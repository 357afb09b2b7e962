package plan

import "fmt"

// The families that can be read.
const (
	MainHousing Family = "main-housing"
	MainBearing Family = "main-bearing"
	MainJournal Family = "main-journal"
	ShellMain   Family = "shell-main"
	RodHousing  Family = "rod-housing"
	RodBearing  Family = "rod-bearing"
	RodJournal  Family = "rod-journal"
	ShellRod    Family = "shell-rod"
	CamBearing  Family = "cam-bearing"
	CamJournal  Family = "cam-journal"
	Piston      Family = "piston"
	PistonPin   Family = "piston-pin"
	PistonEye   Family = "piston-pin-bore"
	RodEye      Family = "rod-pin-bore"
	Bore        Family = "bore"
	LifterBore  Family = "lifter-bore"
	Lifter      Family = "lifter"
	RingGap     Family = "ring-gap"
	RingSide    Family = "ring-side"
	EndPlay     Family = "end-play"
	RodSide     Family = "rod-side"
	Deck        Family = "deck"
	Liner       Family = "liner"
	Runout      Family = "runout"
	Flatness    Family = "flatness"
)

// The loose parts: they have numbers of their own, and Fitted says where one
// sits. A piston, a pin and a shell are read themselves.
const (
	Rod     Family = "rod"
	RingSet Family = "ring-set"
)

// The parts of a position.
const (
	Upper  = "upper"
	Lower  = "lower"
	Top    = "top"
	Second = "second"
	Oil    = "oil"
)

var (
	thrust   = map[int]string{90: "across", 0: "along"}
	upright  = map[int]string{90: "vertical", 0: "horizontal"}
	once     = map[int]string{0: Once}
	ofBores  = [4][]string{{"across"}, {"across", "along"}, {"across", "30", "150"}, {"across", "45", "along", "135"}}
	ofCranks = [4][]string{{"vertical"}, {"vertical", "horizontal"}, {"vertical", "30", "150"}, {"vertical", "45", "horizontal", "135"}}
	ofPoints = [4][]string{{Once}, {Once}, {Once}, {Once}}

	headToCrank = [2]string{"top", "bottom"}
	frontToRear = [2]string{"front", "rear"}
	halves      = []string{Upper, Lower}
	rings       = []string{Top, Second, Oil}
)

func cylinders(l Layout) int   { return l.Cylinders }
func mains(l Layout) int       { return l.Mains }
func rodJournals(l Layout) int { return l.RodJournals }
func cams(l Layout) int        { return l.CamBearings }
func one(Layout) int           { return 1 }

// lifters are two to a cylinder: common practice, no source.
func lifters(l Layout) int { return 2 * l.Cylinders }

// Banks returns how many banks of cylinders, and so decks, a layout has.
func (l Layout) Banks() int {
	if l.Form == Inline {
		return 1
	}
	return 2
}

// Has says why a layout does not have a feature, or nil when it does.
func (l Layout) Has(f Feature) error {
	t, ok := f.Family.Traits()
	if !ok {
		return fmt.Errorf("no family is called %q", string(f.Family))
	}
	if n := t.Count(l); f.At < 1 || f.At > n {
		return fmt.Errorf("%s: the layout has %d %s", f, n, t.Plural)
	}
	return nil
}

// families is the table of everything that can be read or fitted, in the order
// that a plan proposes.
var families = []Traits{
	{Family: Bore, Noun: "bore", Plural: "bores", Shape: Hole, Line: CylinderLine, Labels: "cylinders", Count: cylinders, Named: thrust, Ends: headToCrank, Usual: ofBores},
	{Family: Piston, Noun: "piston", Plural: "pistons", Shape: Shaft, Line: CylinderLine, Labels: "cylinders", Count: cylinders, Named: thrust, Ends: [2]string{"skirt", "bottom"}, Usual: ofBores, Loose: Piston, Seat: Bore},
	{Family: MainBearing, Noun: "main bearing", Plural: "main bearings", Shape: Hole, Line: CrankLine, Labels: "mains", Count: mains, Named: upright, Ends: frontToRear, Usual: ofCranks, Judged: "vertical"},
	{Family: MainJournal, Noun: "main journal", Plural: "main journals", Shape: Shaft, Line: CrankLine, Labels: "mains", Count: mains, Named: upright, Ends: frontToRear, Usual: ofCranks},
	{Family: RodBearing, Noun: "rod bearing", Plural: "rod big ends with shells", Shape: Hole, Line: CylinderLine, Labels: "cylinders", Count: cylinders, Named: upright, Ends: frontToRear, Usual: ofCranks, Judged: "vertical", Loose: Rod},
	{Family: RodJournal, Noun: "rod journal", Plural: "rod journals", Shape: Shaft, Line: CylinderLine, Labels: "rod journals", Count: rodJournals, Named: upright, Ends: frontToRear, Usual: ofCranks},
	{Family: MainHousing, Noun: "main housing", Plural: "main housings", Shape: Hole, Line: CrankLine, Labels: "mains", Count: mains, Named: upright, Ends: frontToRear, Usual: ofCranks},
	{Family: ShellMain, Noun: "{part} main shell", Plural: "main shell walls", Shape: Shaft, Line: CrankLine, Labels: "mains", Count: mains, Parts: halves, Named: once, Ends: frontToRear, Usual: ofPoints, Figure: "wall", Loose: ShellMain, Seat: MainHousing},
	{Family: EndPlay, Noun: "end play", Plural: "end play", Line: CrankLine, Count: one, Named: once, Usual: ofPoints, Figure: "end play"},
	{Family: Runout, Noun: "crank runout at main", Plural: "crank runout", Line: CrankLine, Labels: "mains", Count: mains, Named: once, Usual: ofPoints, Figure: "runout", Signed: true},
	{Family: RodHousing, Noun: "rod big end", Plural: "rod big ends without shells", Shape: Hole, Line: CylinderLine, Labels: "cylinders", Count: cylinders, Named: upright, Ends: frontToRear, Usual: ofCranks, Loose: Rod},
	{Family: ShellRod, Noun: "{part} rod shell", Plural: "rod shell walls", Shape: Shaft, Line: CylinderLine, Labels: "cylinders", Count: cylinders, Parts: halves, Named: once, Ends: frontToRear, Usual: ofPoints, Figure: "wall", Loose: ShellRod, Seat: RodHousing},
	{Family: RodSide, Noun: "rod side clearance at journal", Plural: "rod side clearance", Line: CylinderLine, Labels: "rod journals", Count: rodJournals, Named: once, Usual: ofPoints, Figure: "side clearance"},
	{Family: CamBearing, Noun: "cam bearing", Plural: "cam bearings", Shape: Hole, Labels: "cam bearings", Count: cams, Named: upright, Ends: frontToRear, Usual: ofCranks, Judged: ""},
	{Family: CamJournal, Noun: "cam journal", Plural: "cam journals", Shape: Shaft, Labels: "cam bearings", Count: cams, Named: upright, Ends: frontToRear, Usual: ofCranks},
	{Family: PistonPin, Noun: "piston pin", Plural: "piston pins", Shape: Shaft, Line: CylinderLine, Labels: "cylinders", Count: cylinders, Named: upright, Ends: frontToRear, Usual: ofCranks, Loose: PistonPin, Seat: Bore},
	{Family: PistonEye, Noun: "pin bore in piston", Plural: "pin bores in pistons", Shape: Hole, Line: CylinderLine, Labels: "cylinders", Count: cylinders, Named: upright, Ends: frontToRear, Usual: ofCranks, Loose: Piston},
	{Family: RodEye, Noun: "pin bore in rod", Plural: "pin bores in rods", Shape: Hole, Line: CylinderLine, Labels: "cylinders", Count: cylinders, Named: upright, Ends: frontToRear, Usual: ofCranks, Loose: Rod},
	{Family: LifterBore, Noun: "lifter bore", Plural: "lifter bores", Shape: Hole, Labels: "lifters", Count: lifters, Named: upright, Ends: headToCrank, Usual: ofCranks},
	{Family: Lifter, Noun: "lifter", Plural: "lifters", Shape: Shaft, Labels: "lifters", Count: lifters, Named: upright, Ends: headToCrank, Usual: ofCranks},
	{Family: RingGap, Noun: "{part} ring gap", Plural: "ring end gaps", Line: CylinderLine, Labels: "cylinders", Count: cylinders, Parts: rings, Named: once, Usual: ofPoints, Figure: "end gap", Loose: RingSet},
	{Family: RingSide, Noun: "{part} ring side clearance", Plural: "ring side clearance", Line: CylinderLine, Labels: "cylinders", Count: cylinders, Parts: rings, Named: once, Usual: ofPoints, Figure: "side clearance", Loose: RingSet},
	{Family: Deck, Noun: "deck clearance of cylinder", Plural: "deck clearance", Line: CylinderLine, Labels: "cylinders", Count: cylinders, Named: once, Ends: frontToRear, Usual: ofPoints, Figure: "deck clearance", Signed: true},
	{Family: Liner, Noun: "liner protrusion of cylinder", Plural: "liner protrusion", Line: CylinderLine, Labels: "cylinders", Count: cylinders, Named: once, Ends: frontToRear, Usual: ofPoints, Figure: "protrusion", Signed: true},
	{Family: Flatness, Noun: "deck flatness of bank", Plural: "deck flatness", Labels: "banks", Count: Layout.Banks, Named: once, Usual: ofPoints, Figure: "flatness"},
	{Family: Rod, Noun: "rod", Plural: "rods", Labels: "cylinders", Count: cylinders, Seat: Bore, Unread: true},
	{Family: RingSet, Noun: "ring set", Plural: "ring sets", Labels: "cylinders", Count: cylinders, Seat: Bore, Unread: true},
}
