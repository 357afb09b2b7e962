package prep

import "slices"

// Kind is how a step is done.
type Kind string

// The kinds of steps.
const (
	Once     Kind = "once"      // ticked once
	Counted  Kind = "counted"   // a number is counted: n of n
	PerPlace Kind = "per place" // ticked at each of its places
	Value    Kind = "value"     // a figure is keyed, at each place where it has places
	Choice   Kind = "choice"    // one of its choices, at each place where it has places
)

// The ways of what is counted.
const (
	Out       = "out"       // it was taken out
	In        = "in"        // it went back in
	Accounted = "accounted" // it does not come back, for a reason
)

// Part is what a step, or work on metal, is about.
type Part string

// The parts. AnyPart is all of them.
const (
	AnyPart Part = ""
	Block   Part = "block"
	Crank   Part = "crank"
	Loose   Part = "loose" // pistons, rods, pins, rings and shells
)

// Step is one step of a prep list. It is data: it is stored as it stands.
type Step struct {
	// ID names the step among those of its list and in what is ticked.
	ID string `json:"id"`
	// Name is a few words for a list, Text what is to be done.
	Name string `json:"name"`
	Text string `json:"text,omitempty"`
	Kind Kind   `json:"kind"`
	On   Part   `json:"on,omitempty"`
	// Count is how many of what is counted there are, 0 when the count says so.
	Count int `json:"count,omitempty"`
	// Places are where it is done, each in the text form of a Spot.
	Places []string `json:"places,omitempty"`
	// Unit is that of a bare figure; Low and High are its limits with their
	// unit, or empty. Match says that the figure is a number that must be its
	// place's own, such as that on a cam bearing.
	Unit  string `json:"unit,omitempty"`
	Low   string `json:"low,omitempty"`
	High  string `json:"high,omitempty"`
	Match bool   `json:"match,omitempty"`
	// Choices are what a choice may be.
	Choices []string `json:"choices,omitempty"`
	// Tally names what is counted, Way whether it is counted Out or In.
	Tally string `json:"tally,omitempty"`
	Way   string `json:"way,omitempty"`
	// NotBefore are the ids of the steps that come before it.
	NotBefore []string `json:"not_before,omitempty"`
	// Metal says that work on metal withdraws the step.
	Metal bool `json:"metal,omitempty"`
	// Did is the work on metal that a tick of the step is, such as "deburred";
	// other work on a place's feature withdraws the tick there.
	Did string `json:"did,omitempty"`
	// Note stays on the figures of what is read before the step is done.
	Note string `json:"note,omitempty"`
	// Cautions name what can hurt; see Step.Caution.
	Cautions []string `json:"cautions,omitempty"`
	// Source is where the step comes from.
	Source string `json:"source,omitempty"`
}

// Signed reports whether the figure of a step may be below zero: a depth may.
func (s Step) Signed() bool { return s.Kind == Value && (s.Unit == "in" || s.Unit == "mm") }

// Keyed reports whether the step is done by keying a number.
func (s Step) Keyed() bool { return s.Kind == Counted || s.Kind == Value || s.Kind == Choice }

// spots returns where the step is done: its places, or the one that has no name.
func (s Step) spots() []string {
	if len(s.Places) == 0 {
		return []string{""}
	}
	return s.Places
}

// List is a prep list: steps in the order they are shown and usually done.
type List []Step

// Find returns the step with an id and where it stands; ok is false when there
// is none.
func (l List) Find(id string) (s Step, at int, ok bool) {
	at = slices.IndexFunc(l, func(s Step) bool { return s.ID == id })
	if at < 0 {
		return Step{}, -1, false
	}
	return l[at], at, true
}

// Resting returns the ids of the steps that rest on any of some, directly or
// through others, and of those themselves.
func (l List) Resting(on ...string) map[string]bool {
	set := map[string]bool{}
	for _, id := range on {
		set[id] = true
	}
	for grown := true; grown; {
		grown = false
		for _, s := range l {
			if !set[s.ID] && slices.ContainsFunc(s.NotBefore, func(id string) bool { return set[id] }) {
				set[s.ID], grown = true, true
			}
		}
	}
	return set
}

// Brief returns the list without what only its own screen shows: texts,
// cautions and sources. It folds to the same findings.
func (l List) Brief() List {
	var out List
	for _, s := range l {
		s.Text, s.Cautions, s.Source = "", nil, ""
		out = append(out, s)
	}
	return out
}
