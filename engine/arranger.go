package engine

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"borewright/engine/length"
	"borewright/engine/match"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// arranger works an arrangement out.
type arranger struct {
	s    *Session
	a    *Assessment
	kind arrangedKind
	// at are the positions arranged, part the parts, both from 1.
	at, part []int
	problem  match.Problem
	finding  [][]Finding
	out      Arrangement
}

func (x *arranger) miss(format string, args ...any) {
	x.out.Missing = append(x.out.Missing, fmt.Sprintf(format, args...))
}

// half is the part's half by which a seat is told: the upper shell, or none.
func (x *arranger) half() string {
	if t, _ := x.kind.part.Traits(); len(t.Parts) > 0 {
		return t.Parts[0]
	}
	return ""
}

func (x *arranger) feature(part int) plan.Feature {
	return plan.Feature{Family: x.kind.part, At: part, Part: x.half()}
}

// seated returns the part at a position, 0 for none.
func (x *arranger) seated(at int) int { return x.s.partAt(x.feature(at), at).At }

// measured reports whether a part is read.
func (x *arranger) measured(part int) bool {
	f := plan.Feature{Family: x.kind.reads, At: part, Part: x.half()}
	m, _ := x.a.Feature(f)
	return m.Read > 0
}

// positions are those whose hole and shaft are read, as far as they are cut in,
// and that have no part or one that is read: what is not known stays as it is.
func (x *arranger) positions() {
	t, _ := x.kind.part.Traits()
	for at := 1; at <= t.Count(x.s.layout); at++ {
		now := x.seated(at)
		switch where := x.s.Name(plan.Feature{Family: x.kind.part, At: at, Part: x.half()}); {
		case now > 0 && !x.measured(now):
			x.miss("%s is not measured and stays where it is", x.s.Name(x.feature(now)))
		case !x.cutIn(at):
			x.miss("what %s runs in or on is not measured: it stays where it is", where)
		default:
			if now == 0 {
				x.miss("there is no %s at %s", x.kind.part.Noun(), x.s.Name(plan.Feature{Family: x.seat(), At: at}))
			}
			x.at = append(x.at, at)
		}
	}
}

// cutIn reports whether what a part meets at a position is read.
func (x *arranger) cutIn(at int) bool {
	p, ok := x.kind.pair(x.s, 1, at)
	if !ok {
		return false
	}
	hole, _ := x.a.Feature(p.hole)
	shaft, _ := x.a.Feature(p.shaft)
	housing, _ := x.a.Feature(p.parts.housing)
	switch x.kind.part {
	case plan.Piston:
		return hole.Read > 0
	case plan.Rod:
		return shaft.Read > 0
	default:
		return housing.Read > 0 && shaft.Read > 0
	}
}

// parts are those at the positions, and those that are read and put aside.
func (x *arranger) parts() {
	t, _ := x.kind.part.Traits()
	for part := 1; part <= t.Count(x.s.layout); part++ {
		seat := x.s.Seat(x.feature(part))
		if at := slices.Index(x.at, seat); x.measured(part) && (at >= 0 || seat == 0) {
			x.part = append(x.part, part)
			x.problem.Now = append(x.problem.Now, at)
		}
	}
}

// costs judges every part at every position.
func (x *arranger) costs() {
	judged := false
	for _, part := range x.part {
		costs, found := make([]match.Cost, len(x.at)), make([]Finding, len(x.at))
		for i, at := range x.at {
			p, ok := x.kind.pair(x.s, part, at)
			if !ok {
				continue
			}
			found[i] = x.s.tryFit(x.a, &p, length.Of(0))
			costs[i] = costOf(found[i])
			judged = judged || found[i].Judgement.By != ""
		}
		x.problem.Costs, x.finding = append(x.problem.Costs, costs), append(x.finding, found)
	}
	if !judged && len(x.part) > 0 {
		x.miss("no limit on the clearance of %s is given to arrange %s by", x.kind.hole.Plural(), x.kind.part.Plural())
	}
}

// locks keeps to the table of locks.
func (x *arranger) locks() {
	t, _ := x.s.table(record.Locks, x.kind.part)
	var bad []string
	for _, r := range x.s.rowsOf(t, &bad) {
		part := slices.Index(x.part, numbers(r.cells[ColumnPart])[0])
		if part < 0 {
			continue
		}
		at, only := x.indexOf(numbers(r.cells[ColumnAt])), x.indexOf(numbers(r.cells[ColumnOnly]))
		switch {
		case r.cells[ColumnOnly] != "":
			x.problem.Only(part, only...)
		case r.cells[ColumnAt] != "" && len(at) == 1:
			x.problem.Lock(part, at[0])
		case r.cells[ColumnAt] == "" && x.problem.Now[part] != match.None:
			x.problem.Lock(part, x.problem.Now[part])
		default:
			r.complain("locks nothing: there is no position %s to lock to", r.cells[ColumnAt])
		}
	}
	x.out.Missing = append(x.out.Missing, bad...)
}

// numbers reads whole numbers; it returns 0 alone where there are none.
func numbers(text string) []int {
	var out []int
	for _, field := range strings.FieldsFunc(text, func(r rune) bool { return r < '0' || r > '9' }) {
		if n, err := strconv.Atoi(field); err == nil {
			out = append(out, n)
		}
	}
	if len(out) == 0 {
		return []int{0}
	}
	return out
}

// indexOf returns where positions stand among those arranged.
func (x *arranger) indexOf(at []int) []int {
	var out []int
	for _, n := range at {
		if i := slices.Index(x.at, n); i >= 0 {
			out = append(out, i)
		}
	}
	return out
}
