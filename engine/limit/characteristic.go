package limit

import "slices"

// Characteristic is what is judged.
type Characteristic string

// The characteristics of bores, pistons, bearings and journals.
const (
	Size          Characteristic = "size"
	Taper         Characteristic = "taper"
	OutOfRound    Characteristic = "out-of-round"
	OverallSpread Characteristic = "overall spread"
	Clearance     Characteristic = "clearance"
)

// The characteristics of what is read as one figure, each named as the
// family's Figure in plan.Traits.
const (
	Wall          Characteristic = "wall"
	EndGap        Characteristic = "end gap"
	SideClearance Characteristic = "side clearance"
	EndPlay       Characteristic = "end play"
	DeckClearance Characteristic = "deck clearance"
	Protrusion    Characteristic = "protrusion"
	Runout        Characteristic = "runout"
	Flatness      Characteristic = "flatness"
)

// Step is by how much a figure differs from the next one's in a row: the
// clearances of two mains side by side, the protrusions of two liners.
const Step Characteristic = "step to the next"

// Definition says by which definition a figure is computed. Its zero value is
// the characteristic's usual one: see Usual.
type Definition string

// The definitions of each characteristic. Published manuals compute different
// figures under one name, so the definition is shown beside the figure.
const (
	// EveryReading judges each reading of the size, Average their mean.
	EveryReading Definition = "every reading"
	Average      Definition = "average"

	// EndToEnd is the first less the last level in one direction, Spread the
	// largest less the smallest over the levels in one direction, and Slope
	// what the least-squares line in one direction has between the two ends.
	EndToEnd Definition = "end to end"
	Spread   Definition = "spread"
	Slope    Definition = "slope"

	// AtOneLevel is the largest less the smallest over the directions at one
	// level, OfAllReadings the same of all readings of the feature.
	AtOneLevel    Definition = "largest - smallest at one level"
	OfAllReadings Definition = "largest - smallest of all readings"

	// The clearances name what is taken of the hole and then of the shaft.
	SmallestLargest  Definition = "smallest - largest"
	SmallestMean     Definition = "smallest - mean"
	SmallestSmallest Definition = "smallest - smallest"
	MeanMean         Definition = "mean - mean"

	// OfNeighbours is the largest difference of any two that stand side by side.
	OfNeighbours Definition = "largest of neighbours"

	// TotalReading is the largest less the smallest that the indicator showed
	// over a full turn; a single reading is taken to be that total.
	TotalReading Definition = "total indicator reading"
)

// Kind is how the margin of a characteristic is measured. The zero value is
// that of the characteristic: see KindOf.
type Kind uint8

// The kinds of margin.
const (
	AnyKind  Kind = iota
	KindSize      // a size, whose margin starts at the new limit that wear passes first
	KindForm      // a taper, out-of-round or spread, whose margin starts at zero
	KindGap       // a clearance, gap or play: nothing left at zero
)

// traits are what holds for each characteristic.
var traits = map[Characteristic]struct {
	kind Kind
	by   []Definition // the usual one first
}{
	Size:          {KindSize, []Definition{EveryReading, Average}},
	Taper:         {KindForm, []Definition{EndToEnd, Spread, Slope}},
	OutOfRound:    {KindForm, []Definition{AtOneLevel}},
	OverallSpread: {KindForm, []Definition{OfAllReadings}},
	Clearance:     {KindGap, []Definition{SmallestLargest, SmallestMean, SmallestSmallest, MeanMean}},

	Wall:          {KindSize, []Definition{EveryReading, Average}},
	EndGap:        {KindGap, []Definition{EveryReading}},
	SideClearance: {KindGap, []Definition{EveryReading}},
	EndPlay:       {KindGap, []Definition{EveryReading}},
	DeckClearance: {KindSize, []Definition{EveryReading, Average}},
	Protrusion:    {KindSize, []Definition{EveryReading}},
	Runout:        {KindForm, []Definition{TotalReading}},
	Flatness:      {KindForm, []Definition{EveryReading}},
	Step:          {KindForm, []Definition{OfNeighbours}},
}

// Characteristics returns every characteristic, in the order a list shows them.
func Characteristics() []Characteristic {
	return []Characteristic{
		Size, OutOfRound, Taper, OverallSpread, Clearance,
		Wall, EndGap, SideClearance, EndPlay, DeckClearance, Protrusion, Runout, Flatness, Step,
	}
}

// Definitions returns the definitions of a characteristic, the usual one
// first, and none for a characteristic nobody knows.
func Definitions(on Characteristic) []Definition { return slices.Clone(traits[on].by) }

// Usual returns the definition that holds where none is chosen, and "" for a
// characteristic nobody knows.
func Usual(on Characteristic) Definition {
	if by := traits[on].by; len(by) > 0 {
		return by[0]
	}
	return ""
}

// KindOf returns how the margin of a characteristic is measured, and AnyKind
// for one nobody knows.
func KindOf(on Characteristic) Kind { return traits[on].kind }
