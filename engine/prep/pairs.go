package prep

// CommonPractice is the source of a trade fact that has none.
const CommonPractice = "common practice, no source"

// Pair says that one step comes before another, and who says so. Pairs hold
// for every list in which both steps are: the order that the presets and the
// edits of a list are checked against.
type Pair struct{ First, Then, Source string }

// The sources of the pairs. What "order of block preparation" names is the
// common order of three manuals, read together.
const (
	plugManual    = "TM 5-3810-289-34, cylinder block, removal and cleaning"
	honeManual    = "TM 5-3805-260-24, basic block, cleaning after honing"
	oilwayManual  = "TM 10-4610-239-24, par. 2-25"
	steamManual   = "TM 10-4610-239-24, par. 2-26"
	whiteManual   = "TM 5-3805-262-34, cylinder sleeves, cleaning"
	wireManual    = "TM 5-6115-400-35, camshaft bearings, installation"
	camPlugManual = "TM 10-4320-344-24, par. 4.4.21.3"
	coreManual    = "TM 5-3810-300-24&P3, cylinder block"
	crankManual   = "TM 5-3810-289-34, crankshaft, installation"
	blockOrder    = "TM 5-3810-289-34, TM 5-3805-260-24, TM 10-4610-239-24: order of block preparation"
)

// pairs is the table. Published order first, then what the trade does.
var pairs = []Pair{
	{PlugsOut, Brush, plugManual},
	{Brush, PlugsIn, plugManual},
	{Machining, Brush, plugManual},
	{Machining, PlugsIn, plugManual},
	{Machining, DeburrBores, honeManual},
	{DeburrBores, Wash, honeManual},
	{CamsOut, Brush, honeManual},
	{Brush, Wash, oilwayManual},
	{Wash, Dry, steamManual},
	{Dry, Oil, whiteManual},
	{Dry, CoreIn, coreManual},
	{CamIn, CamFeed, wireManual},
	{CamIn, PlugsIn, camPlugManual},
	{CrankBrush, CrankWash, oilwayManual},
	{CrankWash, CrankDry, steamManual},
	{CrankDry, CrankOil, steamManual},
	{CapTorque, CrankFree, crankManual},
	{PlugsOut, Machining, blockOrder},
	{PlugsOut, DeburrBores, blockOrder},
	{PlugsOut, DeburrRest, blockOrder},
	{DeburrBores, Brush, blockOrder},
	{DeburrRest, Brush, blockOrder},
	{Oil, CamIn, blockOrder},
	{CamFeed, CoreIn, blockOrder},
	{CoreIn, PlugsIn, blockOrder},
	{CamIn, LastWipe, blockOrder},
	{CoreIn, LastWipe, blockOrder},
	{PlugsIn, LastWipe, blockOrder},
	{CapsOut, Degrease, CommonPractice},
	{PlugsOut, Degrease, CommonPractice},
	{CoreOut, Degrease, CommonPractice},
	{CamsOut, Degrease, CommonPractice},
	{Degrease, Inspect, CommonPractice},
	{Inspect, Machining, CommonPractice},
	{CamIn, CamSeat, CommonPractice},
	{Oil, CapsIn, CommonPractice},
	{CrankPlugsOut, CrankMachining, CommonPractice},
	{CrankMachining, CrankHoles, CommonPractice},
	{CrankHoles, CrankBrush, CommonPractice},
	{CrankPlugsOut, CrankBrush, CommonPractice},
	{CrankDry, CrankPlugsIn, CommonPractice},
	{LastWipe, CapTorque, CommonPractice},
	{CrankOil, CapTorque, CommonPractice},
	{CapTorque, PistonsIn, CommonPractice},
	{PistonsIn, RodStretch, CommonPractice},
	{RodStretch, Primed, CommonPractice},
}

// Pairs returns the table of pairs.
func Pairs() []Pair { return append([]Pair(nil), pairs...) }

// PairOf returns the pair of two steps; ok is false when there is none.
func PairOf(first, then string) (p Pair, ok bool) {
	for _, p := range pairs {
		if p.First == first && p.Then == then {
			return p, true
		}
	}
	return Pair{}, false
}
