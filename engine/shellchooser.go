package engine

import (
	"fmt"
	"strings"

	"borewright/engine/fit"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/match"
	"borewright/engine/plan"
)

// shellChooser works a shell plan out.
type shellChooser struct {
	s                       *Session
	a                       *Assessment
	may                     mayChange
	shell, journal, housing plan.Family
	stock                   stock
	pairs                   []pair // of each row
	out                     ShellPlan
}

// newShellChooser looks at what is on hand for a family of bearings.
func (s *Session) newShellChooser(a *Assessment, bearing plan.Family, may mayChange) *shellChooser {
	x := &shellChooser{s: s, a: a, may: may, out: ShellPlan{Bearing: bearing}}
	x.shell, x.journal, x.housing = plan.ShellMain, plan.MainJournal, plan.MainHousing
	if bearing == plan.RodBearing {
		x.shell, x.journal, x.housing = plan.ShellRod, plan.RodJournal, plan.RodHousing
	}
	x.stock = s.onHand(x.shell)
	x.out.Missing = append(x.out.Missing, x.stock.missing...)
	return x
}

// bearings lists every bearing whose clearance is measured and limited; what
// is not stays as it is.
func (x *shellChooser) bearings() {
	t, _ := x.out.Bearing.Traits()
	unlimited := true
	var unknown []string
	for at := 1; at <= t.Count(x.s.layout); at++ {
		p, ok := x.pairAt(at)
		if !ok {
			continue
		}
		now := x.s.tryFit(x.a, &p, length.Of(0))
		unlimited = unlimited && now.Judgement.By == ""
		upper, lower := x.half(p, plan.Upper), x.half(p, plan.Lower)
		switch {
		case !now.Value.Measured():
			unknown = append(unknown, x.s.Name(p.hole))
		case !x.thick(upper).Measured() || !x.thick(lower).Measured():
			x.miss("the walls that are in %s are not known: it stays as it is", x.s.Name(p.hole))
		default:
			x.pairs = append(x.pairs, p)
			x.out.Rows = append(x.out.Rows, ShellRow{At: at, Name: x.s.Name(p.hole), Upper: upper, Lower: lower, NowFit: now, BestFit: now, Shift: x.shiftOf(upper, lower)})
		}
	}
	if len(unknown) > 0 {
		x.miss("the clearance of %s is not known: it stays as it is", strings.Join(unknown, ", "))
	}
	if unlimited {
		x.out.Missing = append(x.out.Missing[:0:0], fmt.Sprintf("no limit on the clearance of %s is given to choose shells by", x.out.Bearing.Plural()))
	}
}

func (x *shellChooser) miss(format string, args ...any) {
	x.out.Missing = append(x.out.Missing, fmt.Sprintf(format, args...))
}

// pairAt is what makes the clearance at a position: as assembled where that is
// read, else from its parts.
func (x *shellChooser) pairAt(at int) (pair, bool) {
	p, ok := x.s.pairAt(x.out.Bearing, x.journal, at)
	if ok && !x.s.isRead(p.hole) && x.s.planned(x.housing) {
		p.parts = x.s.shellsAt(x.housing, x.shell, at)
	}
	return p, ok
}

// half is the shell in a bearing: by the number of the rod that it is in, or
// the one that sits at the main.
func (x *shellChooser) half(p pair, part string) plan.Feature {
	return x.s.FeatureAt(x.shell, part, p.hole.At)
}

func (x *shellChooser) thick(half plan.Feature) length.Exact {
	return x.s.Thickness(half, x.stock.byWall)
}

// shiftOf is by how much two halves move the centre line.
func (x *shellChooser) shiftOf(upper, lower plan.Feature) length.Exact {
	return x.thick(lower).Sub(x.thick(upper)).Half()
}

// shellLooks is how many options are looked at before the best found is taken.
const shellLooks = 300_000

// choose tries both ways of mixing halves and takes the better one.
func (x *shellChooser) choose() {
	keep := make([]int, len(x.pairs))
	var best match.Choice
	var of shellOptions
	for i, thickUpper := range []bool{false, true} {
		options := x.options(thickUpper)
		if i == 0 {
			x.out.Now, _ = options.chain.Score(keep)
		}
		if c := options.chain.Best(shellLooks); i == 0 || c.Compare(best.Score) < 0 {
			best, of = c, options
		}
	}
	x.out.Best, x.out.Proven = x.out.Now, best.Proven
	if !best.Gains(x.out.Now) {
		return
	}
	x.out.Best = best.Score
	for row, option := range best.Of {
		if option > 0 {
			x.put(row, of.halves[row][option], of.findings[row][option])
		}
	}
}

// shellOptions are the options of every row: the first leaves what is in.
type shellOptions struct {
	chain    match.Chain
	halves   [][]fit.Halves
	findings [][]Finding
	figures  [][]length.Exact // what neighbours are compared by
}

// options lists what each bearing may get when mixed halves lie one way.
func (x *shellChooser) options(thickUpper bool) shellOptions {
	o := shellOptions{chain: match.Chain{Stock: x.stock.counts()}}
	pairs := x.pairsOnHand(thickUpper)
	for row, p := range x.pairs {
		x.optionsOf(&o, row, p, pairs, thickUpper)
	}
	o.chain.Apart = x.apart(o.figures)
	return o
}

// pairsOnHand are the halves that go together when mixed ones lie one way.
func (x *shellChooser) pairsOnHand(thickUpper bool) []fit.Halves {
	most := x.s.givenOr(GivenMix, plan.Feature{Family: x.shell}, fit.Step(x.stock.shells))
	return fit.Pairs(x.stock.shells, fit.Mix{Most: most, ThickUpper: thickUpper})
}

// optionsOf adds the options of one bearing.
func (x *shellChooser) optionsOf(o *shellOptions, row int, p pair, pairs []fit.Halves, thickUpper bool) {
	r, figure := x.out.Rows[row], x.s.stepFigure(x.a, p.hole)
	mixedOtherWay := r.Shift.Sign() != 0 && (r.Shift.Sign() < 0) != thickUpper
	keep := match.Option{Cost: costOf(r.NowFit)}
	keep.May = keep.May && !mixedOtherWay
	options, halves, findings, figures := []match.Option{keep}, []fit.Halves{{}}, []Finding{r.NowFit}, []length.Exact{figure}
	for _, h := range pairs {
		uses := x.uses(r, h)
		if len(uses) == 0 || !x.may(r.NowFit) {
			continue
		}
		change := h.Change(x.stock.shells, x.thick(r.Upper), x.thick(r.Lower))
		f := x.s.tryFit(x.a, &p, change)
		options = append(options, match.Option{Cost: costOf(f), Uses: uses, Moved: true})
		halves, findings, figures = append(halves, h), append(findings, f), append(figures, figure.Add(change))
	}
	o.chain.Options = append(o.chain.Options, options)
	o.halves, o.findings, o.figures = append(o.halves, halves), append(o.findings, findings), append(o.figures, figures)
}

// uses are the shells that a pair takes from what is on hand: a half that is in
// already is not changed.
func (x *shellChooser) uses(r ShellRow, h fit.Halves) []int {
	var out []int
	if x.stock.shells[h.Upper].Wall != x.thick(r.Upper) {
		out = append(out, h.Upper)
	}
	if x.stock.shells[h.Lower].Wall != x.thick(r.Lower) {
		out = append(out, h.Lower)
	}
	return out
}

// apart says which neighbours are too far apart, where a limit says so.
func (x *shellChooser) apart(figures [][]length.Exact) func(row, a, b int) bool {
	l, ok := limit.Find(x.s.limits, limit.Step, plan.Feature{Family: x.out.Bearing})
	if !ok {
		return nil
	}
	return func(row, a, b int) bool {
		if x.out.Rows[row].At+1 != x.out.Rows[row+1].At {
			return false
		}
		step := figures[row][a].Sub(figures[row+1][b]).Abs()
		return l.Judge(step, limit.Subject{Judge: x.s.rules.Judge}).Verdict == limit.Outside
	}
}

// put puts two halves on hand into a row.
func (x *shellChooser) put(row int, h fit.Halves, f Finding) {
	r := &x.out.Rows[row]
	upper, lower := x.stock.shells[h.Upper], x.stock.shells[h.Lower]
	r.BestUpper, r.BestLower, r.BestFit, r.Shift = upper.Name, lower.Name, f, h.Shift(x.stock.shells)
	for _, one := range []struct {
		half plan.Feature
		in   fit.Shell
	}{{r.Upper, upper}, {r.Lower, lower}} {
		if x.thick(one.half) != one.in.Wall {
			x.out.Changes = append(x.out.Changes, x.s.shellChange(one.half, one.in, x.stock.byWall))
		}
	}
}

// shellChange is the change that fits a shell as a half.
func (s *Session) shellChange(half plan.Feature, in fit.Shell, byWall bool) Change {
	if byWall {
		return Change{Did: FitWall, Of: half, Size: s.Written(in.Wall)}
	}
	return Change{Did: FitShell, Of: half, Size: s.Written(in.Wall.Times(2))}
}
