package fit

import "borewright/engine/length"

// Total returns the total indicator reading of a full turn: the largest less
// the smallest that was shown. It is not measured of fewer than two readings.
func Total(shown ...length.Exact) length.Exact {
	n := 0
	for _, e := range shown {
		if e.Measured() {
			n++
		}
	}
	if n < 2 {
		return length.Exact{}
	}
	return length.Max(shown...).Sub(length.Min(shown...))
}

// Bend returns how far a shaft is bent from its total indicator reading: half
// of it, since a turn shows the bend on the one side and then on the other
// (TM 10-3930-653-14&P).
func Bend(total length.Exact) length.Exact { return total.Half() }

// RodSide returns the side clearance at a rod journal: its width less all the
// rods that share it.
func RodSide(journal length.Exact, rods ...length.Exact) length.Exact {
	for _, r := range rods {
		journal = journal.Sub(r)
	}
	return journal
}
