package prep

import (
	"slices"
	"sync"

	"borewright/engine/plan"
)

// The choices of the oil path.
const (
	Solid     = "solid"
	Hydraulic = "hydraulic"

	FullOil       = "full oil"
	MeantBlock    = "restricted in the block"
	MeantLifters  = "restricted in the lifters"
	FittedNone    = "no restrictor"
	FittedBlock   = "in the block"
	FittedLifters = "in the lifters"
	FittedBoth    = "in the block and in the lifters"
	GalleryOpen   = "open"
	GalleryClosed = "closed off"
)

// catalogue is the table of all steps.
var catalogue = sync.OnceValue(func() []entry { return slices.Concat(blockSteps, crankSteps, assemblySteps) })

// blockSteps are the steps of a block.
var blockSteps = []entry{
	{Step: Step{
		ID: OilLifters, Name: "lifter kind", Kind: Choice, On: Block, Choices: []string{Solid, Hydraulic},
		Text:   "Which lifters does this engine run? A solid one takes only some 10 to 20 % of the oil that a hydraulic one takes.",
		Source: CommonPractice,
	}},
	{Step: Step{
		ID: OilMeant, Name: "oil meant for the lifters", Kind: Choice, On: Block,
		Choices: []string{FullOil, MeantBlock, MeantLifters},
		Text:    "Decide the oil path once: restrict the gallery or the lifters, never both.", Source: CommonPractice,
	}},
	{Step: Step{
		ID: CapsOut, Name: "main caps off", Kind: Counted, On: Block, Tally: "main caps", Way: Out,
		Text: "Take the main caps off, marked where they belong, and count them.", Cautions: []string{Lifting}, Source: CommonPractice,
	}, count: mains},
	{Step: Step{
		ID: StudsOut, Name: "studs out", Kind: Counted, On: Block, Tally: "studs", Way: Out,
		Text: "Key how many studs came out.", Source: CommonPractice,
	}},
	{Step: Step{
		ID: DowelsOut, Name: "dowels out", Kind: Counted, On: Block, Tally: "dowels", Way: Out,
		Text: "Key how many dowels came out.", Cautions: []string{Hammered}, Source: CommonPractice,
	}},
	{Step: Step{
		ID: CoreOut, Name: "core plugs out", Kind: Counted, On: Block, Tally: "core plugs", Way: Out,
		Text: "Key how many core plugs came out.", Cautions: []string{Hammered}, Source: CommonPractice,
	}},
	{Step: Step{
		ID: PlugsOut, Name: "gallery plugs out", Kind: Counted, On: Block, Tally: "gallery plugs", Way: Out,
		Text:     "Take every gallery plug out and key how many. One fitted at the factory counts: chips may lie behind it.",
		Cautions: []string{Lifting}, Source: CommonPractice,
	}},
	{Step: Step{
		ID: CamsOut, Name: "cam bearings out", Kind: Once, On: Block,
		Text:     "Drive the old cam bearings out: behind them the oil passages cannot be cleaned.",
		Cautions: []string{Hammered}, Source: honeManual,
	}},
	{Step: Step{
		ID: Degrease, Name: "first clean", Kind: Once, On: Block, NotBefore: []string{CapsOut, CoreOut, PlugsOut, CamsOut},
		Text: "Degrease the bare block, so that it can be seen and measured.", Cautions: []string{Solvents, Pressure}, Source: CommonPractice,
	}},
	{Step: Step{
		ID: Inspect, Name: "looked over", Kind: Once, On: Block, NotBefore: []string{Degrease},
		Text: "Look for cracks in decks, webs and threads; stop here when there is one.", Source: CommonPractice,
	}},
	{Step: Step{
		ID: Machining, Name: "machining done", Kind: Once, On: Block, NotBefore: []string{PlugsOut, Inspect},
		Text: "All boring, honing, decking, drilling and tapping is done.", Cautions: []string{Grinding, Lifting}, Source: blockOrder,
	}},
	{Step: Step{
		ID: DeburrBores, Name: "bores deburred", Kind: PerPlace, On: Block, NotBefore: []string{PlugsOut, Machining},
		Did: Deburred, Note: "not yet deburred",
		Text:     "Take the burr off this end of the bore; both ends need it after honing.",
		Cautions: []string{Grinding}, Source: honeManual,
	}, places: each(plan.Bore, "top", "bottom")},
	{Step: Step{
		ID: DeburrRest, Name: "edges deburred", Kind: PerPlace, On: Block, NotBefore: []string{PlugsOut, Machining},
		Did: Deburred, Places: []string{"plug bores", "rod notches", "main saddles", "deck edges"},
		Text: "Take the burrs off here too.", Cautions: []string{Grinding}, Source: blockOrder,
	}},
	{Step: Step{
		ID: Brush, Name: "galleries brushed", Kind: PerPlace, On: Block, Metal: true,
		NotBefore: []string{PlugsOut, CamsOut, Machining, DeburrBores, DeburrRest},
		Text:      "Run a brush right through, until it comes out clean at the other end.",
		Cautions:  []string{Solvents, Air}, Source: plugManual,
	}, places: oilways},
	{Step: Step{
		ID: Wash, Name: "wash", Kind: Once, On: Block, Metal: true, NotBefore: []string{DeburrBores, Brush}, Note: "not yet washed",
		Text:     "The final wash: hot water and soap, bores scrubbed, every passage flushed.",
		Cautions: []string{Pressure, Lifting}, Source: oilwayManual,
	}},
	{Step: Step{
		ID: Dry, Name: "dry and white", Kind: Once, On: Block, NotBefore: []string{Wash},
		Text:     "Dry it at once, and wipe each bore until the cloth stays white.",
		Cautions: []string{Air}, Source: whiteManual,
	}},
	{Step: Step{
		ID: Oil, Name: "oiled", Kind: Once, On: Block, NotBefore: []string{Dry},
		Text: "Oil every machined face before it can rust.", Source: steamManual,
	}},
	{Step: Step{
		ID: CamIn, Name: "cam bearings in", Kind: Value, On: Block, Match: true, NotBefore: []string{Oil},
		Text:     "Drive the bearing in and key the number on it: it must be its bore's own.",
		Cautions: []string{Hammered}, Source: blockOrder,
	}, places: each(plan.CamBearing, "")},
	{Step: Step{
		ID: CamSeat, Name: "front cam seat", Kind: Value, On: Block, NotBefore: []string{CamIn},
		Text:   "Key how far the front bearing sits behind the face of the block; − stands proud of it.",
		Source: CommonPractice,
	}, places: foreCam, unit: [2]string{"in", "mm"}, low: [2]string{"0.001 in", "0.02 mm"}},
	{Step: Step{
		ID: CamFeed, Name: "cam feed holes open", Kind: PerPlace, On: Block, NotBefore: []string{CamIn},
		Text: "Prove the feed hole open into its gallery, with a wire or a rod.", Source: wireManual,
	}, places: each(plan.CamBearing, "")},
	{Step: Step{
		ID: CoreSeat, Name: "core plug seat", Kind: Choice, On: Block, Choices: []string{"as their maker says", "flush", "below the chamfer"},
		Text: "State how the core plugs are to seat. Sources disagree: follow the plug's maker.", Source: "sources disagree",
	}},
	{Step: Step{
		ID: CoreIn, Name: "core plugs in", Kind: Counted, On: Block, Tally: "core plugs", Way: In,
		NotBefore: []string{Dry, CamFeed, CoreSeat},
		Text:      "Key how many core plugs are in.", Cautions: []string{Hammered}, Source: coreManual,
	}},
	{Step: Step{
		ID: PlugsIn, Name: "gallery plugs in", Kind: Counted, On: Block, Tally: "gallery plugs", Way: In,
		NotBefore: []string{PlugsOut, Machining, Brush, Oil, CamIn, CoreIn},
		Text:      "Key how many gallery plugs are in, sealed and tight.", Source: blockOrder,
	}},
	{Step: Step{
		ID: OilFitted, Name: "restrictor fitted", Kind: Choice, On: Block, NotBefore: []string{OilMeant},
		Choices: []string{FittedNone, FittedBlock, FittedLifters, FittedBoth},
		Text:    "Where is the oil to the lifters restricted now?", Source: CommonPractice,
	}},
	{Step: Step{
		ID: OilGalleries, Name: "galleries open or closed", Kind: Choice, On: Block, Choices: []string{GalleryOpen, GalleryClosed},
		Text: "Is this gallery open, or closed off on purpose?", Source: CommonPractice,
	}, places: galleries},
	{Step: Step{
		ID: DowelsIn, Name: "dowels in", Kind: Counted, On: Block, Tally: "dowels", Way: In, NotBefore: []string{DowelsOut, Oil},
		Text: "Key how many dowels are in.", Cautions: []string{Hammered}, Source: CommonPractice,
	}},
	{Step: Step{
		ID: StudsIn, Name: "studs in", Kind: Counted, On: Block, Tally: "studs", Way: In, NotBefore: []string{StudsOut, Oil},
		Text: "Key how many studs are in.", Source: CommonPractice,
	}},
	{Step: Step{
		ID: CapsIn, Name: "main caps on", Kind: Counted, On: Block, Tally: "main caps", Way: In, NotBefore: []string{CapsOut, Oil},
		Text: "Key how many main caps are back where they belong.", Source: CommonPractice,
	}},
	{Step: Step{
		ID: LastWipe, Name: "last wipe", Kind: Once, On: Block, NotBefore: []string{CamIn, CoreIn, PlugsIn},
		Text: "Wipe once more: driving bearings and plugs sheds shavings.", Source: blockOrder,
	}},
}
