package sheet

import "strings"

// tablesIn is a table of the first view with the figures of the other one below
// its own: none where it has no rows, and one a view where their rows are not
// the same ones.
func tablesIn(views []view, table func(view) Table) []Table {
	out := table(views[0])
	if len(out.Rows) == 0 {
		return nil
	}
	if len(views) == 1 {
		return []Table{out}
	}
	other := table(views[1])
	if len(other.Rows) != len(out.Rows) {
		return []Table{out, other}
	}
	out.setBelow(other)
	word, more := "in "+unitWord(views[0]), ", below it in "+unitWord(views[1])
	for _, w := range []string{word, upper(word)} {
		out.Caption = strings.Replace(out.Caption, w, w+more, 1)
	}
	return []Table{out}
}

// setBelow puts the figures of the same table in another unit below its own, in
// the columns that are of a unit.
func (t Table) setBelow(other Table) {
	for c := range t.Columns {
		if !t.differs(other, c) {
			continue
		}
		for i, row := range t.Rows {
			if c < len(row) && row[c].Number {
				row[c].Below = at(other.Rows[i], c).Text
			}
		}
	}
}

// differs reports whether a column has other figures in another unit.
func (t Table) differs(other Table, column int) bool {
	for i, row := range t.Rows {
		if x := at(row, column); x.Number && x.Text != at(other.Rows[i], column).Text {
			return true
		}
	}
	return false
}
