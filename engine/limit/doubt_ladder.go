package limit

import (
	"fmt"

	"borewright/engine/length"
)

// Rung is one size of a ladder: of the oversizes of a bore, the undersizes of a
// journal, the walls of its shells.
type Rung struct {
	// By is the step that the size belongs to, such as 0.010 in under standard;
	// zero where the ladder does not say and its steps are equal.
	By   length.Written
	Size length.Written
}

// LadderDoubts returns what is doubtful in a ladder, its rungs in the order they
// are printed. Where every rung says its step, sizes go up or down by the step
// itself or by half of it (as walls do: TM 9-2815-205-34 p. 3-203); else they
// are equally far apart. The one rung that keeps the others from it is doubted.
//
// Nothing is doubted in fewer than three rungs, nor where more than one is off.
// Of three rungs any may be the odd one, and of a ladder without steps the
// first or last may well be a size between or beyond the others (such as 0.002
// before 0.010, 0.020 and 0.030): those are doubted only when a shifted point,
// swapped digits or a lost zero explains them.
func LadderDoubts(rungs []Rung) []Doubt {
	var out []Doubt
	if len(rungs) < 3 {
		return nil
	}
	for _, odd := range oddRungs(rungs) {
		d, slip := odd.doubt(rungs)
		if slip == OffStep && (len(rungs) == 3 || odd.end(len(rungs))) {
			continue
		}
		out = append(out, d)
	}
	return out
}

// oddRung is a rung that alone keeps a ladder from even steps, and the size that
// even steps would give it.
type oddRung struct {
	at      int
	even    length.Length
	stepped bool
}

// end reports whether the rung is the first or last of a ladder without steps.
func (o oddRung) end(rungs int) bool { return !o.stepped && (o.at == 0 || o.at == rungs-1) }

// oddRungs returns the rungs of which any may be the odd one: none when the
// steps are even, or when more than one is off.
func oddRungs(rungs []Rung) []oddRung {
	var out []oddRung
	seen := map[oddRung]bool{}
	for _, rule := range ladderRules(rungs) {
		off, odd := 0, oddRung{}
		for i, r := range rungs {
			if even, ok := rule(i); !ok || even != r.Size.Length {
				off, odd = off+1, oddRung{at: i, even: even, stepped: hasSteps(rungs)}
			}
		}
		switch {
		case off == 0:
			return nil
		case off == 1 && !seen[odd]:
			seen[odd] = true
			out = append(out, odd)
		}
	}
	return out
}

// hasSteps reports whether every rung says its step.
func hasSteps(rungs []Rung) bool {
	for _, r := range rungs {
		if r.By.IsZero() {
			return false
		}
	}
	return true
}

// ladderRules returns every rule of even steps that two rungs of the ladder, or
// with steps one of them, keep: the size of each rung by its place. A rule is
// not ok where its size is no whole picometre.
func ladderRules(rungs []Rung) []func(at int) (length.Length, bool) {
	var rules []func(int) (length.Length, bool)
	for i, r := range rungs {
		if hasSteps(rungs) {
			for _, halves := range []length.Length{2, -2, 1, -1} {
				rules = append(rules, func(at int) (length.Length, bool) {
					twice := halves * (rungs[at].By.Length - r.By.Length)
					return r.Size.Length + twice/2, twice%2 == 0
				})
			}
			continue
		}
		for j := i + 1; j < len(rungs); j++ {
			apart, across := length.Length(j-i), rungs[j].Size.Length-r.Size.Length
			if across == 0 {
				continue
			}
			rules = append(rules, func(at int) (length.Length, bool) {
				part := across * length.Length(at-i)
				return r.Size.Length + part/apart, part%apart == 0
			})
		}
	}
	return rules
}

// doubt says what is wrong with the rung, and by which slip.
func (o oddRung) doubt(rungs []Rung) (Doubt, Slip) {
	size := rungs[o.at].Size
	places := size.Places
	for _, r := range rungs {
		if r.Size.Unit == size.Unit && len(rungs) > 1 && r != rungs[o.at] {
			places = r.Size.Places
			break
		}
	}
	likely := Guess{OffStep, rewritten(o.even, size.Unit, places).String()}
	if p, ok := asPrinted(size, length.Written{}); ok {
		for _, g := range p.slips() {
			if g.slip != WrongUnit && g.was.Length() == o.even {
				likely.Slip = g.slip
				break
			}
		}
	}
	return Doubt{
		Row: o.at, Reason: Uneven, Written: size.String(),
		Why:    fmt.Sprintf("%s is off the even steps of the others, which would have %s there", size, likely.Text),
		Likely: []Guess{likely},
	}, likely.Slip
}
