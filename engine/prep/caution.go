package prep

// What can hurt where a step is done.
const (
	Pressure = "pressure washing"
	Solvents = "solvents"
	Air      = "compressed air"
	Grinding = "grinding"
	Hammered = "hammered parts"
	Lifting  = "lifting"
	Turning  = "turning an engine"
)

// Defer is said behind every caution.
const Defer = "The part maker's data and local rules govern."

// cautions are the usual ones, each in a sentence or two. The figure for
// compressed air, and the cautions on solvents, are those of TM 10-4610-239-24,
// par. 2-25, and TM 9-2320-272-24-4, par. 5-28; the rest is common practice, no
// source.
var cautions = map[string]string{
	Pressure: "A jet of water or steam cuts and scalds: face shield, gloves, nobody in its way; catch what runs off.",
	Solvents: "Solvent burns and poisons: no flame near it, fresh air, gloves and glasses; rags into a closed bin.",
	Air:      "Compressed air throws chips into eyes: glasses on, at most 30 psi (207 kPa), never towards a person.",
	Grinding: "Grit and wire fly: glasses and a mask; keep grit out of galleries and threads.",
	Hammered: "Struck steel can splinter: glasses on, a driver that fits, never steel on hardened steel.",
	Lifting:  "A block is heavier than it looks: a hoist rated for it, its load low, no hand beneath.",
	Turning:  "A crank that turns takes fingers: turn it by hand, hands off the other end.",
}

// liftingCrank is what Lifting is for a crank (common practice, no source).
const liftingCrank = "A crank is heavier than it looks and slips in oily hands: a hoist or a second person, feet clear."

// Caution returns the usual caution of that name for the step; a name of the
// list's own stands as it is.
func (s Step) Caution(name string) string {
	if name == Lifting && s.On == Crank {
		return liftingCrank
	}
	if text, ok := cautions[name]; ok {
		return text
	}
	return name
}
