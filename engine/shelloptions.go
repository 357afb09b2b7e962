package engine

import (
	"strings"

	"borewright/engine/fit"
	"borewright/engine/length"
	"borewright/engine/plan"
)

// ShellOption is a pair of the shells on hand for one bearing, and what it
// would make there.
type ShellOption struct {
	Upper, Lower string
	// Fit is the worst finding of the clearance that they make, Shift by how much
	// they move the centre line, + towards the upper.
	Fit   Finding
	Shift length.Exact
	// Changes fit them.
	Changes []Change
}

// ShellOptions returns every pair of the shells on hand that may go into the
// bearing at a position, those of one size first, and what is missing. How many
// there are on hand is not looked at: two of each are needed for a pair.
func (s *Session) ShellOptions(a *Assessment, bearing plan.Family, at int) (out []ShellOption, missing []string) {
	x := s.newShellChooser(a, bearing, func(Finding) bool { return true })
	p, ok := x.pairAt(at)
	upper, lower := x.half(p, plan.Upper), x.half(p, plan.Lower)
	if s.layout.Has(plan.Feature{Family: bearing, At: at}) != nil || !ok || !x.thick(upper).Measured() || !x.thick(lower).Measured() {
		return nil, x.out.Missing
	}
	for _, thickUpper := range []bool{false, true} {
		for _, h := range x.pairsOnHand(thickUpper) {
			if thickUpper && !h.Mixed(x.stock.shells) {
				continue // listed with the first
			}
			out = append(out, x.option(p, upper, lower, h))
		}
	}
	return out, x.out.Missing
}

// option is what a pair would make in a bearing.
func (x *shellChooser) option(p pair, upper, lower plan.Feature, h fit.Halves) ShellOption {
	on := x.stock.shells
	o := ShellOption{
		Upper: on[h.Upper].Name, Lower: on[h.Lower].Name, Shift: h.Shift(on),
		Fit: x.s.tryFit(x.a, &p, h.Change(on, x.thick(upper), x.thick(lower))),
	}
	if x.thick(upper) != on[h.Upper].Wall {
		o.Changes = append(o.Changes, x.s.shellChange(upper, on[h.Upper], x.stock.byWall))
	}
	if x.thick(lower) != on[h.Lower].Wall {
		o.Changes = append(o.Changes, x.s.shellChange(lower, on[h.Lower], x.stock.byWall))
	}
	return o
}

// ShellWord says which shell the half of a bearing is: its undersize, or its
// wall where shells are told by walls, "std" for a standard one.
func (s *Session) ShellWord(half plan.Feature) string {
	u := s.Unit()
	if s.onHand(half.Family).byWall {
		return s.Thickness(half, true).Format(u, u.Decimals())
	}
	e := s.UndersizeOf(half)
	if e.Sign() == 0 {
		return "std"
	}
	return strings.TrimRight(e.FormatSigned(u, u.Decimals()), "0")
}
