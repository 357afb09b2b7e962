package sheet

// tidy returns the table without the columns in which nothing stands.
func (t Table) tidy() Table {
	out := Table{Caption: t.Caption, Rows: make([][]Cell, len(t.Rows))}
	for c, name := range t.Columns {
		if !t.says(c) {
			continue
		}
		out.Columns = append(out.Columns, name)
		for i, row := range t.Rows {
			out.Rows[i] = append(out.Rows[i], at(row, c))
		}
	}
	return out
}

// says reports whether anything stands in a column.
func (t Table) says(column int) bool {
	for _, row := range t.Rows {
		if at(row, column).Text != "" {
			return true
		}
	}
	return false
}

// at returns a cell of a row, which may end before it.
func at(row []Cell, column int) Cell {
	if column >= len(row) {
		return Cell{}
	}
	return row[column]
}
