package engine

import (
	"fmt"
	"strconv"
	"strings"

	"borewright/engine/fit"
	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// The columns of tables. Shells on hand are of a shell's family: a name, an
// undersize or a wall, a half (upper or lower, either when empty) and how many
// halves there are. A ladder is of a bore, a journal or the end play: a name
// and the step from standard, up or down as wear goes, or a name and the range
// from low to high that a size is for.
// Locks are of a loose part's family: its number and the one position where it
// stays, or those where alone it may be; without either it stays where it is.
const (
	ColumnName      = "name"
	ColumnUndersize = "undersize"
	ColumnWall      = "wall"
	ColumnHalf      = "half"
	ColumnCount     = "count"
	ColumnStep      = "step"
	ColumnLow       = "low"
	ColumnHigh      = "high"
	ColumnPart      = "part"
	ColumnAt        = "at"
	ColumnOnly      = "only"
)

// table returns a table of a family; ok is false when there is none, or nothing
// stands in it.
func (s *Session) table(name string, f plan.Family) (t record.Table, ok bool) {
	t = s.tables[tableKey{name, string(f)}]
	return t, len(t.Rows) > 0
}

// tableRow is a row of a table and where it stands, for saying what is wrong.
type tableRow struct {
	cells map[string]string
	what  string
	unit  length.Unit
	bad   *[]string
}

// rowsOf returns the rows of a table; what is wrong with one goes into bad.
func (s *Session) rowsOf(t record.Table, bad *[]string) []tableRow {
	var out []tableRow
	for i, cells := range t.Rows {
		what := fmt.Sprintf("row %d of the %s of %s", i+1, t.Name, s.nameOf(t.Of))
		if t.Name == record.Shells {
			what = fmt.Sprintf("row %d of the shells on hand for %s", i+1, shellsOf(plan.Family(t.Of)))
		}
		out = append(out, tableRow{cells, what, s.Unit(), bad})
	}
	return out
}

// complain says what is wrong with the row.
func (r tableRow) complain(format string, args ...any) {
	*r.bad = append(*r.bad, r.what+" "+fmt.Sprintf(format, args...))
}

// name returns the row's name, else what stands in a column.
func (r tableRow) name(else_ string) string {
	if n := strings.TrimSpace(r.cells[ColumnName]); n != "" {
		return n
	}
	return r.cells[else_]
}

// length reads a column; ok is false, and said so, when it holds no length.
func (r tableRow) length(column string) (l length.Length, ok bool) {
	w, err := length.Parse(r.cells[column], r.unit)
	if err != nil {
		r.complain("has no %s", column)
		return 0, false
	}
	return w.Length, true
}

// stock is the shells on hand of one family.
type stock struct {
	shells []fit.Shell
	// byWall says that they are told by their walls, not by their undersizes.
	byWall  bool
	missing []string
}

// onHand returns the shells on hand of a family. They are all told by their
// undersize or all by their wall: whichever the first row has.
func (s *Session) onHand(shell plan.Family) stock {
	t, ok := s.table(record.Shells, shell)
	if !ok || len(t.Rows) == 0 {
		return stock{missing: []string{"no shells on hand are given for " + shellsOf(shell)}}
	}
	x := stock{}
	_, x.byWall = t.Rows[0][ColumnWall]
	for _, r := range s.rowsOf(t, &x.missing) {
		if one, ok := x.shell(r); ok {
			x.shells = append(x.shells, one)
		}
	}
	return x
}

// shellsOf names what shells of a family are for.
func shellsOf(shell plan.Family) string {
	if shell == plan.ShellRod {
		return "the rods"
	}
	return "the mains"
}

func (x stock) shell(r tableRow) (fit.Shell, bool) {
	column := ColumnUndersize
	if x.byWall {
		column = ColumnWall
	}
	size, ok := r.length(column)
	if !ok {
		return fit.Shell{}, false
	}
	count, err := strconv.Atoi(strings.TrimSpace(r.cells[ColumnCount]))
	if err != nil || count < 0 {
		r.complain("says not how many there are")
		return fit.Shell{}, false
	}
	out := fit.Undersized(r.name(column), size, count)
	if x.byWall {
		out.Wall = length.Of(size)
	}
	half := r.cells[ColumnHalf]
	out.NotUpper, out.NotLower = half == plan.Lower, half == plan.Upper
	return out, true
}

// counts returns how many there are of each shell.
func (x stock) counts() []int {
	var out []int
	for _, one := range x.shells {
		out = append(out, one.Count)
	}
	return out
}

// rungs returns the steps that a family's parts are made in, and what is
// missing.
func (s *Session) rungs(f plan.Family) (out []fit.Rung, missing []string) {
	t, ok := s.table(record.Ladder, f)
	if !ok {
		return nil, []string{"no ladder is given for " + f.Plural()}
	}
	for _, r := range s.rowsOf(t, &missing) {
		if _, selects := r.cells[ColumnLow]; selects {
			continue
		}
		switch step, ok := r.length(ColumnStep); {
		case !ok:
		case step == 0:
			r.complain("is no step: it is zero")
		default:
			out = append(out, fit.Rung{Name: r.name(ColumnStep), By: max(step, -step)})
		}
	}
	return out, missing
}

// Sizes returns which sizes of its family's selection ladder a figure is for:
// one, several, or none of them; ok is false when there is no such ladder.
func (s *Session) Sizes(f plan.Family, y length.Exact) (fits fit.Fits, ok bool) {
	t, _ := s.table(record.Ladder, f)
	var choices []fit.Choice
	var bad []string
	for _, r := range s.rowsOf(t, &bad) {
		if _, selects := r.cells[ColumnLow]; !selects {
			continue
		}
		low, okLow := r.length(ColumnLow)
		high, okHigh := r.length(ColumnHigh)
		if okLow && okHigh {
			choices = append(choices, fit.Choice{Name: r.name(ColumnLow), Range: fit.Range{Low: low, High: high}})
		}
	}
	return fit.Selection(choices, y), len(choices) > 0
}
